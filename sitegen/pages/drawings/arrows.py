"""Arrows: where a movement goes, what goes round, what presses although nothing moves."""

import math

from sitegen.pages.drawings.shapes import FLOOR, Layers, number
from sitegen.study.body.figure import LEFT, RIGHT, Figure
from sitegen.study.body.movement import Movement, travelled
from sitegen.study.body.vectors import Vec, along, between, distance

_ASIDE = (14.0, 20.0, 27.0, 35.0, 44.0, 56.0)
"""How far beside its way an arrow may be drawn, the nearest first."""
_ALONG = (0.0, 0.3, -0.3, 0.6, -0.6)
"""How far along its way, as a share of its length, an arrow may be moved to find room."""
_CLEAR = (8.5, 5.5)
"""Least distance between an arrow and whatever else is drawn: the usual one, and where room is scarce."""
_LONGEST, _SHORTEST, _QUICK = 44.0, 19.0, 23.0
"""Lengths of arrows; one with two heads needs more."""
_SMALL = 2.5
"""In drawing units: what moves less than this is not seen to move."""


def way_arrow(layers: Layers, movement: Movement) -> None:
    """Where the point goes that moves most, drawn beside its way where there is room for it."""
    turn = movement.finish.pose.turn - movement.start.pose.turn
    if abs(turn) >= _TURN and layers.front_view:
        _turn_arrow(layers, movement, -1 if turn < 0 else 1)
        return
    way = travelled(movement)
    if way is None:
        return
    start, end = layers.flat(way[0]), layers.flat(way[1])
    size = math.hypot(end[0] - start[0], end[1] - start[1])
    if size < _SMALL:
        return
    quick = "quick" in movement.start.pose.marks
    found = _place_for_arrow(layers, start, end, way[2], _QUICK if quick else _SHORTEST)
    if found is None and distance(movement.start.chest, movement.figures[1].chest) > _SMALL:
        found = _beside_the_head(layers, movement.start, start, end)
    if found is None:
        return
    a, b = found
    far = math.hypot(b[0] - a[0], b[1] - a[1])
    ux, uy = (b[0] - a[0]) / far, (b[1] - a[1]) / far
    draw_arrow(layers, a, b, (ux, uy))
    if quick:
        draw_arrow(layers, a, (b[0] - 7.0 * ux, b[1] - 7.0 * uy), (ux, uy))


