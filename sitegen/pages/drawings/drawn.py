"""A form as drawn: its pictures with the sentences that say the same."""

from dataclasses import dataclass
from typing import Any

from sitegen.pages.drawings.picture import Picture, pictures
from sitegen.pages.drawings.sentences import PoseWords
from sitegen.study.body.movement import Movement, key_pose
from sitegen.study.forms import Form
from sitegen.study.posed_forms import PosedForms
from sitegen.system.reads import Shared


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """One pose of a form."""

    label: str
    """``Start``, ``Finish`` and so on, for reading; empty for a pose on the way."""
    picture: Picture
    words: str
    """What it shows, as a sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnForm:
    """The pictures and words of a form."""

    frames: tuple[Frame, ...]
    """From the start to the finish; one where the pose is held."""
    move: str
    """What moves, as a sentence; empty where a pose is held."""
    key: Frame
    """The one that shows best what the form is, for small places."""
    words: str
    """All of it in one text alternative."""


class Drawings:
    """Draws the forms of one site, each once."""

    def __init__(self, strings: Any, posed: PosedForms | None = None) -> None:
        self._posed = posed or PosedForms()
        self._words = strings
        self._says = PoseWords(strings)
        self._drawn: Shared[DrawnForm | None] = Shared()

    def of(self, form: Form) -> DrawnForm | None:
        """The drawing of a form; None where nothing is said about its poses."""
        return self._drawn.get(form.key, lambda: self._draw_if_posed(form))

    def _draw_if_posed(self, form: Form) -> DrawnForm | None:
        movement = self._posed.movement(form)
        return None if movement is None else self._draw(form, movement)

    def _draw(self, form: Form, movement: Movement) -> DrawnForm:
        own = form.poses.says if form.poses is not None else {}
        shown = pictures(movement)
        last = len(shown) - 1
        frames = []
        for index, (picture, figure) in enumerate(zip(shown, movement.figures, strict=True)):
            if index == 0:
                label = self._words.start if last else self._words.hold
                words = own.get("start") or self._says.start(figure)
            else:
                label = self._words.finish if index == last else ""
                words = self._says.finish(figure, movement.figures[index - 1])
                if index == last:
                    words = own.get("finish") or words
            frames.append(Frame(label=label, picture=picture, words=words))
        move = (own.get("move") or self._says.move(movement)) if last else ""
        whole = self._words.picture if last else self._words.picture_held
        return DrawnForm(
            frames=tuple(frames),
            move=move,
            key=frames[key_pose(movement)],
            words=own.get("picture") or whole.format(start=frames[0].words, finish=frames[-1].words),
        )
