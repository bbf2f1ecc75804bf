"""What forms ask of the joints, in words: shares of the weight, moments, and how one form compares."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from sitegen.study.body.compare import BENT, CARRY, busy, compared
from sitegen.study.body.moments import JOINTS
from sitegen.study.forms import Form
from sitegen.study.posed_forms import PosedForms


@dataclass(frozen=True, slots=True, kw_only=True)
class AsksView:
    """One form's figures, ready to read."""

    joints: tuple[tuple[str, str], ...]
    """Joint and its moment in the hardest drawn pose; without joints of which hardly anything is asked."""
    angles: str
    """Bend of the knee that carries and inclination of the trunk, where they say something."""
    share: str
    """Share of the body's weight on the hands; empty where they carry little."""


_LITTLE = 5.0
"""Newton metres, and per cent of the weight, that are not worth a line."""
_SEEN, _LYING_DOWN = 20, 95
"""Degrees: a smaller bend or lean is not worth a line, and a trunk tipped further than level is no lean any
more: it lies or hangs. 20 as in ``study/body/derived.py``; our choice."""


class AsksWords:
    """Says in the theme's words what forms ask."""

    def __init__(self, strings: Any, posed: PosedForms | None = None) -> None:
        self._posed = posed or PosedForms()
        self._words = strings.asks

    def of(self, form: Form) -> AsksView | None:
        """The figures of a form; None where nothing is said about its poses."""
        asks = self._posed.asks(form)
        if asks is None:
            return None
        joints = tuple(
            # To 5 N·m: more digits would pretend to know more.
            (self._words.joints[joint], self._words.moment.format(moment=round(asks.moments[joint] / 5) * 5))
            for joint in JOINTS
            if asks.moments[joint] >= _LITTLE and not (joint == "shoulders" and asks.hands >= CARRY)
        )
        hands = round(asks.hands * 20) * 5  # to 5 %, as moments are to 5 N·m
        angles = [self._words.knee.format(angle=_tens(asks.knee))] if asks.knee >= _SEEN else []
        angles += (
            [self._words.trunk.format(angle=_tens(asks.trunk))] if _SEEN <= asks.trunk <= _LYING_DOWN else []
        )
        return AsksView(
            joints=joints,
            angles=self._words.separator.join(angles),
            share=self._words.share.format(hands=hands) if hands >= _LITTLE else "",
        )

    def compared(self, form: Form, other: Form, steps: int = 0) -> str:
        """``Easier on the knees.``; empty where there is no difference to speak of.

        Of a form so many ``steps`` harder (or, negative, easier) what is the other way is told only where it
        is much. Of what moves or stretches nothing is told: how hard it is does not hang on loads.
        """
        mine, theirs = self._posed.asks(form), self._posed.asks(other)
        if mine is None or theirs is None or form.key == other.key or other.pattern == "mobility":
            return ""
        levels = {
            joint: level for joint, level in compared(mine, theirs).items() if busy(joint, mine, theirs)
        }
        bent = mine.knee - theirs.knee
        bends = levels.get("knees") == "same" and abs(bent) >= BENT and bent * steps >= 0
        easier = self._listed(self._words.easier, levels, "less", only_much=steps > 0)
        harder = self._listed(self._words.harder, levels, "more", only_much=steps < 0)
        if (steps > 0 and not harder) or (steps < 0 and not easier):
            easier = harder = ""  # "easier on the hips" of a harder step tells nobody why it is harder
        bend = (self._words.bends_more if bent > 0 else self._words.bends_less) if bends else ""
        return " ".join(filter(None, [easier, harder, bend]))

    def _listed(self, words: str, levels: Mapping[str, str], level: str, *, only_much: bool) -> str:
        """The joints of a level; where one differs much, nobody need hear of those that differ little."""
        joints = [self._words.short[joint] for joint, found in levels.items() if found == f"much {level}"]
        if not joints and not only_much:
            joints = [self._words.short[joint] for joint, found in levels.items() if found == level]
        *others, last = joints or [""]
        first = self._words.separator.join(others)
        listed = self._words.last.format(first=first, last=last) if others else last
        return words.format(joints=listed) if joints else ""


def _tens(angle: float) -> int:
    """To ten degrees, for the same reason."""
    return round(angle / 10) * 10
