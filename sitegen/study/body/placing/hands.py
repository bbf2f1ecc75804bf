"""Bases on the hands: one rigid chain between hands and toes or knees, tilted until both are in place."""

import math

from sitegen.study.body.figure import (
    BALL,
    CM,
    FORWARD,
    HEEL,
    KNEE_PAD,
    PALM,
    UP,
    UPRIGHT,
    Figure,
    PlacedThing,
    reach_of,
)
from sitegen.study.body.placing.knees import shin_on_floor
from sitegen.study.body.placing.trunk import SharedByPoses, chord_of, trunk_of
from sitegen.study.body.pose import FullPose
from sitegen.study.body.reaching import place_arms, reach_for
from sitegen.study.body.vectors import Vec, along, sub, turned


def on_hands(pose: FullPose, shared: SharedByPoses) -> Figure:
    """The figure on hands and toes or knees; after the start, hands and feet stay where they were."""
    on_knees = pose.base == "knee plank"
    hands_high, arm_reach = _hands_and_reach(pose)
    flat = trunk_of(pose, UPRIGHT, (0.0, 0.0, 0.0))
    bearing = [side for side in (0, 1) if pose.feet[side] != "lifted"] or [0]
    pivot, pivot_high, tip = _pivot(pose, flat, bearing[-1], on_knees)
    chest = flat.chest
    arm = math.radians(_arm_to_trunk(pose, shared))
    at = along(chest, (arm_reach, (math.sin(arm), -math.cos(arm), 0.0)))
    rise = hands_high - pivot_high
    if shared.span is not None:
        far = math.hypot(shared.span, rise)
        at = _meet(chest, arm_reach, pivot, far) or at
    way = sub(at, pivot)
    size = math.hypot(way[0], way[1])
    target = math.asin(max(-1.0, min(1.0, rise / size)))
    tilt = math.degrees(math.atan2(way[1], way[0]) - target)
    frame = UPRIGHT.pitched(tilt)
    turned_pivot = turned(pivot, (0.0, 0.0, 1.0), -tilt)
    pelvis = sub((0.0, pivot_high, 0.0), turned_pivot)
    figure = trunk_of(pose, frame, pelvis)
    hands_x = math.sqrt(max(0.0, size * size - rise * rise))
    for side in bearing:
        _bear(figure, side, on_knees, pivot_high, tip)
    for side in (0, 1):
        if pose.hands[side] not in _BEARING:
            continue
        target_point = (hands_x, hands_high, figure.arms[side].shoulder[2])
        figure.arms[side] = reach_for(figure, side, pose.hands[side], target_point)
        figure.arms[side].carries = True
    for side in (0, 1):
        if pose.hands[side] not in _BEARING and pose.hands[side] != "free":
            saved = figure.arms[1 - side]
            place_arms(figure, shared.things)
            figure.arms[1 - side] = saved
    _stand_under_hands(figure, hands_x)
    return figure


_BEARING = ("floor", "counter", "chair", "raised chair", "step", "second step", "wall", "bed")


def span_of(figure: Figure) -> float | None:
    """The distance from the bearing feet or knees to the hands, where the base is on the hands."""
    if figure.pose.base not in ("plank", "knee plank"):
        return None
    return next((arm.leans_at[0] for arm in figure.arms if arm.carries), None)


CHEST_HIGH = 128.0
"""Where hands meet a wall, if the pose does not say."""


def _hands_and_reach(pose: FullPose) -> tuple[float, float]:
    side = 1 if pose.hands[1] in _BEARING else 0
    word = pose.hands[side] if pose.hands[side] in _BEARING else "floor"
    if word == "wall":
        high = pose.reach if pose.reach is not None else CHEST_HIGH
    else:
        high = pose.height_of(word) + PALM
    if pose.forearms[side]:
        return high, CM.upper_arm
    return high, reach_of(CM.upper_arm, CM.forearm + PALM, pose.elbows[side] or 0.0)


def _arm_to_trunk(pose: FullPose, shared: SharedByPoses) -> float:
    """Angle between trunk and arm at the start; what the poses share decides afterwards."""
    if "shoulders" in pose.given:
        return max(pose.shoulders)
    side = 1 if pose.hands[1] in _BEARING else 0
    # A first guess from which the search for the place of the hands sets out: what planks on the floor, on an
    # edge and at a wall come to on the standard body.
    if pose.hands[side] == "floor":
        return 68.0 if not pose.forearms[side] else 72.0
    return 80.0 if pose.hands[side] != "wall" else 88.0


