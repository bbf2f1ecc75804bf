"""Two unequal loads: which hand holds the heavier one when, so that both sides do equal work.

The plan: swap from set to set; with an odd number of sets, swap once more half way through the
last one. Where the repetitions of that last set are odd as well, one repetition stays over.
"""

from dataclasses import dataclass

from sitegen.model import Item
from sitegen.notation import Dose, Load
from sitegen.study.load import difference
from sitegen.study.span import Span


@dataclass(frozen=True, slots=True)
class RotatedSet:
    """One set: how much of it is done with the heavier load in either hand."""

    number: int
    """From 1."""
    left: float
    """Repetitions, steps, breaths or seconds with the heavier load in the left hand."""
    right: float
    begins: str
    """``left`` or ``right``: the hand that holds the heavier load at the set's start."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rotation:
    """The plan for all sets of one item."""

    sets: tuple[RotatedSet, ...]
    unit: str
    """What ``left`` and ``right`` count: ``reps``, ``steps``, ``breaths`` or ``seconds``."""
    difference_kg: float
    """Between the two loads."""

    @property
    def left(self) -> float:
        """Amount done with the heavier load in the left hand."""
        return sum(one.left for one in self.sets)

    @property
    def right(self) -> float:
        """Amount done with the heavier load in the right hand."""
        return sum(one.right for one in self.sets)

    @property
    def residual(self) -> float:
        """What the left side does more than the right, in kilograms times the unit."""
        return (self.left - self.right) * self.difference_kg


def rotation(sets: int, dose: Dose, load: Load) -> Rotation | None:
    """The plan for ``sets`` sets of a dose at its high end.

    None where the loads weigh the same, or where the amount is not known beforehand (``max``).
    """
    apart = difference(load)
    if apart == 0 or dose.kind == "max":
        return None
    unit = dose.measure
    parts = tuple(map(float, dose.parts or (dose.high,))) * dose.sides
    plan = [_swapped(number, parts) for number in range(1, sets + 1)]
    if sets % 2:
        plan[-1] = _halved(sets, sum(parts), unit)
    return Rotation(sets=tuple(plan), unit=unit, difference_kg=apart)


def rotations(item: Item, sets: Span) -> tuple[Rotation, ...]:
    """A plan for each number of sets in the range; empty where none is needed."""
    if item.load is None or item.dose is None:
        return ()
    counts = range(max(1, int(sets.low)), int(sets.high) + 1)
    plans = (rotation(count, item.dose, item.load) for count in counts)
    return tuple(plan for plan in plans if plan is not None)


def _swapped(number: int, parts: tuple[float, ...]) -> RotatedSet:
    """A set in which the load changes hands between its parts; even sets begin on the right."""
    first, second = sum(parts[0::2]), sum(parts[1::2])
    if number % 2:
        return RotatedSet(number, first, second, "left")
    return RotatedSet(number, second, first, "right")


def _halved(number: int, amount: float, unit: str) -> RotatedSet:
    """A set with one swap in the middle; only seconds can be cut in half exactly."""
    second = amount / 2 if unit == "seconds" else float(amount // 2)
    return RotatedSet(number, amount - second, second, "left")