def _place_for_arrow(
    layers: Layers, start: tuple[float, float], end: tuple[float, float], away: Vec, shortest: float
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """The first free place: near its way, on the side away from the body, long rather than short."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    size = math.hypot(dx, dy)
    ux, uy = dx / size, dy / size
    full = min(_LONGEST, max(shortest, size * 0.8))  # shorter than the way, whose ends limbs are drawn at
    middle = (start[0] + dx / 2, start[1] + dy / 2)
    side = _free_side(layers, start, (ux, uy), away)
    reach = _ASIDE[-1] + 0.6 * size + full
    drawn = [one for one in layers.occupied() if math.hypot(one[0] - middle[0], one[1] - middle[1]) < reach]
    for clear in _CLEAR:
        for shaft in dict.fromkeys((full, max(shortest, full / 2))):
            for far in _ASIDE:
                for moved in _ALONG:
                    for across in (side, -side):
                        x = middle[0] - uy * across * far + dx * moved
                        y = middle[1] + ux * across * far + dy * moved
                        a = (x - ux * shaft / 2, y - uy * shaft / 2)
                        b = (x + ux * shaft / 2, y + uy * shaft / 2)
                        if _is_clear(a, b, drawn, clear):
                            return a, b
    return None


_PRESS, _FREE, _BAR = 15.0, 4.0, 6.5
"""Length of the arrow of a press, how far its middle keeps from everything else, half its bar."""
_BESIDE = (9.0, 16.0, 24.0, 32.0)
"""How far the arrow may be from the middle of what presses, the nearest first."""
_ACROSS = (0.0, 8.0, -8.0, 18.0, -18.0)
"""How far aside of it."""


def press_arrows(layers: Layers, figure: Figure) -> None:
    """Where parts press although nothing moves: an arrow ahead of each or behind it, where there is room."""
    for part, word in figure.pose.presses.items():
        for side in _sides_that_press(layers, part):
            drawn = layers.occupied()
            x, y = layers.flat(_pressing_point(figure, part, side))
            ux, uy = _press_way(layers, part, word, side)
            if not ux and not uy:
                continue  # towards the eye, or away from it
            tries = [
                [(x + ux * at - uy * across, y + uy * at + ux * across) for at in (start, start + _PRESS)]
                for across in _ACROSS
                for beside in _BESIDE
                for start in _starts(beside, word)
            ]
            free = (ends for ends in tries if _room(ends, drawn) >= _FREE)
            a, b = next(free, None) or max(tries, key=lambda ends: _room(ends, drawn))
            draw_arrow(layers, a, b, (ux, uy))
            # A bar that stops it: what presses goes nowhere.
            layers.path(
                "arrow",
                [(b[0] + 3.5 * ux - uy * k, b[1] + 3.5 * uy + ux * k) for k in (-_BAR, _BAR)],
                2.0,
            )


def _sides_that_press(layers: Layers, part: str) -> tuple[int, ...]:
    """The named side; of both, the one that is seen from the side."""
    if part.startswith("left"):
        return (LEFT,)
    return (RIGHT,) if part.startswith("right") or not layers.front_view else (LEFT, RIGHT)


def _starts(beside: float, word: str) -> tuple[float, ...]:
    """Where along its way an arrow may begin: ahead of what presses, or so that it ends there.

    What presses down rests on something, which the arrow would cross; hands that press together have each
    other ahead.
    """
    ahead, behind = beside, -beside - _PRESS
    return {"in": (behind,), "down": (behind, ahead)}.get(word, (ahead, behind))


def _pressing_point(figure: Figure, part: str, side: int) -> Vec:
    arm, leg = figure.arms[side], figure.legs[side]
    at = {"hand": arm.hand, "elbow": arm.elbow, "knee": leg.knee, "foot": leg.toe, "shoulder": arm.shoulder}
    if part == "chest":
        return along(figure.chest, (14.0, figure.chest_frame.front))
    if part == "belly":
        return along(between(figure.pelvis, figure.chest, 0.35), (8.0, figure.chest_frame.front))
    return next(point for name, point in at.items() if name in part.replace("feet", "foot"))


def _press_way(layers: Layers, part: str, word: str, side: int) -> tuple[float, float]:
    """The direction on the page."""
    if part == "belly" and word == "in" and not layers.front_view:
        return -1.0, 0.0
    outwards = (1.0 if side == RIGHT else -1.0) if layers.front_view else 0.0
    ahead = 0.0 if layers.front_view else 1.0
    ways = {"up": (0.0, -1.0), "down": (0.0, 1.0), "ahead": (ahead, 0.0), "back": (-ahead, 0.0)}
    return (ways | {"out": (outwards, 0.0), "in": (-outwards, 0.0)})[word]


def _room(ends: list[tuple[float, float]], drawn: list[tuple[float, float, float]]) -> float:
    """How far the middle of an arrow is from whatever else is drawn; none below the ground."""
    (ax, ay), (bx, by) = ends
    x, y = (ax + bx) / 2, (ay + by) / 2
    if max(ay, by) > FLOOR - 3:  # its stroke would touch the line of the ground
        return 0.0
    return min(math.hypot(x - px, y - py) - margin for px, py, margin in drawn)


_SWEEP, _LONG_ARM = 80.0, 20.0
"""Centimetres and degrees: an arm no more bent whose hand goes so far circles about its shoulder."""


def _sweeps(movement: Movement) -> bool:
    start, finish = movement.start.arms[RIGHT], movement.finish.arms[RIGHT]
    return distance(start.hand, finish.hand) >= _SWEEP and max(start.bend, finish.bend) < _LONG_ARM


def _arm_circle(layers: Layers, figure: Figure) -> None:
    """From below ahead over the head to behind: the way of a long arm, a little outside its hand."""
    x, y = layers.flat(figure.arms[RIGHT].shoulder)
    hx, hy = layers.flat(figure.arms[RIGHT].hand)
    r = math.hypot(hx - x, hy - y) + 9.0
    (ax, ay), (bx, by) = _on_ellipse(x, y, r, r, 40), _on_ellipse(x, y, r, r, 165)
    way = f"M{number(ax)} {number(ay)}A{number(r)} {number(r)} 0 1 0 {number(bx)} {number(by)}"
    layers.raw("arrow", way, [(x - r, y - r), (x + r, y + r * 0.7)])
    layers.path("arrow", [(bx - 7.0, by - 4.5), (bx, by), (bx + 5.5, by - 5.5)], 3.0)


def round_arrow(layers: Layers, movement: Movement) -> None:
    """Three quarters of a circle round what goes round."""
    figure = movement.start
    arm, leg = figure.arms[RIGHT], figure.legs[RIGHT]
    points = {
        "hands": arm.hand,
        "shoulders": arm.shoulder,
        "knee": leg.knee,
        "foot": leg.toe,
    }
    if figure.pose.circles == "hands" and _sweeps(movement):
        _arm_circle(layers, figure)
        return
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


def hips_arrow(layers: Layers, figure: Figure) -> None:
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


def _beside_the_head(
    layers: Layers, figure: Figure, start: tuple[float, float], end: tuple[float, float]
) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where a trunk has no room about it, as in a wheelchair: the head goes with it, and has."""
    x, y = layers.flat(figure.head)
    size = math.hypot(end[0] - start[0], end[1] - start[1])
    ux, uy = (end[0] - start[0]) / size, (end[1] - start[1]) / size
    half = _SHORTEST / 2
    return (x + 24.0 - ux * half, y - uy * half), (x + 24.0 + ux * half, y + uy * half)


def _is_clear(
    a: tuple[float, float], b: tuple[float, float], drawn: list[tuple[float, float, float]], clear: float
) -> bool:
    if max(a[1], b[1]) > FLOOR - 7:  # its head would touch the ground
        return False
    for step in range(9):  # at every eighth of its length: 5.5 of the longest
        x, y = a[0] + (b[0] - a[0]) * step / 8, a[1] + (b[1] - a[1]) * step / 8
        if any((x - px) ** 2 + (y - py) ** 2 < (clear + margin) ** 2 for px, py, margin in drawn):
            return False
    return True


def draw_arrow(
    layers: Layers,
    a: tuple[float, float],
    b: tuple[float, float],
    way: tuple[float, float],
    *,
    kind: str = "arrow",
) -> None:
    """A shaft from ``a`` to ``b``, which lies the ``way``, and a head."""
    ux, uy = way
    head = 6.5
    c, s = math.cos(math.radians(148)), math.sin(math.radians(148))  # barbs of 32 degrees to the shaft
    first = (b[0] + head * (ux * c - uy * s), b[1] + head * (ux * s + uy * c))
    second = (b[0] + head * (ux * c + uy * s), b[1] + head * (-ux * s + uy * c))
    shaft, barbs = (
        "L".join(f"{number(x)} {number(y)}" for x, y in points) for points in ((a, b), (first, b, second))
    )
    layers.raw(kind, f"M{shaft}M{barbs}", [a, b, first, second])


def _free_side(layers: Layers, start: tuple[float, float], way: tuple[float, float], away: Vec) -> int:
    """The side of the way that leads away from the figure's middle."""
    middle = layers.flat(away)
    across = (start[0] - middle[0]) * -way[1] + (start[1] - middle[1]) * way[0]
    return 1 if across >= 0 else -1