def _pivot(pose: FullPose, flat: Figure, side: int, on_knees: bool) -> tuple[Vec, float, float]:
    """Where the chain ends below, in the upright frame: its point, its height, the tip of the foot."""
    leg = flat.legs[side]
    raised = pose.height_of(pose.feet[side]) if pose.feet[side] not in ("lifted", "floor") else 0.0
    if on_knees:
        pad = KNEE_PAD + (pose.height_of("cushion") if "cushion" in pose.props else 0.0)
        return (leg.knee[0], leg.knee[1], 0.0), pad, 0.0
    hands_low = pose.hands[side] == "floor" or pose.hands[1 - side] == "floor"
    # The lower the hands, the steeper the foot stands on its ball: toes in a plank, nearly the whole sole at
    # a wall.
    tip = 70.0 if hands_low else (22.0 if "wall" in pose.hands else 42.0)
    high = raised + ankle_height(tip)
    return (leg.ankle[0], leg.ankle[1], 0.0), high, tip


def ankle_height(tip: float) -> float:
    """Height of the ankle of a foot tipped about its ball."""
    t = math.radians(tip)
    return 4.0 + BALL * math.sin(t) + (CM.ankle - 4.0) * math.cos(t)


def _bear(figure: Figure, side: int, on_knees: bool, high: float, tip: float) -> None:
    leg = figure.legs[side]
    leg.carries = True
    if on_knees:
        figure.legs[side] = shin_on_floor(leg.hip, (leg.knee[0], leg.knee[1], leg.hip[2]), FORWARD)
        return
    t = math.radians(tip)
    down = along((0.0, 0.0, 0.0), (math.cos(t), FORWARD), (-math.sin(t), UP))
    leg.toe = along(leg.ankle, (BALL + 2.0, down))
    leg.heel = along(leg.ankle, (-HEEL, down))
    leg.tipped = tip


def _meet(a: Vec, ra: float, b: Vec, rb: float) -> Vec | None:
    """Where circles about two points of the side plane meet, the point further forward."""
    d = math.hypot(b[0] - a[0], b[1] - a[1])
    # Circles about one point, or too far apart or inside one another, do not meet.
    if d < 1e-6 or d > ra + rb or d < abs(ra - rb):
        return None
    share = (ra * ra - rb * rb + d * d) / (2 * d)
    high = math.sqrt(max(0.0, ra * ra - share * share))
    ux, uy = (b[0] - a[0]) / d, (b[1] - a[1]) / d
    first = (a[0] + share * ux - high * uy, a[1] + share * uy + high * ux, 0.0)
    second = (a[0] + share * ux + high * uy, a[1] + share * uy - high * ux, 0.0)
    return max(first, second)


def _stand_under_hands(figure: Figure, x: float) -> None:
    for word in dict.fromkeys(figure.pose.hands):
        if word in ("counter", "chair", "raised chair", "step", "second step", "bed"):
            figure.placed.append(PlacedThing(word, (x - 3.0, figure.pose.height_of(word), 0.0), -1))
        if word == "wall":
            figure.placed.append(PlacedThing("wall", (x + PALM, 0.0, 0.0)))


def all_fours(pose: FullPose, shared: SharedByPoses) -> Figure:
    """On hands and knees, the thighs upright unless the hips are shifted."""
    pad = KNEE_PAD + (pose.height_of("cushion") if "cushion" in pose.props else 0.0)
    side = 1 if pose.hands[1] == "floor" else 0
    forearm = pose.forearms[side]
    hands_high = PALM
    bend = pose.elbows[side] or 0.0
    arm = CM.upper_arm if forearm else reach_of(CM.upper_arm, CM.forearm + PALM, bend)
    chord = chord_of(pose)
    tilt = math.asin(max(-1.0, min(1.0, pose.shift / CM.thigh)))
    pelvis = (CM.thigh * math.sin(tilt), pad + CM.thigh * math.cos(tilt), 0.0)
    # Not quite the length of the arm, or rounding could put the hand out of its reach.
    rise = hands_high + arm * 0.995 - pelvis[1]
    up = math.asin(max(-1.0, min(1.0, rise / chord)))
    frame = UPRIGHT.pitched(90.0 - math.degrees(up))
    figure = trunk_of(pose, frame, pelvis)
    for leg_side in (0, 1):
        if pose.feet[leg_side] != "lifted":
            hip = figure.legs[leg_side].hip
            figure.legs[leg_side] = shin_on_floor(hip, (0.0, pad, hip[2]), FORWARD)
    for arm_side in (0, 1):
        if pose.hands[arm_side] == "floor":
            shoulder = figure.arms[arm_side].shoulder
            target = (shoulder[0] + 1.0, hands_high, shoulder[2])
            figure.arms[arm_side] = reach_for(figure, arm_side, "floor", target)
            figure.arms[arm_side].carries = True
    return figure
