"""One form against another: which joints are asked for less, the same or more.

Two published tables of segment masses differ by up to 6 % in such moments, and so do a trunk taken as one
piece and as several (see the reference tests); a difference of less than a sixth is therefore no difference,
and neither is one of a few newton metres.
"""

from collections.abc import Mapping

from sitegen.study.body.moments import JOINTS, Asks

SAME = 0.85
MUCH = 0.5
FLOORS: Mapping[str, float] = {"knees": 8.0, "hips": 12.0, "back": 15.0, "shoulders": 6.0}
"""Differences in newton metres that are too small to be told."""

LEVELS = ("much less", "less", "same", "more", "much more")


def compared(asks: Asks, other: Asks) -> dict[str, str]:
    """For each joint what the first asks against the second: one of :data:`LEVELS`."""
    return {joint: _level(asks.moments[joint], other.moments[joint], FLOORS[joint]) for joint in JOINTS}


def _level(one: float, other: float, floor: float) -> str:
    if abs(one - other) <= floor:
        return "same"
    low, high = sorted((one, other))
    ratio = low / high
    if ratio >= SAME:
        return "same"
    much = ratio < MUCH
    if one < other:
        return "much less" if much else "less"
    return "much more" if much else "more"


def knees_first(asks: Asks) -> tuple[float, float]:
    """A key that puts the form first that asks least of the knees: the moment, then the bend."""
    return (round(asks.moments["knees"] / FLOORS["knees"]), asks.knee)
