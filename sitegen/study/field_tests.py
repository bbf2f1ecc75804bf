"""Simple field tests that need a home and a clock, what they demand, and what people of an age and sex reach.

Norms, all of people who could do the test:

- Chair stand and two-minute step: Rikli and Jones 1999, *Functional fitness normative scores for
  community-residing older adults, ages 60-94*, Journal of Aging and Physical Activity 7:162-181; 7,183 people
  in the United States, living at home. Told is the middle half (25th to 75th percentile). From memory, held
  against one reprint of each table: the step test agrees; the chair stand does but for two ends (men of 65 to
  69 from 13, men of 85 to 89 to 13 there), where the wider range is told.
- One-leg stance: Springer et al. 2007, *Normative values for the unipedal stance test with eyes open and
  closed*, Journal of Geriatric Physical Therapy 30:8-15; 549 healthy people of a medical centre in the United
  States; mean of the best of three trials, at most 45 s. Groups and number of people are those of its
  abstract; the seconds are from memory.
- Push-ups on a counter: no published norms are known to us.
"""

from collections.abc import Mapping
from dataclasses import dataclass

FIELD_TESTS: Mapping[str, str] = {
    # Full stands from a chair of about 43 cm with the arms crossed, in 30 seconds.
    "chair stand": "stands",
    # Times the right knee comes up to half way between kneecap and hip bone, in two minutes.
    "two-minute step": "steps",
    # On one foot, eyes open, a hand near a support, at most 45 seconds; the best of three.
    "one-leg stance": "seconds",
    # In good form, with the hands on a counter.
    "counter push-up": "reps",
}
"""By name, what is counted."""

DEMANDS_OF_TESTS: Mapping[str, tuple[str, ...]] = {
    "chair stand": ("standing", "deep knee bend", "speed"),
    "two-minute step": ("standing", "balance on one leg", "speed"),
    "one-leg stance": ("standing", "balance on one leg"),
    "counter push-up": ("standing", "weight on the wrists", "shoulder load", "leaning on the arms"),
}
"""By name, in the words for exercises (see ``vocabulary.DEMANDS``)."""
ALL_OUT = frozenset({"chair stand", "two-minute step", "counter push-up"})
"""Those that ask for as much as one can: nothing for somebody whose effort is limited."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Norm:
    """What people of one sex and age group reach."""

    ages: tuple[int, int]
    low: float
    high: float
    """The middle half of the people; equal to ``low`` where only a mean is published."""
    people: str
    source: str


_RIKLI = ("people living at home in the United States", "Rikli and Jones 1999")
_SPRINGER = ("healthy people in the United States, the mean of the best of three", "Springer et al. 2007")
# Age groups of the two studies, and what each of them reached in the test, women and men; sources above.
_FIVES = ((60, 64), (65, 69), (70, 74), (75, 79), (80, 84), (85, 89), (90, 94))
# The first group of the one-leg stance is all adults under forty.
_TENS = ((18, 39), (40, 49), (50, 59), (60, 69), (70, 79), (80, 99))

# Stands in 30 seconds: 25th and 75th percentile, by five years from 60.
_CHAIR = {
    "woman": ((12, 17), (11, 16), (10, 15), (10, 15), (9, 14), (8, 13), (4, 11)),
    "man": ((14, 19), (12, 18), (12, 17), (11, 17), (10, 15), (8, 14), (7, 12)),
}
# Steps in two minutes, the same.
_STEP = {
    "woman": ((75, 107), (73, 107), (68, 101), (68, 100), (60, 90), (55, 85), (44, 72)),
    "man": ((87, 115), (86, 116), (80, 110), (73, 109), (71, 103), (59, 91), (52, 86)),
}
# Seconds: means of the best of three, by the groups of _TENS.
_STANCE = {
    "woman": (45.1, 42.1, 40.9, 30.4, 16.7, 10.6),
    "man": (44.4, 41.6, 41.5, 33.8, 25.9, 8.7),
}


def norm_of(test: str, age: int | None, sex: str | None) -> Norm | None:
    """The norm for somebody; None where age or sex is not known or nothing is published for them."""
    if age is None or sex is None:
        return None
    if test == "one-leg stance":
        means = zip(_TENS, ((mean, mean) for mean in _STANCE[sex]), strict=True)
        return _norm(dict(means), age, _SPRINGER)
    table = {"chair stand": _CHAIR, "two-minute step": _STEP}.get(test)
    return _norm(dict(zip(_FIVES, table[sex], strict=True)), age, _RIKLI) if table else None


def _norm(
    groups: Mapping[tuple[int, int], tuple[float, float]], age: int, source: tuple[str, str]
) -> Norm | None:
    people, name = source
    for ages, (low, high) in groups.items():
        if ages[0] <= age <= ages[1]:
            return Norm(ages=ages, low=low, high=high, people=people, source=name)
    return None
