"""Numbers of the charts: scales with round numbers, bars as high as their amounts."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.pages.balance.charts import PLOT_HEIGHT, PLOT_TOP, Axis, bars
from sitegen.study.span import NOTHING, Span

GROUND = PLOT_TOP + PLOT_HEIGHT


@pytest.mark.parametrize(
    ("most", "ticks"),
    [
        (0, ["0", "1"]),
        (3, ["0", "1", "2", "3"]),
        (4.5, ["0", "2", "4", "6"]),
        (18, ["0", "5", "10", "15", "20"]),
        (22.5, ["0", "10", "20", "30"]),
        (100, ["0", "50", "100"]),
    ],
    ids=str,
)
def test_scales_have_round_numbers(most: float, ticks: list[str]) -> None:
    assert [tick.label for tick in Axis(most).ticks] == ticks


def test_a_scale_reaches_from_the_ground_to_the_top() -> None:
    axis = Axis(20)

    assert (axis.y(0), axis.y(10), axis.y(20)) == (GROUND, GROUND - PLOT_HEIGHT / 2, PLOT_TOP)


def test_what_is_higher_than_the_scale_stays_inside() -> None:
    assert Axis(20).y(500) == PLOT_TOP


def test_a_hatched_part_stands_on_the_solid_one() -> None:
    (bar,) = bars(Axis(20), [Span(10, 10)], [Span(5, 5)], ["1"])

    assert (bar.solid_y, bar.solid_height) == (GROUND - PLOT_HEIGHT / 2, PLOT_HEIGHT / 2)
    assert bar.hatched_y + bar.hatched_height == pytest.approx(bar.solid_y)
    assert bar.hatched_height == pytest.approx(PLOT_HEIGHT / 4)
    assert bar.reach is None


def test_a_range_is_shown_from_end_to_end() -> None:
    axis = Axis(20)
    (bar,) = bars(axis, [Span(8, 12)], [NOTHING], ["1"])

    assert bar.solid_y == axis.y(10)
    assert bar.reach == (axis.y(8), axis.y(12))


def test_nothing_has_no_height() -> None:
    (bar,) = bars(Axis(20), [NOTHING], [NOTHING], ["1"])

    assert (bar.solid_height, bar.hatched_height) == (0, 0)


def test_many_weeks_have_fewer_labels() -> None:
    labels = [
        bar.label for bar in bars(Axis(1), [NOTHING] * 26, [NOTHING] * 26, [str(n) for n in range(1, 27)])
    ]

    assert [label for label in labels if label] == ["1", "4", "7", "10", "13", "16", "19", "22", "25"]


@given(st.integers(1, 60), st.floats(0, 40))
def test_bars_stay_inside_the_drawing_and_apart(count: int, gutter: float) -> None:
    made = bars(Axis(1), [Span(1, 1)] * count, [NOTHING] * count, [""] * count, gutter)

    assert made[0].x >= gutter - 0.01
    assert made[-1].x + made[-1].width <= 100.01
    assert all(one.x + one.width <= other.x + 0.03 for one, other in pairwise(made))
