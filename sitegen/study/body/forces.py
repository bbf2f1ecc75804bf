"""Forces between the figure and what holds it, for a body at rest.

Feet, knees, hands and seat push straight up; a wall pushes level, a towel pulls along itself. Two groups
of contacts share the weight by the lever rule. Where there are more contacts than equations (a seat, feet
and hands together) the share is the one with the smallest sum of squares, as of equally stiff springs: a
convention, no measurement. Newtons, and centimetres for places.
"""

from dataclasses import dataclass
from functools import reduce

from sitegen.study.body.balance import centre_of_mass, loads
from sitegen.study.body.figure import BALL, ON_BALL, ON_HEEL, TOE, Figure, Leg
from sitegen.study.body.segment_tables import GRAVITY, STANDARD
from sitegen.study.body.things import TOWEL_KNOT
from sitegen.study.body.vectors import Vec, add, along, between, scale, sub, unit


@dataclass(frozen=True, slots=True)
class Contact:
    """One force on the body."""

    part: str
    """``foot``, ``knee``, ``hand``, ``seat`` or ``back``."""
    side: int | None
    at: Vec
    force: Vec


def weight_of(figure: Figure) -> float:
    """The weight of the body and what it holds, in newtons."""
    return (STANDARD.mass + sum(mass for _, mass, _ in loads(figure))) * GRAVITY


def contacts(figure: Figure) -> list[Contact]:
    """All forces on a figure at rest; empty in the air."""
    if figure.pose.lift > 0 and figure.pose.base != "seated":
        return []
    base = figure.pose.base
    if base == "hanging back":
        return _on_towel(figure)
    if base == "back to the wall":
        return _on_wall(figure, between(figure.pelvis, figure.chest, 0.5), _feet(figure))
    if base in ("plank", "knee plank") and any(arm.carries and arm.on == "wall" for arm in figure.arms):
        points = [arm.leans_at for arm in figure.arms if arm.carries]
        middle = between(points[0], points[-1], 0.5)
        return _on_wall(figure, middle, _feet(figure), hands=True)
    if base in ("plank", "knee plank"):
        return _along_arms(figure)
    return _upward(figure, _standing_points(figure))


_SHORTEST_LEVER = 1.0
"""Centimetres: a pull that passes the feet nearer than this turns the body about them with no force that a
hand could have; the quotient would grow without bounds."""
_NEGATIVE = -1e-6
"""A share below this is negative; what lies between it and 0 is the rounding of the equations."""
FRICTION = 0.5
"""The most that hands push level for what they push down. Common practice, no source."""
_LEAST_RISE, _LEAST_REACH, _LEAST_WALL = 5.0, 10.0, 20.0
"""Centimetres by which a shoulder is taken to be above its hand, a hand ahead of the feet, and the place
where a wall is touched above them, at least: with less, a push would grow without bounds (our choice)."""


def _along_arms(figure: Figure) -> list[Contact]:
    """Hands that bear push along the line to the shoulder, as far as they do not slide; feet hold against it.

    With straight up pushes alone, a body on a counter would have to hold its arms by the shoulders.
    """
    feet = _feet(figure)
    arms = [(side, arm) for side, arm in enumerate(figure.arms) if arm.carries]
    if not feet or not arms:
        return _upward(figure, _standing_points(figure))
    weight, mass = weight_of(figure), centre_of_mass(figure)
    foot, points = _middle([at for _, _, at in feet]), [arm.leans_at for _, arm in arms]
    hand, shoulder = _middle(points), _middle([arm.shoulder for _, arm in arms])
    slope = (hand[0] - shoulder[0]) / max(_LEAST_RISE, shoulder[1] - hand[1])
    slope = max(-FRICTION, min(FRICTION, slope))
    lever = hand[0] - foot[0] + slope * (hand[1] - foot[1])
    up = weight * (mass[0] - foot[0]) / max(_LEAST_REACH, lever)
    push: Vec = (-slope * up / len(arms), up / len(arms), 0.0)
    rest: Vec = (slope * up / len(feet), (weight - up) / len(feet), 0.0)
    hands = [Contact("hand", side, at, push) for (side, _), at in zip(arms, points, strict=True)]
    return [*hands, *(Contact(part, side, at, rest) for part, side, at in feet)]


Point = tuple[str, int | None, Vec]


def _standing_points(figure: Figure) -> list[Point]:
    points = _feet(figure)
    for side, arm in enumerate(figure.arms):
        if arm.carries or _leans_on(figure, side):
            points.append(("hand", side, arm.leans_at))
    if figure.seat_carries:
        points.append(("seat", None, along(figure.pelvis, (2.0, (1.0, 0.0, 0.0)))))
    if figure.back_carries:
        points.append(("back", None, figure.chest))
        if figure.pose.base != "bridge":
            points.append(("back", None, figure.pelvis))
    return points


_PROPS_UP = 45.0
"""Degrees of lean from which on a hand on something low carries: half way to level, our choice."""


def _leans_on(figure: Figure, side: int) -> bool:
    """Whether a hand props up a trunk that is tipped far forwards; a lighter touch carries nothing."""
    arm = figure.arms[side]
    low = arm.on in ("chair", "counter", "step", "floor", "raised chair")
    return low and figure.pose.base == "standing" and figure.pose.lean >= _PROPS_UP


def _feet(figure: Figure) -> list[Point]:
    points: list[Point] = []
    for side, leg in enumerate(figure.legs):
        if leg.on_knee:
            points += [("knee", side, leg.knee), ("knee", side, leg.ankle)] if leg.carries else []
        elif leg.carries:
            points += [("foot", side, at) for at in _sole(leg)]
    return points


