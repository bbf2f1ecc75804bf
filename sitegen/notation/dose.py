"""Doses: how much of an exercise one set asks for, and how a variant changes that."""

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from sitegen.notation.durations import Duration
from sitegen.notation.errors import NotationError
from sitegen.notation.quantity import DISTANCES_CM
from sitegen.notation.text import RANGE, RESERVE, THEN, print_range, range_of, tidy

COUNTED = ("reps", "steps", "breaths")
"""What a count may count; ``reps`` is the default and is not written."""

_COUNT = re.compile(rf"{RANGE}(?: (?P<unit>reps?|repetitions?|steps?|breaths?))?")  # "8", "8-12", "20 steps"
# "30 m", "60-80 feet".
_DISTANCE = re.compile(rf"{RANGE} ?(?P<unit>m|met(?:re|er)s?|ft|foot|feet|yd|yds|yards?)")
_SPLIT = re.compile(r"\d+(?: ?\+ ?\d+)+")  # "8 + 7"
# "8 each side", "8 per leg", "8 / side"; a bare "each" is told apart, for it has two meanings.
_SIDES = re.compile(r"(.*\S)(?: (?:each|per|a) (?P<word>side|leg|arm|hand|way)| (?P<bare>each)| ?/ ?side)")
_EXAMPLE = "write for example 8, 8-12, 8 each side, 30 s, 20 steps, 30 m, 8 + 7 or max, 2 in reserve"
_CHANGE_EXAMPLE = (
    "write for example same, half, -2, +10 s, both sides, each side, or the new dose such as 6-8 or 20-30 s"
)
_BOTH_SIDES = "both sides"
_EACH_SIDE = "each side"
_FACTORS = {"half": 0.5, "same": 1.0, "double": 2.0}
_DIFFERENCE = re.compile(r"([+-]) ?(\d+) ?(s|m|ft|yd|reps|steps|breaths)?")  # "-2", "+10 s"


@dataclass(frozen=True, slots=True, kw_only=True)
class Dose:
    """What one set of an item asks for."""

    kind: str
    """``count``, ``time``, ``distance`` or ``max`` (as many as can be done well)."""
    low: int = 0
    """Fewest of the measure; of one side where ``per_side``. 0 for ``max``."""
    high: int = 0
    """Most; equal to ``low`` where the dose is exact."""
    unit: str = "reps"
    """What a count counts (one of :data:`COUNTED`), or what a distance is in (``m``, ``ft`` or ``yd``)."""
    parts: tuple[int, ...] = ()
    """The parts of a split such as ``8 + 7``; empty where the set is done in one go."""
    per_side: bool = False
    ways: bool = field(default=False, compare=False)
    """True where the two sides are directions, such as circles one way and the other: only a word."""
    bare_each: bool = field(default=False, compare=False)
    """True where only ``each`` is written: each side of what is known to be one-sided, else each exercise of
    a pair, and nobody can tell; whoever knows the exercise asks."""
    reserve: tuple[int, int] | None = None
    """Repetitions to leave in reserve (low, high), where the dose itself says so."""
    sets: tuple["Dose", ...] = ()
    """The dose of each set where they differ: ladders, pyramids, drop sets. The other fields then give the
    range over all sets."""

    @classmethod
    def parse(cls, text: str) -> "Dose":
        """Read a dose. Raises NotationError where the text is none."""
        written = tidy(text)
        if THEN.search(written):
            return cls.of_sets([cls.parse(one) for one in THEN.split(written)])
        main, comma, tail = written.partition(",")
        reserve = _parse_reserve(tail, text) if comma else None
        sides = _SIDES.fullmatch(main.strip())
        dose = _parse_amount(sides[1] if sides else main.strip(), text)
        ways = sides is not None and sides["word"] == "way"
        bare = sides is not None and sides["bare"] is not None
        return replace(dose, per_side=sides is not None, ways=ways, bare_each=bare, reserve=reserve)

    @classmethod
    def of_sets(cls, doses: Sequence["Dose"]) -> "Dose":
        """One dose from that of each set. Raises NotationError where they do not measure the same."""
        first = doses[0]
        if any(one.sets for one in doses):
            raise NotationError("the dose of a set is a list itself", "write one dose for each set")
        if len({(one.measure, one.per_side) for one in doses}) > 1:
            raise NotationError(
                "the doses of the sets measure different things",
                "write each as a count, a time or a distance, all of them each side or none",
            )
        if len(set(doses)) == 1 and len(doses) == 1:
            return first
        counted = [one for one in doses if one.kind != "max"]
        return cls(
            kind="max" if len(counted) < len(doses) else first.kind,
            low=min((one.low for one in counted), default=0) if len(counted) == len(doses) else 0,
            high=max(one.high for one in counted) if len(counted) == len(doses) else 0,
            unit=first.unit,
            per_side=first.per_side,
            ways=first.ways,
            bare_each=any(one.bare_each for one in doses),
            sets=tuple(doses),
        )

    def of_set(self, number: int) -> "Dose":
        """What the set with that number (from 1) asks for; the last one's where there are fewer."""
        return self.sets[min(number, len(self.sets)) - 1] if self.sets else self

    @property
    def sides(self) -> int:
        """How often the amount is done in one set: 2 where it is per side."""
        return 2 if self.per_side else 1

    @property
    def measure(self) -> str:
        """What its numbers are: ``seconds`` for a time, else the unit."""
        return "seconds" if self.kind == "time" else self.unit

    def __str__(self) -> str:
        if self.sets:
            return ", then ".join(map(str, self.sets))
        if self.kind == "max":
            amount = "max"
        elif self.kind == "time":
            amount = str(Duration(self.low, self.high))
        elif self.parts:
            amount = " + ".join(str(part) for part in self.parts)
        else:
            amount = print_range(self.low, self.high)
        if self.kind in ("count", "distance") and self.unit != "reps":
            amount += f" {self.unit}"
        if self.per_side:
            amount += " each way" if self.ways else " each side"
        if self.reserve:
            amount += f", {print_range(*self.reserve)} in reserve"
        return amount


