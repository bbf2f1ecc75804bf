"""A drawing of one pose, or several of one movement in a common box."""

import math
from dataclasses import dataclass

from markupsafe import Markup

from sitegen.pages.drawings.body import (
    arms_pass_head,
    draw_far_limbs,
    draw_head,
    draw_near_arms,
    draw_near_legs,
    draw_neck,
    draw_trunk,
)
from sitegen.pages.drawings.held import draw_held
from sitegen.pages.drawings.scene import draw_things
from sitegen.pages.drawings.shapes import FLOOR, GROUND_LINE, Layers, Shape, number
from sitegen.study.body.figure import LEFT, RIGHT, Figure
from sitegen.study.body.movement import Movement, scene_of, travelled
from sitegen.study.body.vectors import Vec

LEAST_WIDE, LEAST_TALL = 96.0, 96.0
"""So that a small pose is not blown up beside a large one."""
_MARGIN = 6.0
"""Free room around, so that the poses of a movement side by side do not touch."""
_LYING = ("lying", "lying face down", "bridge", "side lying", "side plank")


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """Shapes in a box, ready for the theme's template. Numbers and fixed words alone stand in the SVG."""

    left: float
    top: float
    wide: float
    tall: float
    shapes: tuple[Shape, ...]
    """From the back to the front."""
    svg: Markup
    """The same as SVG, without the box."""

    @property
    def box(self) -> str:
        """The viewBox."""
        return f"{number(self.left)} {number(self.top)} {number(self.wide)} {number(self.tall)}"


def pictures(movement: Movement) -> tuple[Picture, ...]:
    """One picture for each pose of a movement, all with the same box and the same ground."""
    front = movement.front_view
    # The same order of shapes in all of them, so that one picture can turn into the next.
    empty = Layers(front, aslant=movement.aslant)
    over_head = any(arms_pass_head(empty, figure) for figure in movement.figures)
    drawn = [_layers(movement, figure, front, over_head) for figure in movement.figures]
    if movement.start.pose.circles == "hips":
        _hips_arrow(drawn[0], movement.start)
    elif movement.start.pose.circles:
        _round_arrow(drawn[0], movement.start)
    elif len(drawn) > 1:
        _arrow(drawn[0], movement)
    for layers, figure in zip(drawn, movement.figures, strict=True):
        _press_arrows(layers, figure)
    left = min(layers.box[0] for layers in drawn) - _MARGIN
    right = max(layers.box[2] for layers in drawn) + _MARGIN
    top = min(layers.box[1] for layers in drawn) - _MARGIN
    bottom = GROUND_LINE + 3
    if right - left < LEAST_WIDE:
        middle = (left + right) / 2
        left, right = middle - LEAST_WIDE / 2, middle + LEAST_WIDE / 2
    top = min(top, bottom - LEAST_TALL)
    left, top = math.floor(left), math.floor(top)
    wide, tall = math.ceil(right) - left, math.ceil(bottom) - top
    found = []
    for layers in drawn:
        ground = Layers(front)
        ground.path("ground", [(left + 4, GROUND_LINE), (left + wide - 4, GROUND_LINE)])
        # Last, so that no edge around a limb cuts it.
        shapes = (*layers.shapes, *ground.shapes)
        svg = Markup("".join(shape.svg for shape in shapes))
        found.append(Picture(left=left, top=top, wide=wide, tall=tall, shapes=shapes, svg=svg))
    return tuple(found)


def _layers(movement: Movement, figure: Figure, front: bool, over_head: bool) -> Layers:
    layers = Layers(front, aslant=movement.aslant)
    draw_things(layers, scene_of(movement, figure))
    if figure.pose.base in _LYING:
        layers.lies_on = figure.pose.height_of("bed") if figure.pose.seat == "bed" else 0.0
    draw_held(layers, figure, behind=True)
    draw_far_limbs(layers, figure)
    draw_near_legs(layers, figure)
    draw_neck(layers, figure)
    draw_trunk(layers, figure)
    if not over_head:
        draw_head(layers, figure)
    # An arm lies on what it hugs; seen from the front, what is hugged would vanish behind the arms.
    hugged = any(where in ("chest", "front", "hips") for where in figure.pose.holds.values())
    if hugged and not front:
        draw_held(layers, figure, behind=False)
    draw_near_arms(layers, figure)
    if front or not hugged:
        draw_held(layers, figure, behind=False)
    if over_head:
        draw_head(layers, figure, clear=True)
    return layers


