"""What sessions ask for in all, worked by hand."""

import pytest

from sitegen.study.span import Span
from sitegen.study.timing import session_time
from sitegen.study.training import moderate_minutes, together, training_of
from sitegen.vocabulary import CIRCUIT, STRAIGHT
from tests.study.series_parts import block, details, episode, exercise, forms, item

SERIES = details()
LIBRARY = forms(
    exercise("row", prime=["lats"], assist=["biceps"]),
    exercise("press", pattern="push horizontal", prime=["chest"], assist=["triceps"]),
    exercise("march", pattern="locomotion", prime=["hip flexors"], met=6.5),
    exercise("lift", pattern="hinge", prime=["glutes"]),
)


def training(*blocks, number=1):
    one = episode(number, *blocks)
    return training_of(SERIES, LIBRARY, one, session_time(SERIES, LIBRARY, one))


def test_strength_sets_and_rounds_of_conditioning_are_kept_apart():
    found = training(
        block(STRAIGHT, "row 8", sets="3"),
        block(CIRCUIT, "march 30 s", "row 8", kind="conditioning", sets="2"),
        block(STRAIGHT, "row 8", kind="warm-up", sets="5"),
    )

    assert found.strength == {"biceps": Span(1.5, 1.5), "lats": Span(3, 3)}
    assert found.conditioning == {"biceps": Span(1, 1), "hip flexors": Span(2, 2), "lats": Span(2, 2)}


def test_the_balance_is_that_of_strength_blocks():
    found = training(
        block(STRAIGHT, "row 8", "press 8", sets="2-3"),
        block(CIRCUIT, "press 8", kind="conditioning", sets="9"),
    )

    assert (found.balance.push, found.balance.pull) == (Span(2, 3), Span(2, 3))
    assert found.balance.upper == Span(4, 6)


def test_sides_and_unequal_loads():
    # 5 l and 3 l of water are 1.9964 kg apart; three sets of 9 cannot be halved: one repetition is left over.
    found = training(
        block(STRAIGHT, "press 8 each side", item("lift 9", load="5 l water + 3 l water"), sets="3"), number=7
    )

    assert (found.one_sided, found.two_sided) == (Span(3, 3), Span(0, 0))
    assert [(one.session, one.exercise) for one in found.uneven] == [(7, "lift")]
    assert found.uneven[0].left_over == pytest.approx(1.9964)


def test_a_week_adds_up():
    one = training(block(STRAIGHT, "row 8", sets="3"))
    other = training(block(STRAIGHT, "row 8", "press 10", sets="2"), number=2)
    week = together([one, other, other])

    assert week.strength["lats"] == Span(7, 7)
    assert week.strength["chest"] == Span(4, 4)
    assert week.balance.push == Span(4, 4)
    assert week.strength_sessions == 3
    assert week.kcal == one.kcal + other.kcal + other.kcal
    assert week.minutes["moderate"].high == pytest.approx(
        one.minutes["moderate"].high + 2 * other.minutes["moderate"].high
    )


def test_nothing_is_nothing():
    empty = together([])

    assert empty.strength == {}
    assert empty.balance.pull == Span(0, 0)
    assert empty.kcal == Span(0, 0)


def test_a_vigorous_minute_counts_as_two():
    # 4 rounds of 60 s at 6.5 MET are 4 vigorous minutes.
    found = training(block(CIRCUIT, "march 60 s", kind="conditioning", sets="4"))

    assert found.minutes["vigorous"] == Span(4, 4)
    assert moderate_minutes(found.minutes) == Span(8, 8)
