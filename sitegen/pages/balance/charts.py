"""Numbers of charts: where bars begin and end. Across in per cent of the drawing, down in pixels."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.study.span import Span

PLOT_TOP, PLOT_HEIGHT = 10, 110
"""Pixels above the plot, and of the plot."""
GUTTER = 13.0
"""Per cent of the width for the numbers at the side."""
_STEPS = (1, 2, 5)
"""Times a power of ten: numbers at the side that one can count in (the usual practice of drawing axes)."""


@dataclass(frozen=True, slots=True)
class AxisTick:
    """A number at the side and its line."""

    label: str
    y: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """What stands over one week: a solid part, a hatched part on it, and how far a range reaches."""

    x: float
    width: float
    middle: float
    label: str
    """Under the bar; empty where labels would run into each other."""
    solid_y: float
    solid_height: float
    hatched_y: float
    hatched_height: float
    reach: tuple[float, float] | None
    """Ends of the solid part's range; None where it is exact."""


class Axis:
    """The upright axis of a chart, from nothing to a round number that is at least ``most``."""

    def __init__(self, most: float) -> None:
        self.step = _step(most)
        self.top = max(1, math.ceil(most / self.step)) * self.step

    def y(self, amount: float) -> float:
        """Pixels from the top of the drawing."""
        return round(PLOT_TOP + PLOT_HEIGHT * (1 - min(amount, self.top) / self.top), 1)

    @property
    def ticks(self) -> tuple[AxisTick, ...]:
        """The numbers beside it with their lines, from nothing to the top."""
        count = round(self.top / self.step)
        return tuple(AxisTick(f"{n * self.step:g}", self.y(n * self.step)) for n in range(count + 1))


def _step(most: float) -> float:
    """The smallest of 1, 2, 5, 10, 20 … with which four steps are enough."""
    scale = 1
    while True:
        for step in _STEPS:
            if step * scale * 4 >= most:
                return step * scale
        scale *= 10


def bars(
    axis: Axis,
    solid: Sequence[Span],
    hatched: Sequence[Span],
    labels: Sequence[str],
    gutter: float = GUTTER,
) -> tuple[Bar, ...]:
    """One bar for each place, beginning ``gutter`` per cent from the left."""
    slot = (100 - gutter) / max(len(solid), 1)
    # Nine labels at most: more run into one another at 360 pixels (by eye).
    every = math.ceil(len(solid) / 9)
    return tuple(
        _bar(axis, gutter + slot * n, slot, (one, more), label if n % every == 0 else "")
        for n, (one, more, label) in enumerate(zip(solid, hatched, labels, strict=True))
    )


def _bar(axis: Axis, left: float, slot: float, amounts: tuple[Span, Span], label: str) -> Bar:
    solid, hatched = amounts
    ground, top, above = axis.y(0), axis.y(solid.mid), axis.y(solid.mid + hatched.mid)
    # Two thirds of its place, so that bars stand apart; a few bars do not grow into boxes (by eye).
    width = min(slot * 0.68, 9.0)
    return Bar(
        x=round(left + (slot - width) / 2, 2),
        width=round(width, 2),
        middle=round(left + slot / 2, 2),
        label=label,
        solid_y=top,
        solid_height=round(ground - top, 1),
        hatched_y=above,
        hatched_height=round(top - above, 1),
        reach=None if solid.low == solid.high else (axis.y(solid.low), axis.y(solid.high)),
    )
