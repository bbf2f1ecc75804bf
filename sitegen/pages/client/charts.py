"""Small charts of one exercise over time, laid out for an SVG element: load, counts and effort by day."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from sitegen.clients.came_back import FormCourse, LoggedExercise

WIDTH, HEIGHT = 320, 64
"""Of one row, in the units of the drawing; on a phone about one pixel each."""
_LEFT, _RIGHT, _TOP, _BOTTOM = 44.0, 310.0, 8.0, 56.0
"""The plot within it: at the left there is room for a number such as 12.5 kg, elsewhere for half a mark."""
_EFFORTS = (0.0, 10.0)
"""Ends of the scale of effort, so that rows of several exercises can be compared."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartRow:
    """One measure by day."""

    name: str
    """``load``, ``reps`` or ``effort``: what the theme calls it, and its colour."""
    high: str
    """At the top."""
    low: str
    """At the foot."""
    line: str
    """The points of a line through each day's mean."""
    marks: tuple[tuple[float, float], ...]
    """Where each single value stands."""


def chart_of(course: FormCourse) -> tuple[ChartRow, ...]:
    """The rows of a course, on one line of days; none where nothing has two days."""
    rows = (
        _row("load", course.entries, lambda one: () if one.kg is None else (one.kg,)),
        _row("reps", course.entries, lambda one: tuple(map(float, one.counts))),
        _row("effort", course.entries, lambda one: () if one.effort is None else (float(one.effort),)),
    )
    return tuple(row for row in rows if row is not None)


def _row(
    name: str, entries: Sequence[LoggedExercise], values: Callable[[LoggedExercise], tuple[float, ...]]
) -> ChartRow | None:
    known = [(one.day.toordinal(), values(one)) for one in entries if values(one)]
    if len({day for day, _ in known}) < 2:
        return None
    first, last = entries[0].day.toordinal(), entries[-1].day.toordinal()
    everything = [value for _, some in known for value in some]
    low, high = _EFFORTS if name == "effort" else (min(everything), max(everything))

    def x(day: int) -> float:
        return round(_LEFT + (_RIGHT - _LEFT) * (day - first) / (last - first), 1)

    def y(value: float) -> float:
        # One value all along lies in the middle: it neither rose nor fell.
        share = 0.5 if high == low else (value - low) / (high - low)
        return round(_BOTTOM - (_BOTTOM - _TOP) * share, 1)

    return ChartRow(
        name=name,
        high=f"{high:.3g}" if high != low else "",
        low=f"{low:.3g}",
        line=" ".join(f"{x(day)},{y(sum(some) / len(some))}" for day, some in known),
        marks=tuple((x(day), y(value)) for day, some in known for value in dict.fromkeys(some)),
    )
