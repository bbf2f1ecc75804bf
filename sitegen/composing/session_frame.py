"""What a session has around the blocks that are composed: its film, the blocks before and after, the
rests."""

from collections.abc import Iterable

from sitegen.composing.preparing import Preparing
from sitegen.composing.session_shape import SessionShape
from sitegen.composing.single_exercise import seconds_besides_items
from sitegen.composing.so_far import SoFar
from sitegen.composing.written_plan import WrittenPlan
from sitegen.model import Block
from sitegen.study.span import Span, total
from sitegen.study.timing import block_time
from sitegen.vocabulary import COOL_DOWN, WARM_UP


class SessionFrame:
    """The film and the blocks that are not composed, with the time that they take."""

    def __init__(self, so_far: SoFar, preparing: Preparing) -> None:
        self._so_far = so_far
        self._preparing = preparing
        self.film = _usual_film(so_far)
        """Seconds of a film by the filmed sessions, on average; 0 where none is known."""

    def opening(self, shape: SessionShape) -> tuple[Block, ...]:
        """What a session begins with before anything suits the day: shared blocks, or the last warm-up."""
        return self._shown(shape.opening) or self._preparing.last(WARM_UP)

    def closing(self, shape: SessionShape) -> tuple[Block, ...]:
        """What it ends with before anything suits the day: shared blocks, or the last cool-down."""
        return self._shown(shape.closing) or self._preparing.last(COOL_DOWN)

    def seconds_of(self, blocks: Iterable[Block]) -> Span:
        """Seconds of warm-ups and the like; what was last done along with the film is in its length."""
        return self.worked_out(block for block in blocks if block.at is None or block.your_turn is not None)

    def worked_out(self, blocks: Iterable[Block]) -> Span:
        """Seconds of blocks by their sets, doses and rests."""
        details, forms = self._so_far.details, self._so_far.forms
        return total(block_time(details, forms, block).seconds for block in blocks)

    def seconds_around(self, shape: SessionShape, written: WrittenPlan | None = None) -> Span:
        """Seconds of the blocks that are not composed: of a written plan those that stand in it."""
        if written is None:
            return self.seconds_of((*self.opening(shape), *self.closing(shape)))
        routines = [block.routine for block in written.others if block.routine]
        known = [routine for routine in routines if self._last_shown(routine)]
        unknown = [block for block in written.others if block.routine not in known]
        return self.seconds_of(self._shown(known)) + self.worked_out(unknown)

    def seconds_fixed(self, shape: SessionShape, written: WrittenPlan | None = None) -> float:
        """Seconds of a session besides its exercises, at the long end: film, other blocks, rests."""
        details = self._so_far.details
        own = sum(seconds_besides_items(details, one.block, one.places) for one in shape.blocks)
        return self.film + self.seconds_around(shape, written).high + own

    def _last_shown(self, routine: str) -> Block | None:
        """A shared block as the last session has it; None where no session has it."""
        blocks = (block for episode in reversed(self._so_far.series.sessions) for block in episode.blocks)
        return next((block for block in blocks if block.routine == routine), None)

    def _shown(self, routines: Iterable[str]) -> tuple[Block, ...]:
        return tuple(block for block in map(self._last_shown, routines) if block is not None)


def _usual_film(so_far: SoFar) -> int:
    known = [e.video.length for e in so_far.series.sessions if e.video and e.video.length]
    return round(sum(known) / len(known)) if known else 0
