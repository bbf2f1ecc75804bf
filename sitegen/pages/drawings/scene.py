"""Chairs, counters and walls around the figure: at the height and place at which it uses them."""

from collections.abc import Callable, Mapping

from sitegen.pages.drawings.shapes import UNITS, Layers, number
from sitegen.study.body.figure import PlacedThing
from sitegen.study.body.things import THINGS
from sitegen.study.body.vectors import Vec

# Centimetres, of ordinary furniture by eye; strokes lie below the surface used, by half their breadth.
SEAT_DEEP, BACK_HIGH, CHAIR_WIDE = 38.0, 47.0, 40.0
"""Of a chair; the back rest's height is above the seat."""
_WALL, _TREAD = 172.0, 28.0
"""How much of a wall is drawn, no higher than a body stands; how deep a stair is."""
_RAISED = THINGS["raised chair"].height - THINGS["chair"].height
"""How thick the cushion of a raised seat is."""


def draw_things(layers: Layers, things: list[PlacedThing]) -> None:
    """What stands in the scene, behind the figure."""
    for one in things:
        (_FRONT if layers.front_view else _SIDE)[one.thing](layers, one)


def _box(layers: Layers, points: list[Vec]) -> None:
    layers.line("thing", *points, margin=2.0)


def _seat_of(one: PlacedThing) -> float:
    """The height of a chair's own seat, below the cushion of a raised one."""
    return one.at[1] - (_RAISED if one.thing == "raised chair" else 0.0)


def _chair_side(layers: Layers, one: PlacedThing) -> None:
    x, way, high = one.at[0], -one.turn, _seat_of(one)
    back, seat = x + way * SEAT_DEEP, high - 3.0
    _box(layers, [(x + way * -1.0, seat, 0.0), (back, seat, 0.0)])
    _box(layers, [(x + way * 3.0, seat, 0.0), (x + way * 3.0, 0.0, 0.0)])
    _box(layers, [(back, high + BACK_HIGH, 0.0), (back, 0.0, 0.0)])
    if one.thing == "raised chair":
        draw_cushion(layers, (x + way * SEAT_DEEP * 0.5, high + 1.5, 0.0), 30.0)


def draw_cushion(layers: Layers, at: Vec, wide: float, tall: float = 6.0) -> None:
    """A cushion about a point, in centimetres."""
    x, y = layers.flat(at)
    w, h = wide * UNITS / 2, tall * UNITS / 2
    path = (
        f"M{number(x - w)} {number(y)}q0 {number(-h)} {number(h * 1.4)} {number(-h)}"
        f"h{number(2 * (w - h * 1.4))}q{number(h * 1.4)} 0 {number(h * 1.4)} {number(h)}"
        f"t{number(-h * 1.4)} {number(h)}h{number(-2 * (w - h * 1.4))}"
        f"q{number(-h * 1.4)} 0 {number(-h * 1.4)} {number(-h)}z"
    )
    layers.raw("soft", path, [(x - w, y - h), (x + w, y + h)])


def _chair_front(layers: Layers, one: PlacedThing) -> None:
    z, half, high = one.at[2], CHAIR_WIDE / 2, _seat_of(one)
    seat, top = high - 3.0, high + BACK_HIGH
    _box(layers, [(0.0, seat, z - half), (0.0, seat, z + half)])
    for edge in (-half, half):
        # The rail between the posts is hidden by whoever sits: drawn whole, it reads as something held.
        inner = (0.0, top, z + edge * 0.76)
        _box(layers, [inner, (0.0, top, z + edge * 0.9), (0.0, 0.0, z + edge * 0.9)])
    if one.thing == "raised chair":
        draw_cushion(layers, (0.0, high + 1.5, z), 34.0)


def _wheelchair_side(layers: Layers, one: PlacedThing) -> None:
    x, way, seat = one.at[0], -one.turn, one.at[1] - 3.0
    back = x + way * SEAT_DEEP
    _box(layers, [(x, seat, 0.0), (back, seat, 0.0)])
    _box(layers, [(back, seat - 8.0, 0.0), (back, 92.0, 0.0), (back + way * 9.0, 92.0, 0.0)])
    _box(layers, [(back, 69.0, 0.0), (x + way * 8.0, 69.0, 0.0)])
    _box(layers, [(x, seat, 0.0), (x - way * 10.0, 8.0, 0.0), (x - way * 24.0, 4.0, 0.0)])
    _ring(layers, (back - way * 8.0, 29.0, 0.0), 27.0)
    _ring(layers, (x - way * 2.0, 8.0, 0.0), 7.0)


def _ring(layers: Layers, at: Vec, radius: float, *, flat: float = 1.0) -> None:
    """A wheel, in centimetres; ``flat`` is the share of its breadth that is seen."""
    x, y = layers.flat(at)
    tall, wide = radius * UNITS, radius * UNITS * flat
    way = f"M{number(x - wide)} {number(y)}a{number(wide)} {number(tall)} 0 1 0 {number(2 * wide)} 0"
    back = f"a{number(wide)} {number(tall)} 0 1 0 {number(-2 * wide)} 0"
    layers.raw("thing", way + back, [(x - wide, y - tall), (x + wide, y + tall)])


