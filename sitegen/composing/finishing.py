"""What is chosen after the exercises of a session: sets and rests, warm-up and cool-down.

Each step is taken only where it breaks no bound that was kept before it, so that finishing a session never
costs what the search has kept.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from sitegen.composing.conflicts import BrokenRule
from sitegen.composing.level import has_sets
from sitegen.composing.pool import ItemCandidate, Pool
from sitegen.composing.preparing import Preparing
from sitegen.composing.session_frame import SessionFrame
from sitegen.composing.session_shape import FEWEST_SETS, MOST_SETS, BlockShape
from sitegen.composing.sets_and_rests import fitted, has_large
from sitegen.composing.single_exercise import share_of_one
from sitegen.composing.verify import broken_bounds
from sitegen.composing.wishes import SessionWishes
from sitegen.model import Block, Episode
from sitegen.notation import Count
from sitegen.problems import Location
from sitegen.study.span import Span
from sitegen.vocabulary import COOL_DOWN, WARM_UP

TRIED = 2
"""Warm-ups and cool-downs that are tried: the second best where the best takes too long."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnfinishedSession:
    """A session while its parts are chosen."""

    opening: tuple[Block, ...]
    """As they were last shown, with the times of that film."""
    own: tuple[Block, ...]
    closing: tuple[Block, ...]
    chosen: tuple[tuple[ItemCandidate, ...], ...]
    """Of each block of its own."""
    reasons: Mapping[str, str]
    """Why the warm-up and the cool-down were chosen, by kind."""


class Finishing:
    """Finishes drafts of the next session, and tells which bounds they break."""

    def __init__(self, pool: Pool, preparing: Preparing, frame: SessionFrame) -> None:
        self._so_far = pool.so_far
        self._pool = pool
        self._preparing = preparing
        self._frame = frame

    def finished(
        self, draft: UnfinishedSession, shapes: Sequence[BlockShape], wishes: SessionWishes
    ) -> tuple[UnfinishedSession, tuple[BrokenRule, ...]]:
        """The draft with all that suits its exercises, and the bounds it breaks: no others than before."""
        conflicts = self._conflicts(draft, wishes)
        for better in self._steps(shapes, wishes):
            tried = better(draft)
            now = self._conflicts(tried, wishes)
            if not Counter(one.rule for one in now) - Counter(one.rule for one in conflicts):
                draft, conflicts = tried, now
        return draft, conflicts

    def episode(self, draft: UnfinishedSession) -> Episode:
        """The plan that a draft comes to."""
        number = self._so_far.room.number
        return Episode(
            slug=f"session-{number}",
            number=number,
            title=f"Session {number}",
            released=self._so_far.room.day,
            blocks=(*map(unfilmed, draft.opening), *draft.own, *map(unfilmed, draft.closing)),
            location=Location(f"episodes/{number:02d}-session-{number}.yaml"),
        )

    def seconds_of(self, draft: UnfinishedSession) -> Span:
        """How long the session takes at home, its film included."""
        around = self._frame.seconds_of((*draft.opening, *draft.closing))
        return self._frame.worked_out(draft.own) + around + Span(self._frame.film, self._frame.film)

    def _conflicts(self, draft: UnfinishedSession, wishes: SessionWishes) -> tuple[BrokenRule, ...]:
        """All bounds that a draft breaks."""
        return tuple(broken_bounds(self._so_far, self.episode(draft), wishes, self.seconds_of(draft)))

    def _steps(
        self, shapes: Sequence[BlockShape], wishes: SessionWishes
    ) -> Iterator[Callable[[UnfinishedSession], UnfinishedSession]]:
        blocks = list(enumerate(shapes))
        for number, shape in blocks:
            yield partial(self._with_sets, number, replace(shape, asked=True))
        for _ in range(MOST_SETS - FEWEST_SETS):  # a set at a time, so that one block does not eat the time
            for number, shape in blocks:
                yield partial(self._with_sets, number, shape)
        for kind in (COOL_DOWN, WARM_UP):
            for place in reversed(range(TRIED)):  # the best that breaks no bound is the last that is taken
                yield partial(self._with_prepared, kind, wishes, place)

    def _with_sets(self, number: int, shape: BlockShape, draft: UnfinishedSession) -> UnfinishedSession:
        """A session with the rests that its exercises ask for, and with sets where nobody asked for some."""
        before, chosen = draft.own[number], draft.chosen[number]
        forms = [one.form for one in chosen]
        block = fitted(shape, before, forms, self._so_far.level, last=number == len(draft.own) - 1)
        others = [one for place, one in enumerate(draft.own) if place != number]
        block = replace(block, sets=_nearer(before.sets, block.sets, others, large=has_large(block, forms)))
        if block.sets != before.sets:
            alone = share_of_one(replace(shape, block=replace(block, items=())))
            chosen = tuple(self._pool.redosed(one, alone) for one in chosen)
        block = replace(block, items=tuple(one.item for one in chosen))
        own = (*draft.own[:number], block, *draft.own[number + 1 :])
        return replace(draft, own=own, chosen=(*draft.chosen[:number], chosen, *draft.chosen[number + 1 :]))

    def _with_prepared(
        self, kind: str, wishes: SessionWishes, place: int, draft: UnfinishedSession
    ) -> UnfinishedSession:
        """A session with the warm-up or cool-down for what it does, of that place among the good ones."""
        stands = draft.opening if kind == WARM_UP else draft.closing
        if len(stands) > 1 or any(block.kind != kind for block in stands):
            return draft  # the trainer has an order of her own there
        ranked = self._preparing.ranked(kind, draft.own, partial(self._pool.may_stand, wishes=wishes))
        if place >= len(ranked):
            return draft
        found = ranked[place]
        reasons = {**draft.reasons, kind: found.reason}
        if kind == WARM_UP:
            return replace(draft, opening=(found.block,), reasons=reasons)
        return replace(draft, closing=(found.block,), reasons=reasons)


def _nearer(now: Count, wanted: Count, others: Iterable[Block], *, large: bool) -> Count:
    """One set nearer to what is wanted, so that blocks grow together, small muscles last; fewer at once."""
    counted = [one.sets.low for one in others if one.kind == "strength" and has_sets(one.format)]
    most = min(counted, default=MOST_SETS) + large
    if wanted.low > now.low and now.low + 1 > most:
        return now
    return Count(min(wanted.low, now.low + 1), min(wanted.high, now.high + 1))


def unfilmed(block: Block) -> Block:
    """A block as a plan has it: without the times of a film."""
    items = tuple(replace(item, at=None) for item in block.items)
    return replace(block, at=None, your_turn=None, items=items)
