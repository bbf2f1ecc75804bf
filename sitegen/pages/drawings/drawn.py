"""A form as drawn: its pictures with the sentences that say the same."""

from dataclasses import dataclass
from itertools import pairwise
from typing import Any, NamedTuple

from sitegen.pages.drawings.picture import PosePicture, pictures
from sitegen.pages.drawings.sentences import PoseWords
from sitegen.study.body.movement import ends_where_it_began, key_pose, working_side
from sitegen.study.forms import Form
from sitegen.study.posed_forms import PosedForms
from sitegen.system.noted_reads import Shared


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnPose:
    """One pose of a form."""

    label: str
    """``Start``, ``Finish`` and so on, for reading; empty for a pose on the way."""
    picture: PosePicture
    words: str
    """What it shows, as a sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnForm:
    """The pictures and words of a form."""

    frames: tuple[DrawnPose, ...]
    """From the start to the finish; one where the pose is held."""
    move: str
    """What moves, as a sentence; empty where nobody wrote it and the poses leave it open."""
    key: DrawnPose
    """The one that shows best what the form is, for small places."""
    words: str
    """All of it in one text alternative."""
    side: str = ""
    """The side that works in it, ``left`` or ``right``; empty where that is left open."""


class Drawings:
    """Draws the forms of one site, each once."""

    def __init__(self, strings: Any, posed: PosedForms | None = None) -> None:
        self._posed = posed or PosedForms()
        self._words = strings
        self._says = PoseWords(strings)
        self._drawn: Shared[DrawnForm | None] = Shared()
        self._said: Shared[_Said | None] = Shared()

    def of(self, form: Form) -> DrawnForm | None:
        """The drawing of a form; None where nothing is said about its poses."""
        return self._drawn.get(form.key, lambda: self._draw(form))

    def words(self, form: Form) -> str:
        """The text alternative alone, which takes no drawing; empty where nothing is said about its poses."""
        said = self._sentences(form)
        return said.whole if said is not None else ""

    def _draw(self, form: Form) -> DrawnForm | None:
        movement, said = self._posed.movement(form), self._sentences(form)
        if movement is None or said is None:
            return None
        shown = zip(said.labels, pictures(movement), said.words, strict=True)
        frames = tuple(
            DrawnPose(label=label, picture=picture, words=words) for label, picture, words in shown
        )
        return DrawnForm(
            frames=frames,
            move=said.move,
            key=frames[key_pose(movement)],
            words=said.whole,
            side=working_side(movement),
        )

    def _sentences(self, form: Form) -> "_Said | None":
        return self._said.get(form.key, lambda: self._say(form))

    def _say(self, form: Form) -> "_Said | None":
        movement = self._posed.movement(form)
        if movement is None or form.poses is None:
            return None
        own, figures, last = form.poses.says, movement.figures, len(movement.figures) - 1
        words = [own.get("start") or self._says.start(figures[0], alone=not last)]
        words += [self._says.finish(figure, before) for before, figure in pairwise(figures)]
        if last:
            again = ends_where_it_began(movement)
            words[last] = own.get("finish") or (self._words.back_at_start if again else words[last])
        start = self._words.start if last else self._words.hold
        move = form.move or self._says.move(movement)
        # Where a sentence says the way, the poses on the way need no words of their own.
        ways = [move] if move else words[1:-1]
        ends = [self._words.picture_finish.format(finish=words[-1])] if last and words[-1] else []
        return _Said(
            labels=(start, *[""] * (last - 1), *[self._words.finish] * (last > 0)),
            words=tuple(words),
            move=move,
            whole=own.get("picture") or " ".join(filter(None, [words[0], *ways, *ends])),
        )


class _Said(NamedTuple):
    """What is said of a form: a label and a sentence for each pose, one for the way, and all in one."""

    labels: tuple[str, ...]
    words: tuple[str, ...]
    move: str
    whole: str