def _wheelchair_front(layers: Layers, one: PlacedThing) -> None:
    z, seat = one.at[2], one.at[1] - 3.0
    _box(layers, [(0.0, seat, z - 22.0), (0.0, seat, z + 22.0)])
    for edge in (-1.0, 1.0):
        _box(layers, [(0.0, 92.0, z + edge * 20.0), (0.0, seat, z + edge * 22.0)])
        _box(layers, [(0.0, 68.0, z + edge * 25.0), (0.0, seat, z + edge * 22.0)])
        # A wheel as seen a little from aside: as a bar, it was taken for a leg of an ordinary chair.
        _ring(layers, (0.0, 29.0, z + edge * 34.0), 27.0, flat=0.32)
        _ring(layers, (0.0, 7.0, z + edge * 17.0), 6.0, flat=0.5)


def _counter_side(layers: Layers, one: PlacedThing) -> None:
    x, way, top = one.at[0], -one.turn, one.at[1]
    _box(layers, [(x, top - 2.0, 0.0), (x + way * 38.0, top - 2.0, 0.0)])
    _box(layers, [(x + way * 6.0, top - 2.0, 0.0), (x + way * 6.0, 0.0, 0.0)])


def _counter_front(layers: Layers, one: PlacedThing) -> None:
    top = one.at[1] - 2.0
    _box(layers, [(0.0, top, -62.0), (0.0, top, 62.0)])
    for z in (-56.0, 56.0):
        _box(layers, [(0.0, top, z), (0.0, 0.0, z)])


def _step_side(layers: Layers, one: PlacedThing) -> None:
    x, way, top, deep = one.at[0], -one.turn, one.at[1] - 2.0, 60.0
    _box(layers, [(x, 0.0, 0.0), (x, top, 0.0), (x + way * deep, top, 0.0), (x + way * deep, 0.0, 0.0)])


def _stairs_side(layers: Layers, one: PlacedThing) -> None:
    """Two stairs: the second is used."""
    x, way = one.at[0], -one.turn
    low, high = one.at[1] / 2 - 2.0, one.at[1] - 2.0
    first = x - way * _TREAD
    points: list[Vec] = [
        (first, 0.0, 0.0),
        (first, low, 0.0),
        (x, low, 0.0),
        (x, high, 0.0),
        (x + way * 32.0, high, 0.0),
        (x + way * 32.0, 0.0, 0.0),
    ]
    _box(layers, points)


def _step_front(layers: Layers, one: PlacedThing) -> None:
    z, top, half = one.at[2], one.at[1] - 2.0, 36.0
    _box(layers, [(0.0, 0.0, z - half), (0.0, top, z - half), (0.0, top, z + half), (0.0, 0.0, z + half)])


def _wall_side(layers: Layers, one: PlacedThing) -> None:
    x = one.at[0] + one.turn * 2.0
    _box(layers, [(x, 0.0, 0.0), (x, _WALL, 0.0)])


def _wall_front(layers: Layers, one: PlacedThing) -> None:
    z = one.at[2]
    if z:
        _box(layers, [(0.0, 0.0, z), (0.0, _WALL, z)])


def _door_side(layers: Layers, one: PlacedThing) -> None:
    x = one.at[0] + 2.0
    _box(layers, [(x, 0.0, 0.0), (x, _WALL, 0.0), (x + 7.0, _WALL, 0.0), (x + 7.0, 0.0, 0.0)])


def _door_front(layers: Layers, one: PlacedThing) -> None:
    """One jamb of a doorway, in its breadth."""
    z = one.at[2] or 40.0
    for edge in (z, z + 9.0):
        _box(layers, [(0.0, 0.0, edge), (0.0, 190.0, edge)])
    _box(layers, [(0.0, 190.0, z - 12.0), (0.0, 190.0, z + 9.0)])


def _rail_side(layers: Layers, one: PlacedThing) -> None:
    x = one.at[0]
    _box(layers, [(x, one.at[1], 0.0), (x, 0.0, 0.0)])
    slope = THINGS["step"].height / _TREAD if one.turn == 1 else 0.0
    _box(layers, [(x - 14.0, one.at[1] - 14.0 * slope, 0.0), (x + 26.0, one.at[1] + 26.0 * slope, 0.0)])


def _bed_side(layers: Layers, one: PlacedThing) -> None:
    top, x = one.at[1], one.at[0]
    left, right = x - 100.0, x + 72.0
    corners: list[Vec] = [
        (left, top - 2, 0.0),
        (right, top - 2, 0.0),
        (right, top - 20, 0.0),
        (left, top - 20, 0.0),
    ]
    layers.path("thing", [layers.flat(c) for c in corners], 2.0, closed=True)
    for leg in (left + 6, right - 6):
        _box(layers, [(leg, top - 20, 0.0), (leg, 0.0, 0.0)])


def _cushion_floor(layers: Layers, one: PlacedThing) -> None:
    draw_cushion(layers, (one.at[0], 3.6, one.at[2]), 34.0, 6.5)


_SIDE: Mapping[str, Callable[[Layers, PlacedThing], None]] = {
    "chair": _chair_side,
    "wheelchair": _wheelchair_side,
    "raised chair": _chair_side,
    "counter": _counter_side,
    "step": _step_side,
    "second step": _stairs_side,
    "wall": _wall_side,
    "door": _door_side,
    "rail": _rail_side,
    "bed": _bed_side,
    "cushion": _cushion_floor,
}
_FRONT: Mapping[str, Callable[[Layers, PlacedThing], None]] = {
    "chair": _chair_front,
    "wheelchair": _wheelchair_front,
    "raised chair": _chair_front,
    "counter": _counter_front,
    "step": _step_front,
    "second step": _step_front,
    "wall": _wall_front,
    "door": _door_front,
    "rail": _wall_front,
    "bed": _chair_front,
    "cushion": _cushion_floor,
}