def _parse_reserve(tail: str, text: str) -> tuple[int, int]:
    match = RESERVE.fullmatch(tail.strip())
    if not match:
        raise NotationError(f"{text!r} is not a dose", "after the comma write for example 2 in reserve")
    return _ascending(*range_of(match), text)


def _parse_amount(main: str, text: str) -> Dose:
    if main == "max":
        return Dose(kind="max")
    if _SPLIT.fullmatch(main):
        parts = tuple(int(part) for part in main.split("+"))
        if 0 in parts:
            raise NotationError(f"{text!r} is a dose of nothing", _EXAMPLE)
        return Dose(kind="count", low=sum(parts), high=sum(parts), parts=parts)
    if match := _COUNT.fullmatch(main):
        low, high = _ascending(*range_of(match), text)
        unit = (match["unit"] or "reps")[0]
        return _positive(Dose(kind="count", low=low, high=high, unit=_UNIT_BY_INITIAL[unit]), text)
    if match := _DISTANCE.fullmatch(main):
        low, high = _ascending(*range_of(match), text)
        unit = _DISTANCE_BY_INITIAL[match["unit"][0]]
        return _positive(Dose(kind="distance", low=low, high=high, unit=unit), text)
    try:
        seconds = Duration.parse(main)
    except NotationError:
        raise NotationError(f"{text!r} is not a dose", _EXAMPLE) from None
    return _positive(Dose(kind="time", low=seconds.low, high=seconds.high), text)


_UNIT_BY_INITIAL = {"r": "reps", "s": "steps", "b": "breaths"}
_DISTANCE_BY_INITIAL = {unit[0]: unit for unit in DISTANCES_CM}


def _ascending(low: int, high: int, text: str) -> tuple[int, int]:
    if low > high:
        raise NotationError(f"{text!r} runs backwards", "write the smaller number first")
    return low, high


def _positive(dose: Dose, text: str) -> Dose:
    if dose.low == 0:
        raise NotationError(f"{text!r} is a dose of nothing", _EXAMPLE)
    return dose


@dataclass(frozen=True, slots=True, kw_only=True)
class DoseChange:
    """How a variant changes the dose of the item it stands in for."""

    kind: str
    """``times`` (a factor), ``plus`` (a difference), ``both`` (both sides work at once, so that the amount of
    one side is all of it), ``each`` (one side works at a time, so that each does all of it) or ``set`` (a new
    dose)."""
    amount: float = 0
    """The factor, or the difference in the unit."""
    unit: str = ""
    """What the difference is in: a measure of doses; empty for any that is counted."""
    dose: Dose | None = None
    """The new dose, for ``set``."""

    @classmethod
    def parse(cls, text: str) -> "DoseChange":
        """Read a change of dose. Raises NotationError where the text is none."""
        written = tidy(text)
        if written == _BOTH_SIDES:
            return cls(kind="both")
        if written == _EACH_SIDE:
            return cls(kind="each")
        if written in _FACTORS:
            return cls(kind="times", amount=_FACTORS[written])
        if match := _DIFFERENCE.fullmatch(written):
            amount = int(match[2]) * (1 if match[1] == "+" else -1)
            unit = match[3] or ""
            return cls(kind="plus", amount=amount, unit="seconds" if unit == "s" else unit)
        try:
            return cls(kind="set", dose=Dose.parse(text))
        except NotationError:
            raise NotationError(f"{text!r} is not a change of dose", _CHANGE_EXAMPLE) from None

    def apply(self, dose: Dose) -> Dose:
        """The dose a variant asks for where the main form asks for ``dose``.

        A change that does not fit the kind of dose (seconds on a count, or any on ``max``)
        leaves it as it is. The result never falls below 1. A new dose may be in another unit.
        """
        if self.dose is not None:
            return self.dose
        if self.amount == 1 and self.kind == "times":
            return dose
        if dose.sets:
            return Dose.of_sets([self.apply(one) for one in dose.sets])
        if self.kind == "both":
            return replace(dose, per_side=False, ways=False)
        if self.kind == "each":
            return dose if dose.per_side else replace(dose, per_side=True)
        fits = dose.measure == self.unit if self.unit else dose.kind == "count"
        if dose.kind == "max" or (self.kind == "plus" and not fits):
            return dose
        low, high = self._changed(dose.low), self._changed(dose.high)
        return replace(dose, low=low, high=high, parts=())

    def _changed(self, value: int) -> int:
        # Half of 5 is 3: rounding up keeps a halved set worth doing.
        changed = math.ceil(value * self.amount) if self.kind == "times" else value + self.amount
        return max(1, int(changed))

    def __str__(self) -> str:
        if self.dose is not None:
            return str(self.dose)
        if self.kind == "both":
            return _BOTH_SIDES
        if self.kind == "each":
            return _EACH_SIDE
        if self.kind == "times":
            return next(word for word, factor in _FACTORS.items() if factor == self.amount)
        unit = "s" if self.unit == "seconds" else self.unit
        return f"{int(self.amount):+d} {unit}".rstrip()