def _sole(leg: Leg) -> tuple[Vec, ...]:
    way = unit((leg.toe[0] - leg.ankle[0], 0.0, leg.toe[2] - leg.ankle[2]), (1.0, 0.0, 0.0))
    ball = along(leg.toe, (BALL - TOE, way))
    if leg.tipped > ON_BALL or (leg.on_edge and leg.tipped < 0):
        return (ball,)
    return (leg.heel,) if leg.tipped < ON_HEEL else (leg.heel, ball)


def _upward(figure: Figure, points: list[Point]) -> list[Contact]:
    if not points:
        return []
    ahead, _, aside = centre_of_mass(figure)
    shares = share_out([(at[0], at[2]) for _, _, at in points], (ahead, aside))
    weight = weight_of(figure)
    return [
        Contact(part, side, at, (0.0, weight * share, 0.0))
        for (part, side, at), share in zip(points, shares, strict=True)
    ]


def _on_wall(figure: Figure, wall: Vec, feet: list[Point], *, hands: bool = False) -> list[Contact]:
    """A level push of the wall keeps the body from turning about its feet; the feet carry the weight."""
    weight, mass = weight_of(figure), centre_of_mass(figure)
    if not feet:
        return []
    foot = _middle([at for _, _, at in feet])
    push = weight * (mass[0] - foot[0]) / max(_LEAST_WALL, wall[1] - foot[1])
    rest: Vec = (push / len(feet), weight / len(feet), 0.0)
    found = [Contact(part, side, at, rest) for part, side, at in feet]
    if not hands:
        return [*found, Contact("back", None, wall, (-push, 0.0, 0.0))]
    arms = [(side, arm.leans_at) for side, arm in enumerate(figure.arms) if arm.carries]
    return [*found, *(Contact("hand", side, at, (-push / len(arms), 0.0, 0.0)) for side, at in arms)]


def _on_towel(figure: Figure) -> list[Contact]:
    """The pull along the towel that keeps the body from falling back about the middle of its feet."""
    weight, mass = weight_of(figure), centre_of_mass(figure)
    feet = _feet(figure)
    holding = [(side, arm) for side, arm in enumerate(figure.arms) if arm.carries]
    door = next(one.at for one in figure.placed if one.thing == "door")
    if not feet or not holding:
        return _upward(figure, feet)
    foot, hand = _middle([at for _, _, at in feet]), _middle([arm.hand for _, arm in holding])
    way = unit(sub((door[0], TOWEL_KNOT, 0.0), (hand[0], hand[1], 0.0)))
    lever = (hand[0] - foot[0]) * way[1] - (hand[1] - foot[1]) * way[0]
    pull = weight * (mass[0] - foot[0]) / lever if abs(lever) > _SHORTEST_LEVER else 0.0
    pull = max(0.0, pull)
    found = [Contact("hand", side, arm.hand, scale(way, pull / len(holding))) for side, arm in holding]
    rest: Vec = (-pull * way[0], weight - pull * way[1], 0.0)
    return [*found, *(Contact(part, side, at, scale(rest, 1 / len(feet))) for part, side, at in feet)]


def _middle(points: list[Vec]) -> Vec:
    return scale(reduce(add, points), 1 / len(points))


def share_out(points: list[tuple[float, float]], mass: tuple[float, float]) -> list[float]:
    """Shares of one weight at ``mass`` that level points carry: none negative, smallest sum of squares.

    The shares add up to 1; where the weight lies outside the points, they are the nearest that do.
    """
    bearing = list(range(len(points)))
    while True:
        shares = _least_squares([points[i] for i in bearing], mass)
        lowest = min(range(len(bearing)), key=lambda i: shares[i])
        if shares[lowest] >= _NEGATIVE or len(bearing) == 1:
            break
        del bearing[lowest]
    found = [0.0] * len(points)
    total = sum(max(0.0, share) for share in shares) or 1.0
    for i, share in zip(bearing, shares, strict=True):
        found[i] = max(0.0, share) / total
    return found


def _least_squares(points: list[tuple[float, float]], mass: tuple[float, float]) -> list[float]:
    """The smallest forces with the right sum and the right moments (normal equations, three by three)."""
    # Distances in half metres, so that forces and moments weigh about the same in the sum of squares.
    rows = [
        [1.0] * len(points),
        [(p[0] - mass[0]) / 50.0 for p in points],
        [(p[1] - mass[1]) / 50.0 for p in points],
    ]
    m = [[sum(a * b for a, b in zip(r, s, strict=True)) for s in rows] for r in rows]
    for i in range(3):
        # Points on one line leave a moment undecided; a trace of stiffness decides it.
        m[i][i] += 1e-9
    k = _solve(m, [1.0, 0.0, 0.0])
    return [sum(k[j] * rows[j][i] for j in range(3)) for i in range(len(points))]


def _solve(m: list[list[float]], b: list[float]) -> list[float]:
    """A small linear system by elimination with pivoting."""
    n = len(b)
    a = [[*row, value] for row, value in zip(m, b, strict=True)]
    for i in range(n):
        p = max(range(i, n), key=lambda r: abs(a[r][i]))
        a[i], a[p] = a[p], a[i]
        for r in range(i + 1, n):
            f = a[r][i] / a[i][i] if a[i][i] else 0.0
            a[r] = [x - f * y for x, y in zip(a[r], a[i], strict=True)]
    x = [0.0] * n
    for i in reversed(range(n)):
        # A pivot of 0 is left only by unknowns that nothing decides: any answer will do, a division by 0 not.
        x[i] = (a[i][n] - sum(a[i][j] * x[j] for j in range(i + 1, n))) / (a[i][i] or 1e-12)
    return x
