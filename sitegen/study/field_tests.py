"""Simple field tests that need no apparatus, and what published samples reached in them.

A norm says where the middle half of a sample was (25th to 75th percentile). It is there to place a first
result; afterwards only the change counts. Only tests whose table we are sure of have norms here.

- **30-second chair stand**: full stands from a chair of about 43 cm with the arms crossed, in 30 seconds.
  Norms: Rikli & Jones 1999, Journal of Aging and Physical Activity 7:162-181; kept in the Senior Fitness
  Test Manual (2013). 7,183 community-living people of 60 to 94 in the United States, who could walk without
  help. From memory.
- **One-leg stance**: seconds on one foot, eyes open, hand near a support, at most 45. No norms here:
  published samples differ too much in how the test is stopped.
- **Two-minute step**: times the right knee comes up to the height half way between kneecap and hip bone, in
  two minutes. No norms here: we are not sure of every row of the table.
- **Counter push-up**: repetitions in good form with the hands on a counter. No published norms.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Norm:
    """Where the middle half of a published sample was, in the unit of the test."""

    low: int
    high: int


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldTest:
    """A test."""

    unit: str
    """``stands``, ``seconds``, ``steps`` or ``reps``."""
    demands: tuple[str, ...]
    """What it asks of the body: nobody who has to avoid one of them is tested."""
    source: str = ""
    """Of the norms."""
    population: str = ""
    norms: Mapping[str, Mapping[tuple[int, int], Norm]] = field(default_factory=dict)
    """By sex and ages, ends included."""

    def norm(self, sex: str | None, age: int | None) -> Norm | None:
        """The norm for somebody; None where none was published for her, or too little is known of her."""
        if age is None or sex is None:
            return None
        rows = self.norms.get(sex, {})
        return next((norm for (low, high), norm in rows.items() if low <= age <= high), None)


_AGES = ((60, 64), (65, 69), (70, 74), (75, 79), (80, 84), (85, 89), (90, 94))


def _by_age(*ranges: tuple[int, int]) -> Mapping[tuple[int, int], Norm]:
    return {ages: Norm(low, high) for ages, (low, high) in zip(_AGES, ranges, strict=True)}


TESTS: Mapping[str, FieldTest] = {
    "chair stand": FieldTest(
        unit="stands",
        demands=("standing", "deep knee bend"),
        source="Rikli & Jones 1999, Journal of Aging and Physical Activity 7:162-181 (from memory)",
        population="people of 60 to 94 living on their own in the United States",
        norms={
            "woman": _by_age((12, 17), (11, 16), (10, 15), (10, 15), (9, 14), (8, 13), (4, 11)),
            "man": _by_age((14, 19), (12, 18), (12, 17), (11, 17), (10, 15), (8, 14), (7, 12)),
        },
    ),
    "two-minute step": FieldTest(unit="steps", demands=("standing", "balance on one leg")),
    "one-leg stance": FieldTest(unit="seconds", demands=("standing", "balance on one leg")),
    "counter push-up": FieldTest(unit="reps", demands=("standing", "leaning on the arms", "shoulder load")),
}
"""By name."""
