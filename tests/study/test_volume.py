"""Sets per muscle and pattern, balance and sides, worked by hand."""

import pytest

from sitegen.study.span import Span
from sitegen.study.volume import (
    balance,
    counted_items,
    muscle_sets,
    pattern_sets,
    region_sets,
    sides,
)
from sitegen.vocabulary import AMRAP, CIRCUIT, EMOM, STRAIGHT, SUPERSET
from tests.study.series_parts import block, details, episode, exercise, forms, item, variant

SERIES = details()
LIBRARY = forms(
    exercise("row", prime=["upper back"], assist=["biceps", "rear shoulder"]),
    exercise(
        "press",
        variant("thruster", pattern="squat"),
        pattern="push vertical",
        prime=["front shoulder"],
        assist=["triceps"],
    ),
    exercise("push-up", pattern="push horizontal", prime=["chest", "triceps"], assist=["front shoulder"]),
    exercise("squat", pattern="squat", prime=["quadriceps", "glutes"], assist=["lower back"]),
    exercise("hinge", pattern="hinge", prime=["hamstrings"], assist=["glutes", "lower back"]),
    exercise("step-up", pattern="step", prime=["quadriceps"]),
    exercise("lunge", pattern="lunge", prime=["glutes"]),
    exercise("plank", pattern="trunk", prime=["abdominals"]),
    exercise("climber", pattern="trunk", prime=["abdominals", "hip flexors"]),
    exercise("doubled", prime=["biceps"], assist=["biceps"]),
)


def test_sets_of_each_muscle_worked_by_hand():
    # row 3 sets, press 3 sets: prime 3, assisting 3 x 1/2; push-up 2 sets
    day = episode(
        1,
        block(SUPERSET, "row 8", "press 8", sets="3"),
        block(STRAIGHT, "push-up 8", sets="2"),
    )

    assert muscle_sets(SERIES, LIBRARY, [day]) == {
        "upper back": Span(3, 3),
        "biceps": Span(1.5, 1.5),
        "rear shoulder": Span(1.5, 1.5),
        "front shoulder": Span(3 + 1, 3 + 1),
        "triceps": Span(1.5 + 2, 1.5 + 2),
        "chest": Span(2, 2),
    }


def test_ranges_of_sets_stay_ranges():
    day = episode(1, block(STRAIGHT, "squat 8", sets="2-3"))

    assert muscle_sets(SERIES, LIBRARY, [day]) == {
        "quadriceps": Span(2, 3),
        "glutes": Span(2, 3),
        "lower back": Span(1, 1.5),
    }


def test_a_muscle_named_twice_counts_as_prime():
    day = episode(1, block(STRAIGHT, "doubled 8", sets="2"))

    assert muscle_sets(SERIES, LIBRARY, [day]) == {"biceps": Span(2, 2)}


@pytest.mark.parametrize(
    ("kind", "counted"),
    [("strength", 1), ("conditioning", 1), ("warm-up", 0), ("mobility", 0), ("cool-down", 0)],
)
def test_which_kinds_of_block_count(kind, counted):
    day = episode(1, block(CIRCUIT, "squat 8", kind=kind))

    assert len(list(counted_items(SERIES, LIBRARY, day))) == counted


def test_sets_of_timed_formats():
    # ten minutes for three items: 4, 3, 3 sets; rounds of 8 x 3 + 10 s in 160 s: 5
    day = episode(
        1,
        block(EMOM, "squat 5", "plank 20 s", "row 5", time="10 min"),
        block(AMRAP, "hinge 8", time="160 s"),
    )

    assert pattern_sets(SERIES, LIBRARY, [day]) == {
        "squat": Span(4, 4),
        "trunk": Span(3, 3),
        "pull horizontal": Span(3, 3),
        "hinge": Span(5, 5),
    }


def test_a_variant_that_is_filmed_counts_with_its_own_pattern():
    day = episode(1, block(STRAIGHT, item("press 8", variant="thruster"), sets="3"))

    assert pattern_sets(SERIES, LIBRARY, [day]) == {"squat": Span(3, 3)}


def test_balance_worked_by_hand():
    # push 3 + 2, pull 3-4; knee 3 + 2 + 1, hinge 2; upper 3 + 2 + (3 to 4), lower 3 + 2 + 1 + 2
    week = [
        episode(1, block(STRAIGHT, "press 8", "squat 8", sets="3"), block(STRAIGHT, "row 8", sets="3-4")),
        episode(
            2, block(STRAIGHT, "push-up 8", "lunge 8", "hinge 8", sets="2"), block(STRAIGHT, "step-up 8")
        ),
    ]

    found = balance(SERIES, LIBRARY, week)

    assert (found.push, found.pull) == (Span(5, 5), Span(3, 4))
    assert (found.knee, found.hinge) == (Span(6, 6), Span(2, 2))
    assert (found.upper, found.lower) == (Span(8, 9), Span(8, 8))


def test_a_set_counts_once_for_each_region():
    series = details(muscles={"serratus": "upper"})
    library = forms(
        exercise("reach", prime=["serratus"]), exercise("climber", prime=["abdominals", "glutes"])
    )
    day = episode(1, block(STRAIGHT, "reach 8", "climber 8", sets="2"))

    assert region_sets(series, library, [day]) == {
        "upper": Span(2, 2),
        "trunk": Span(2, 2),
        "lower": Span(2, 2),
    }


def test_sides_worked_by_hand():
    # 2 kg apart: three sets of 9 leave 2 kg x 1; four sets leave nothing
    uneven = item("hinge 9", load="6 kg + 4 kg")
    day = episode(
        1,
        block(STRAIGHT, "row 8 each side", sets="3"),
        block(STRAIGHT, "squat 8", item("press 8", load="2 x 2 kg"), sets="2"),
        block(STRAIGHT, uneven, sets="3-4"),
    )

    found = sides(SERIES, LIBRARY, [day])

    assert found.side_by_side == Span(3, 3)
    assert found.together == Span(4, 4)
    assert [(one.item, one.residuals) for one in found.uneven] == [(uneven, (2, 0))]
