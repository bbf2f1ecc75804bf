"""One form against another: which joints are asked for less, the same or more.

Two published tables of segment masses differ by up to 6 % in such moments, and so do a trunk taken as one
piece and as several (see the reference tests). So a difference of less than an eighth is none, and neither
is one of a few newton metres.
"""

from collections.abc import Mapping

from sitegen.study.body.moments import JOINTS, PoseBurden

SAME = 0.88
"""Share of the larger from which on two are the same: an eighth less, as said above."""
MUCH = 0.5
"""Share of the larger below which it is much less: less than half (our choice)."""
FLOORS: Mapping[str, float] = {"knees": 12.0, "hips": 14.0, "back": 20.0, "shoulders": 6.0}
"""Differences in newton metres that are too small to be told: at the knee the weight of one's own shank and
foot held level, at the hip a little more, at the back that of both arms held out, at the shoulder half an
arm."""
WORTH: Mapping[str, float] = {"knees": 30.0, "hips": 30.0, "back": 40.0, "shoulders": 9.0}
"""Moments below which a joint is not spoken of: standing about with soft knees, or an arm half lifted."""
BENT = 10.0
"""Difference in the bend of a knee that carries, in degrees, that is told."""

ARMS = "arms"
"""Stands for the shoulders where hands carry weight: see :func:`compared`."""
CARRY = 0.1
"""Share of the weight from which on hands carry."""
SHARE_FLOOR = 0.06
"""Differences in the share of the weight on the hands that are too small to be told (our choice): a plank on
straight arms alone comes out 0.02 to 0.09 above what has been measured."""


def compared(asks: PoseBurden, other: PoseBurden) -> dict[str, str]:
    """For each joint what the first asks against the second, from ``much less`` to ``much more``.

    Where hands carry weight in one of the two, the weight on the arms is compared instead of the shoulders'
    moment: how much a shoulder turns against a fixed hand depends on how the hand pushes, which a drawing
    does not say.
    """
    levels = {joint: _level(asks.moments[joint], other.moments[joint], FLOORS[joint]) for joint in JOINTS}
    if max(asks.hands, other.hands) >= CARRY:
        del levels["shoulders"]
        levels[ARMS] = _level(asks.hands, other.hands, SHARE_FLOOR)
    return levels


def busy(joint: str, asks: PoseBurden, other: PoseBurden) -> bool:
    """Whether a joint (or the arms) is asked enough in one of the two to speak of it."""
    return joint == ARMS or max(asks.moments[joint], other.moments[joint]) >= WORTH[joint]


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
