"""Whether a figure can be as it is posed: limbs above the ground, contacts met, weight over its support."""

import math
from collections.abc import Iterator

from sitegen.study.body.balance import centre_of_mass
from sitegen.study.body.figure import BALL, ON_BALL, ON_HEEL, TOE, Figure, PoseTrouble
from sitegen.study.body.things import THINGS
from sitegen.study.body.vectors import Vec, along, unit

SINKS = 1.0
"""How far, in centimetres, a joint may lie below the ground before it is told."""
FALLS = 2.0
"""How far the centre of mass may lie outside the support before it is told: the measure of the model."""
FOOT_HALF = 4.5
"""Half the breadth of a foot in centimetres: 0.055 of stature is 9.6 (Drillis and Contini), rounded down."""
SEAT_HALF = 16.0
"""Half the breadth of what carries on a seat: the hips', 0.191 of stature, is 33 cm."""
_SEAT_BEHIND, _SEAT_AHEAD = -9.0, 24.0
"""From the hips back to the end of the buttocks and ahead to the end of the thigh's support, in centimetres:
half of the thigh's 43 and a little more (our choice)."""
_BALL_BEHIND = 3.0
"""Centimetres that the ball of a foot reaches back from its joint: it is no point (our choice)."""
_HEAD_LOWEST = 4.0
"""Of the middle of the head, in centimetres: well below a head's radius (12 as drawn), so that only a head
that is in the floor is told (our choice)."""
_HANDLE = 4.0
"""Centimetres from the middle of the hand to the top of what hangs from it (our choice)."""
_CARRIER_SINKS = 3.0
"""How far a carrier may sink into the floor before it is told: its height is rounder than a limb's length."""


def troubles(figure: Figure) -> list[PoseTrouble]:
    """Everything that cannot be, the contacts that are not met first."""
    return [*figure.trouble, *_below_ground(figure), *_falling(figure)]


# The sides whose hands a thing hangs from, by where it is held.
_HANDS = {"left hand": (0,), "right hand": (1,), "each hand": (0, 1), "both hands": (0, 1)}


def _below_ground(figure: Figure) -> Iterator[PoseTrouble]:
    for side, leg in enumerate(figure.legs):
        lowest = min(leg.knee[1], leg.ankle[1], leg.toe[1])
        if lowest < -SINKS:
            yield PoseTrouble("ground", "knees", -lowest, side, "foot" if lowest < leg.knee[1] else "knee")
    for side, arm in enumerate(figure.arms):
        lowest = min(arm.elbow[1], arm.hand[1])
        if lowest < -SINKS:
            what = "hand" if lowest < arm.elbow[1] else "elbow"
            yield PoseTrouble("ground", "shoulders", -lowest, side, what)
    if figure.head[1] < _HEAD_LOWEST:
        yield PoseTrouble("ground", "lean", _HEAD_LOWEST - figure.head[1], None, "head")
    for thing, where in figure.pose.holds.items():
        deep = THINGS[thing].tall + _HANDLE
        for side in _HANDS.get(where, ()):
            below = deep - figure.arms[side].hand[1]
            if "carrier" in thing and below > _CARRIER_SINKS:
                yield PoseTrouble("ground", "holds", below, side, thing)


def _falling(figure: Figure) -> Iterator[PoseTrouble]:
    points = support(figure)
    if points is None:
        return
    mass = centre_of_mass(figure)
    outside = distance_outside((mass[0], mass[2]), points)
    if outside is not None and outside[0] > FALLS:
        yield PoseTrouble("falls", "shift", outside[0], None, outside[1])


def support(figure: Figure) -> list[tuple[float, float]] | None:
    """The points on which the figure rests, seen from above; None where something else holds it."""
    if figure.back_carries or figure.pose.base == "hanging back" or figure.pose.lift > 0:
        return None
    points: list[tuple[float, float]] = []
    for leg in figure.legs:
        if not leg.carries:
            continue
        if leg.on_knee:
            points += [(leg.knee[0], leg.knee[2]), (leg.ankle[0], leg.ankle[2])]
            continue
        way = unit((leg.toe[0] - leg.ankle[0], 0.0, leg.toe[2] - leg.ankle[2]), (1.0, 0.0, 0.0))
        ends = (leg.heel, leg.toe)
        if leg.tipped > ON_BALL or (leg.on_edge and leg.tipped < 0):
            ends = (along(leg.toe, (BALL - TOE - _BALL_BEHIND, way)), leg.toe)
        elif leg.tipped < ON_HEEL:
            ends = (leg.heel, leg.ankle)
        across: Vec = (-way[2], 0.0, way[0])
        for end in ends:
            for half in (-FOOT_HALF, FOOT_HALF):
                at = along(end, (half, across))
                points.append((at[0], at[2]))
    for arm in figure.arms:
        if arm.carries or (arm.on and arm.on not in ("wall", "door", "rail", "towel")):
            points.append((arm.leans_at[0], arm.leans_at[2]))
    if figure.seat_carries:
        x = figure.pelvis[0]
        points += [(x + ahead, z) for ahead in (_SEAT_BEHIND, _SEAT_AHEAD) for z in (-SEAT_HALF, SEAT_HALF)]
    return points


def distance_outside(
    point: tuple[float, float], points: list[tuple[float, float]]
) -> tuple[float, str] | None:
    """How far a point lies outside the hull of others, and whether forwards, backwards or sideways.

    None where it lies inside.
    """
    hull = _hull(points)
    if len(hull) < 3:
        return None
    worst, way = 0.0, (0.0, 0.0)
    inside = True
    for (ax, ay), (bx, by) in zip(hull, (*hull[1:], hull[0]), strict=True):
        size = math.hypot(bx - ax, by - ay) or 1.0
        # The hull runs counter-clockwise: outside is to the right of its edges.
        out = ((by - ay) * (point[0] - ax) - (bx - ax) * (point[1] - ay)) / size
        if out > 1e-9:  # a point on the edge is inside, whatever the rounding says
            inside = False
            if out > worst:
                worst, way = out, ((by - ay) / size, -(bx - ax) / size)
    if inside:
        return None
    if abs(way[0]) >= abs(way[1]):
        return worst, "forwards" if way[0] > 0 else "backwards"
    return worst, "sideways"


def _hull(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """The convex hull, counter-clockwise (Andrew's monotone chain)."""
    ordered = sorted(set(points))
    if len(ordered) < 3:
        return ordered

    def half(way: list[tuple[float, float]]) -> list[tuple[float, float]]:
        chain: list[tuple[float, float]] = []
        for p in way:
            while len(chain) >= 2 and _turns(chain[-2], chain[-1], p) <= 0:
                chain.pop()
            chain.append(p)
        return chain[:-1]

    return half(ordered) + half(ordered[::-1])


def _turns(o: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    return (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0])
