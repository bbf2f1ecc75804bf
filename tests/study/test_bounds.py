"""Weekly limits: what is under, what is over, and which weeks are held to them."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from sitegen.model import Bounds
from sitegen.notation import Count
from sitegen.study.bounds import limits_of, outside
from sitegen.study.span import Span
from sitegen.study.training import together
from sitegen.study.weeks import Week


def week(number, sessions=3, **sets):
    """A week with strength sets of muscles; ``upper_back=4`` or ``(4, 6)``."""
    strength = {
        name.replace("_", " "): Span(*amount) if isinstance(amount, tuple) else Span(amount, amount)
        for name, amount in sets.items()
    }
    training = together([])
    monday = date(2026, 9, 7) + timedelta(weeks=number - 1)
    made = Week(number=number, monday=monday, sessions=tuple(range(sessions)))
    return made, replace(training, strength=strength)


def names(found):
    return [(one.muscle, one.week.number) for one in found]


FOUR_TO_TEN = Bounds(sets_per_week=Count(4, 10))


def test_limits_of_a_muscle_are_its_own_or_the_general_ones():
    bounds = Bounds(sets_per_week=Count(4, 10), muscles={"calves": Count(2, 6)})

    assert limits_of(bounds, "calves") == Count(2, 6)
    assert limits_of(bounds, "lats") == Count(4, 10)
    assert limits_of(Bounds(), "lats") is None


@pytest.mark.parametrize(
    ("sets", "under", "over"),
    [
        (3.5, True, False),
        (4, False, False),
        (10, False, False),
        (10.5, False, True),
        ((3, 4), False, False),
        ((2, 3.5), True, False),
        ((10, 12), False, False),
        ((10.5, 12), False, True),
    ],
    ids=str,
)
def test_a_range_is_outside_only_from_end_to_end(sets, under, over):
    low, high = outside(FOUR_TO_TEN, [week(1, lats=sets)], ["lats"])

    assert (names(low), names(high)) == ([("lats", 1)] * under, [("lats", 1)] * over)


def test_a_muscle_that_is_to_be_trained_and_is_not_is_under():
    low, _ = outside(FOUR_TO_TEN, [week(1, lats=5), week(2)], ["lats"])

    assert names(low) == [("lats", 2)]


def test_a_muscle_that_only_assists_is_not_held_to_the_lower_limit():
    low, high = outside(FOUR_TO_TEN, [week(1, lats=5, biceps=1)], ["lats"])

    assert (low, high) == ([], [])


def test_a_muscle_with_limits_of_its_own_is_held_to_them():
    bounds = Bounds(muscles={"biceps": Count(2, 6)})
    low, high = outside(bounds, [week(1, lats=50, biceps=1)], ["lats"])

    assert (names(low), high) == ([("biceps", 1)], [])


def test_a_week_with_fewer_sessions_than_usual_is_not_held_to_the_lower_limit_but_to_the_upper():
    weeks = [week(1, lats=5), week(2, lats=5), week(3, sessions=1, lats=2), week(4, sessions=1, lats=11)]
    low, high = outside(FOUR_TO_TEN, weeks, ["lats"])

    assert (low, names(high)) == ([], [("lats", 4)])