_ASIDE = (14.0, 20.0, 27.0, 35.0)
"""How far beside its way the arrow may be drawn, the nearest first."""
_CLEAR = 8.5
"""Least distance between an arrow and whatever else is drawn."""
_LONGEST = 44.0


def _arrow(layers: Layers, movement: Movement) -> None:
    """Where the point goes that moves most, drawn beside its way where there is room for it."""
    turn = movement.finish.pose.turn - movement.start.pose.turn
    if abs(turn) >= _TURN and layers.front_view:
        _turn_arrow(layers, movement, -1 if turn < 0 else 1)
        return
    way = travelled(movement)
    if way is None:
        return
    start, end = layers.flat(way[0]), layers.flat(way[1])
    dx, dy = end[0] - start[0], end[1] - start[1]
    size = math.hypot(dx, dy)
    if size < 12:
        return
    ux, uy = dx / size, dy / size
    shaft = min(_LONGEST, max(16.0, size * 0.8))
    middle = (start[0] + ux * size / 2, start[1] + uy * size / 2)
    drawn = layers.occupied()
    side = _free_side(layers, start, (ux, uy), way[2])
    for far in _ASIDE:
        for across in (side, -side):
            centre = (middle[0] - uy * across * far, middle[1] + ux * across * far)
            a = (centre[0] - ux * shaft / 2, centre[1] - uy * shaft / 2)
            b = (centre[0] + ux * shaft / 2, centre[1] + uy * shaft / 2)
            if _is_clear(a, b, drawn):
                _draw_arrow(layers, a, b, (ux, uy))
                return


_PRESS, _FREE = 15.0, 4.0
"""Length of the arrow of a press, and how far its middle keeps from everything else."""
_BESIDE = (9.0, 16.0, 24.0, 32.0)
"""How far the arrow may be from the middle of what presses, the nearest first."""


def _press_arrows(layers: Layers, figure: Figure) -> None:
    """Where parts press although nothing moves: an arrow ahead of each or behind it, where there is room."""
    drawn = layers.occupied()
    for part, word in figure.pose.presses.items():
        one = part.startswith("right") or not layers.front_view
        for side in (RIGHT,) if one else (LEFT, RIGHT):
            x, y = layers.flat(_pressing_point(figure, part, side))
            ux, uy = _press_way(layers, word, side)
            if not ux and not uy:
                continue  # towards the eye, or away from it
            tries = [
                [(x + ux * at, y + uy * at) for at in (start, start + _PRESS)]
                for beside in _BESIDE
                for start in _starts(beside, word)
            ]
            free = (ends for ends in tries if _room(ends, drawn) >= _FREE)
            a, b = next(free, None) or max(tries, key=lambda ends: _room(ends, drawn))
            _draw_arrow(layers, a, b, (ux, uy))


def _starts(beside: float, word: str) -> tuple[float, ...]:
    """Where along its way an arrow may begin: ahead of what presses, or so that it ends there.

    What presses down rests on something, which the arrow would cross; hands that press together have each
    other ahead.
    """
    ahead, behind = beside, -beside - _PRESS
    return {"in": (behind,), "down": (behind, ahead)}.get(word, (ahead, behind))


def _pressing_point(figure: Figure, part: str, side: int) -> Vec:
    arm, leg = figure.arms[side], figure.legs[side]
    at = {"hand": arm.hand, "elbow": arm.elbow, "knee": leg.knee, "foot": leg.toe}
    return next(point for name, point in at.items() if name in part.replace("feet", "foot"))


def _press_way(layers: Layers, word: str, side: int) -> tuple[float, float]:
    """The direction on the page."""
    outwards = (1.0 if side == RIGHT else -1.0) if layers.front_view else 0.0
    along = 0.0 if layers.front_view else 1.0
    ways = {"up": (0.0, -1.0), "down": (0.0, 1.0), "ahead": (along, 0.0), "back": (-along, 0.0)}
    return (ways | {"out": (outwards, 0.0), "in": (-outwards, 0.0)})[word]


def _room(ends: list[tuple[float, float]], drawn: list[tuple[float, float, float]]) -> float:
    """How far the middle of an arrow is from whatever else is drawn; none below the ground."""
    (ax, ay), (bx, by) = ends
    x, y = (ax + bx) / 2, (ay + by) / 2
    if max(ay, by) > FLOOR - 3:
        return 0.0
    return min(math.hypot(x - px, y - py) - margin for px, py, margin in drawn)


