"""What the series asks of each exercise from episode to episode, worked by hand."""

import pytest

from sitegen.study.progression import progression, recurring
from sitegen.study.span import Span
from sitegen.vocabulary import INTERVALS, STRAIGHT
from tests.study.series_parts import FormKey, block, details, episode, exercise, forms, item, variant

SERIES = details()
LIBRARY = forms(
    exercise("row", variant("seated")), exercise("plank"), exercise("pull", variant("to-row", exercise="row"))
)


def line(*episodes, of="row"):
    return progression(SERIES, LIBRARY, episodes)[of]


def test_repetitions_over_three_episodes():
    # 3 x 8 = 24; 3 x 10 = 30, a quarter more; 3 x 2 x 6 = 36, a fifth more
    points = line(
        episode(1, block(STRAIGHT, "row 8", sets="3")),
        episode(4, block(STRAIGHT, "row 10", sets="3")),
        episode(7, block(STRAIGHT, "row 6 each side", sets="3")),
    )

    assert [point.number for point in points] == [1, 4, 7]
    assert [point.episode for point in points] == ["episode-1", "episode-4", "episode-7"]
    assert [point.sets for point in points] == [Span(3, 3)] * 3
    assert [point.amount for point in points] == [Span(24, 24), Span(30, 30), Span(36, 36)]
    assert [point.rise for point in points] == [None, pytest.approx(0.25), pytest.approx(0.2)]


def test_ranges_rise_by_their_middle():
    # 2 x 8 to 3 x 12: 16 to 36, middle 26; 3 x 13 = 39 is half as much again
    points = line(
        episode(1, block(STRAIGHT, "row 8-12", sets="2-3")), episode(2, block(STRAIGHT, "row 13", sets="3"))
    )

    assert points[0].amount == Span(16, 36)
    assert points[1].rise == pytest.approx(0.5)


def test_a_fall_is_a_negative_rise():
    points = line(episode(1, block(STRAIGHT, "row 10")), episode(2, block(STRAIGHT, "row 5")))

    assert points[1].rise == pytest.approx(-0.5)


def test_loads_and_their_rise():
    # 5 l of water weigh 4.991 kg, 2 x 5 l twice as much
    points = line(
        episode(1, block(STRAIGHT, item("row 8", load="5 l water"))),
        episode(2, block(STRAIGHT, item("row 8", load="2 x 5 l water"))),
        episode(3, block(STRAIGHT, "row 8")),
    )

    assert points[0].load_kg.mid == pytest.approx(4.991)
    assert [point.load_rise for point in points] == [None, pytest.approx(1.0), None]
    # twice the load is twice the work; against none, repetitions compare
    assert [point.rise for point in points] == [None, pytest.approx(1.0), 0]


def test_growth_is_weighed_where_something_is_held():
    # 3 x 10 with 6 kg = 180; 3 x 10 with 8 kg = 240, a third more; 3 x 8 with 8 kg = 192, a fifth less
    points = line(
        episode(1, block(STRAIGHT, item("row 10", load="6 kg"), sets="3")),
        episode(2, block(STRAIGHT, item("row 10", load="8 kg"), sets="3")),
        episode(3, block(STRAIGHT, item("row 8", load="8 kg"), sets="3")),
    )

    assert [point.volume_load for point in points] == [Span(180, 180), Span(240, 240), Span(192, 192)]
    assert [point.rise for point in points] == [None, pytest.approx(1 / 3), pytest.approx(-0.2)]
    assert [point.load_rise for point in points] == [None, pytest.approx(1 / 3), 0]


def test_work_partly_without_a_load_has_no_volume_load():
    [point] = line(episode(1, block(STRAIGHT, item("row 8", load="6 kg")), block(STRAIGHT, "row 8")))

    assert (point.amount, point.volume_load) == (Span(16, 16), None)


def test_the_same_form_twice_in_an_episode_is_added_up():
    points = line(
        episode(
            1,
            block(STRAIGHT, item("row 8", load="6 kg"), sets="2"),
            block(STRAIGHT, item("row 12", load="4 kg")),
        )
    )

    assert [(point.sets, point.amount, point.load_kg) for point in points] == [
        (Span(3, 3), Span(28, 28), Span(4, 6))
    ]


def test_other_forms_and_other_units_are_not_compared():
    points = line(
        episode(1, block(STRAIGHT, "row 8")),
        episode(2, block(STRAIGHT, item("row 20", variant="seated"))),
        episode(3, block(STRAIGHT, "row 30 s")),
        episode(4, block(STRAIGHT, "row 12")),
    )

    assert [(point.form.variant, point.unit) for point in points] == [
        (None, "reps"),
        ("seated", "reps"),
        (None, "seconds"),
        (None, "reps"),
    ]
    assert [point.rise for point in points] == [None, None, None, pytest.approx(0.5)]


def test_work_time_of_intervals_counts_in_seconds():
    points = line(episode(1, block(INTERVALS, "row", work="40 s", sets="3", kind="conditioning")))

    assert [(point.amount, point.unit) for point in points] == [(Span(120, 120), "seconds")]


def test_max_is_marked_as_assumed_and_has_no_rise():
    points = line(episode(1, block(STRAIGHT, "row 8")), episode(2, block(STRAIGHT, "row max", sets="2")))

    assert points[1].amount == Span(12, 30)
    assert points[1].assumed
    assert points[1].rise is None


def test_a_variant_that_is_another_exercise_counts_for_that_exercise():
    points = line(episode(1, block(STRAIGHT, item("pull 8", variant="to-row"))))

    assert [point.form for point in points] == [FormKey("pull", "to-row")]


def test_warm_ups_do_not_count():
    assert progression(SERIES, LIBRARY, [episode(1, block(STRAIGHT, "row 8", kind="warm-up"))]) == {}


def test_recurring_exercises_come_in_two_episodes_or_more():
    lines = progression(
        SERIES,
        LIBRARY,
        [
            episode(1, block(STRAIGHT, "row 8", "plank 30 s"), block(STRAIGHT, "plank 5")),
            episode(2, block(STRAIGHT, "row 8")),
        ],
    )

    assert list(recurring(lines)) == ["row"]
