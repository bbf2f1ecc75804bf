"""Vectors of three numbers, as plain tuples: short enough that a library would be slower."""

import math
from typing import TypeAlias

Vec: TypeAlias = tuple[float, float, float]


def add(a: Vec, b: Vec) -> Vec:
    """The sum of two vectors."""
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def sub(a: Vec, b: Vec) -> Vec:
    """The way from ``b`` to ``a``."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def scale(a: Vec, factor: float) -> Vec:
    """``factor`` times as long."""
    return (a[0] * factor, a[1] * factor, a[2] * factor)


def along(start: Vec, *steps: tuple[float, Vec]) -> Vec:
    """The point reached from ``start`` by going so far along each direction."""
    x, y, z = start
    for far, way in steps:
        x, y, z = x + far * way[0], y + far * way[1], z + far * way[2]
    return (x, y, z)


def dot(a: Vec, b: Vec) -> float:
    """The inner product: 0 at right angles."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vec, b: Vec) -> Vec:
    """The vector product: at right angles to both."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def length(a: Vec) -> float:
    """How long it is."""
    return math.sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2])


def distance(a: Vec, b: Vec) -> float:
    """How far apart two points are."""
    return length(sub(a, b))


def unit(a: Vec, otherwise: Vec = (0.0, 1.0, 0.0)) -> Vec:
    """The direction; ``otherwise`` where there is none."""
    size = length(a)
    # Shorter than any length in a body: what is left is rounding, which has no direction.
    return scale(a, 1 / size) if size > 1e-9 else otherwise


def between(a: Vec, b: Vec, share: float) -> Vec:
    """The point that lies ``share`` of the way from ``a`` to ``b``."""
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, a[2] + (b[2] - a[2]) * share)


def angle(a: Vec, b: Vec) -> float:
    """The angle between two directions in degrees, 0 to 180."""
    return math.degrees(math.acos(max(-1.0, min(1.0, dot(unit(a), unit(b))))))


def turned(a: Vec, axis: Vec, degrees: float) -> Vec:
    """Turned about a unit ``axis``, counter-clockwise as seen from its tip (Rodrigues' formula)."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return along(scale(a, c), (s, cross(axis, a)), (dot(axis, a) * (1 - c), axis))