def _round_arrow(layers: Layers, figure: Figure) -> None:
    """Three quarters of a circle round what goes round."""
    arm, leg = figure.arms[RIGHT], figure.legs[RIGHT]
    points = {
        "hands": arm.hand,
        "shoulders": arm.shoulder,
        "knee": leg.knee,
        "foot": leg.toe,
    }
    x, y = layers.flat(points[figure.pose.circles])
    r = 14.0
    if figure.pose.circles == "shoulders" and not layers.front_view:
        # Behind the shoulder: about it, the circle would run across face and chest.
        x, y, r = x - 24.0, y + 1.0, 11.0
    elif figure.pose.circles == "knee" and layers.front_view:
        # Beside the knee, to which it moves: about it, the circle would run across the thigh.
        x, r = x + 22.0, 11.0
    (ax, ay), (bx, by) = _on_ellipse(x, y, r, r, -60), _on_ellipse(x, y, r, r, 210)
    way = f"M{number(ax)} {number(ay)}A{number(r)} {number(r)} 0 1 1 {number(bx)} {number(by)}"
    layers.raw("arrow", way, [(x - r, y - r), (x + r, y + r)])
    layers.path("arrow", [(bx - 7.0, by + 0.5), (bx, by), (bx + 1.5, by + 7.0)], 3.0)


def _hips_arrow(layers: Layers, figure: Figure) -> None:
    """A flat ring behind the body, round the thighs: about the hips it would run across the hands.

    Above the head of somebody seated, whose trunk circles while the thighs stay.
    """
    under = Layers(layers.front_view)
    seated = figure.pose.base == "seated"
    x, y = layers.flat(figure.head if seated else figure.pelvis)
    y, wide, tall = (y - 24.0, 27.0, 7.0) if seated else (y + 22.0, 36.0, 9.0)
    (ax, ay), (bx, by) = _on_ellipse(x, y, wide, tall, -50), _on_ellipse(x, y, wide, tall, 215)
    way = f"M{number(ax)} {number(ay)}A{number(wide)} {number(tall)} 0 1 1 {number(bx)} {number(by)}"
    under.raw("arrow", way, [(x - wide, y - tall), (x + wide, y + tall)])
    under.path("arrow", [(bx - 6.5, by - 1.5), (bx, by), (bx - 1.5, by + 6.5)], 3.0)
    layers.shapes[:0] = under.shapes
    layers.box[:] = [*map(min, layers.box[:2], under.box[:2]), *map(max, layers.box[2:], under.box[2:])]


def _on_ellipse(x: float, y: float, wide: float, tall: float, degrees: float) -> tuple[float, float]:
    return x + wide * math.cos(math.radians(degrees)), y + tall * math.sin(math.radians(degrees))


_TURN = 20.0
"""From how many degrees on a turn of the chest is what the movement is about."""


def _turn_arrow(layers: Layers, movement: Movement, way: int) -> None:
    """An arc over the head, as seen a little from above."""
    x, y = layers.flat(movement.start.head)
    top, wide = y - 19.0, 17.0
    layers.curve("arrow", (x - way * wide, top + 4), (x, top - 9), (x + way * wide, top + 4))
    end = (x + way * wide, top + 4)
    layers.path("arrow", [(end[0] - way * 7, end[1] - 0.5), end, (end[0] - way * 0.5, end[1] - 7)], 3.0)


def _is_clear(
    a: tuple[float, float], b: tuple[float, float], drawn: list[tuple[float, float, float]]
) -> bool:
    if max(a[1], b[1]) > FLOOR - 7:
        return False
    for step in range(9):
        x, y = a[0] + (b[0] - a[0]) * step / 8, a[1] + (b[1] - a[1]) * step / 8
        if any((x - px) ** 2 + (y - py) ** 2 < (_CLEAR + margin) ** 2 for px, py, margin in drawn):
            return False
    return True


def _draw_arrow(
    layers: Layers, a: tuple[float, float], b: tuple[float, float], way: tuple[float, float]
) -> None:
    ux, uy = way
    layers.path("arrow", [a, b], 3.0)
    head = 6.5
    c, s = math.cos(math.radians(148)), math.sin(math.radians(148))
    first = (b[0] + head * (ux * c - uy * s), b[1] + head * (ux * s + uy * c))
    second = (b[0] + head * (ux * c + uy * s), b[1] + head * (-ux * s + uy * c))
    layers.path("arrow", [first, b, second], 3.0)


def _free_side(layers: Layers, start: tuple[float, float], way: tuple[float, float], away: Vec) -> int:
    """The side of the way that leads away from the figure's middle."""
    middle = layers.flat(away)
    across = (start[0] - middle[0]) * -way[1] + (start[1] - middle[1]) * way[0]
    return 1 if across >= 0 else -1
