"""Marks for what a pose alone cannot show: that it is held, breath, and the way of somebody who walks."""

import math
from collections.abc import Iterable, Sequence

from sitegen.pages.drawings.arrows import draw_arrow
from sitegen.pages.drawings.body import HEAD_RADIUS
from sitegen.pages.drawings.shapes import FLOOR, Layers, number
from sitegen.study.body.figure import Figure
from sitegen.study.body.movement import Movement, legs_change_about, walks

Point = tuple[float, float]

_CLOCK = 8.0
"""Radius of the dial."""
_ABOUT_THE_HEAD = (27.0, 33.0, 40.0, 48.0)
"""How far from the middle of the head a clock may be, the nearest first."""


def draw_marks(drawn: Sequence[Layers], movement: Movement) -> None:
    """The marks of every pose of a movement, in its picture."""
    held = len(movement.figures) == 1
    travels = walks(movement) or "travel" in movement.finish.pose.marks
    for layers, figure in zip(drawn, movement.figures, strict=True):
        marks = figure.pose.marks
        if "breath" in marks:
            _draw_breath(layers, figure)
        elif (held and not figure.pose.circles) or "hold" in marks:
            _draw_clock(layers, figure)
    if travels:
        _draw_steps(drawn[-1])
    elif not movement.start.pose.path and legs_change_about(movement):
        for layers, figure in zip(drawn, movement.figures, strict=True):
            _draw_raised_knee(layers, figure)


def _draw_clock(layers: Layers, figure: Figure) -> None:
    """A dial near the head: this takes time, and nothing moves."""
    x, y = layers.flat(figure.head)
    taken = layers.occupied()
    degrees = (-30, -150, -60, -120, -90, 0, 180)  # ahead and up first, then behind and up
    around = [
        (x + far * math.cos(math.radians(at)), y + far * math.sin(math.radians(at)))
        for far in _ABOUT_THE_HEAD
        for at in degrees
    ]
    cx, cy = next((at for at in around if _room(at, taken) > _CLOCK + 3.0), around[0])
    r = number(_CLOCK)
    corners = [(cx - _CLOCK, cy - _CLOCK), (cx + _CLOCK, cy + _CLOCK)]
    half, across = f"a{r} {r} 0 1 1 ", 2 * _CLOCK
    dial = f"M{number(cx - _CLOCK)} {number(cy)}{half}{number(across)} 0{half}{number(-across)} 0"
    layers.raw("mark", dial, corners)
    layers.path("mark", [(cx, cy - 5.0), (cx, cy), (cx + 3.5, cy + 2.0)], 1.0)


def _room(at: Point, taken: Iterable[tuple[float, float, float]]) -> float:
    return min(math.hypot(at[0] - x, at[1] - y) - margin for x, y, margin in taken)


def _draw_breath(layers: Layers, figure: Figure) -> None:
    """Two waves before the mouth, the upper one going in and the lower one out."""
    x, y = layers.flat(figure.head)
    front = figure.chest_frame.front
    ux, uy = (1.0, 0.0) if layers.front_view else (front[0], -front[1])
    vx, vy = -uy, ux
    near, long = HEAD_RADIUS + 6.0, 18.0

    def at(along: float, across: float) -> Point:
        return x + ux * along + vx * across, y + uy * along + vy * across

    for across, inwards in ((-2.0, True), (8.0, False)):
        points = [at(near + long * k / 4, across) for k in range(5)]
        bends = [at(near + long * (k + 0.5) / 4, across + (3.5 if k % 2 else -3.5)) for k in range(4)]
        if inwards:
            points, bends = points[::-1], bends[::-1]
        way = f"M{_text(points[0])}" + "".join(
            f"Q{_text(bend)} {_text(point)}" for bend, point in zip(bends, points[1:], strict=True)
        )
        layers.raw("mark", way, points)
        tip, sign = points[-1], -1.0 if inwards else 1.0
        back = -4.5 * sign
        head = [(tip[0] + ux * back + vx * side, tip[1] + uy * back + vy * side) for side in (-4.0, 4.0)]
        layers.path("mark", [head[0], tip, head[1]], 2.0)


def _draw_steps(layers: Layers) -> None:
    """Soles on the floor ahead of the figure, and an arrow: it walks on."""
    x, y = layers.box[2] + 7.0, FLOOR - 4.0
    for step in range(2):
        layers.path("mark", [(x + 14.0 * step, y), (x + 14.0 * step + 7.0, y)], 1.0)
    draw_arrow(layers, (x + 28.0, y), (x + 44.0, y), (1.0, 0.0), kind="mark")


_RAISED = 75.0
"""Degrees of a thigh from hanging from which on a knee counts as high: our choice, by eye. A low march has no
arrow, which tells the two apart."""
_SEATED = 25.0
"""Degrees that somebody seated must raise a thigh above the other, which lies on the seat."""


def _draw_raised_knee(layers: Layers, figure: Figure) -> None:
    """An arrow up ahead of a knee that is raised high, where legs change about.

    The way of one foot would say the half; without any arrow, high knees were taken for a march.
    """
    thighs = [
        math.degrees(math.atan2(leg.knee[0] - leg.hip[0], leg.hip[1] - leg.knee[1])) for leg in figure.legs
    ]
    least = min(thighs) + _SEATED if figure.pose.base == "seated" else _RAISED
    if layers.front_view or max(thighs) < least:
        return
    x, y = layers.flat(max(figure.legs, key=lambda leg: leg.knee[1]).knee)
    draw_arrow(layers, (x + 14.0, y + 9.0), (x + 14.0, y - 13.0), (0.0, -1.0), kind="mark")


def _text(point: Point) -> str:
    return f"{number(point[0])} {number(point[1])}"
