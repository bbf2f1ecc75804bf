"""Lying on the back or the belly, and the bridge."""

import math

from sitegen.study.body.figure import (
    CM,
    FORWARD,
    GRIP,
    HIP_HALF,
    LOOSE_STEP_MISSES,
    LYING,
    TOE,
    UP,
    UPRIGHT,
    Arm,
    Figure,
    Leg,
    TrunkFrame,
    leg_by_angles,
    reach_of,
    standing_leg,
    two_segments,
)
from sitegen.study.body.placing.trunk import HEAD, SharedByPoses, trunk_of
from sitegen.study.body.pose import FullPose
from sitegen.study.body.reaching import place_arms
from sitegen.study.body.vectors import Vec, along, cross, sub, unit

FACE_UP, FACE_DOWN = UPRIGHT.pitched(-90.0), UPRIGHT.pitched(90.0)
"""The trunk on its back and on its front: a quarter turn from upright."""
_HOOKED = 25.0
"""Degrees of bend from which on a lying leg has its foot on the ground; a straighter one lies (our
choice)."""


def _ground_under(pose: FullPose) -> float:
    return pose.height_of(pose.seat) if pose.seat == "bed" else 0.0


def lie(pose: FullPose, shared: SharedByPoses) -> Figure:
    """On the back or the belly, on the ground or a bed."""
    base = FACE_UP if pose.base == "lying" else FACE_DOWN
    floor = _ground_under(pose)
    frame = base.pitched(pose.lean)
    pelvis = (0.0, floor + LYING, 0.0)
    figure = trunk_of(pose, frame, pelvis)
    ahead = 1.0 if pose.base == "lying" else -1.0
    for side in (0, 1):
        hip = along(pelvis, (HIP_HALF, base.out(side)))
        hooked = pose.base == "lying" and (pose.knees[side] or 0.0) >= _HOOKED
        if pose.feet[side] == "lifted" or (pose.feet[side] == "chair" and not hooked):
            figure.legs[side] = leg_by_angles(hip, base, side, pose)
        elif hooked:
            figure.legs[side] = _hook(pose, hip, side, floor)
        else:
            # A heel, or the back of a foot, lies 7 cm below the ankle; 2 mm less than the leg's length leave
            # the knee a way to bend.
            ankle = along(hip, (CM.thigh + CM.shank - 0.2, (ahead, 0.0, 0.0)), (-LYING + 7.0, UP))
            knee, ankle, _ = two_segments(hip, ankle, CM.thigh, CM.shank, (0.0, 1.0, 0.0))
            # On the back toes point up and fall a little away, on the belly they lie flat.
            toes = (0.35, 1.0, 0.0) if pose.base == "lying" else (-1.0, -0.15, 0.0)
            figure.legs[side] = Leg(
                hip, knee, ankle, along(ankle, (TOE, unit(toes))), along(ankle, (-2.0, unit(toes)))
            )
    figure.back_carries = True
    place_arms_lying(figure, floor, shared)
    return figure


def _hook(pose: FullPose, hip: Vec, side: int, floor: float) -> Leg:
    """A leg bent with its foot on the ground, as far away as the knee's bend says."""
    far = reach_of(CM.thigh, CM.shank, pose.knees[side] or 90.0)
    word = pose.feet[side]
    ankle_high = (pose.height_of(word) if word not in ("floor", "lifted") else floor) + CM.ankle
    flat = math.sqrt(max(1.0, far * far - (hip[1] - ankle_high) ** 2))
    x = hip[0] + flat if f"step.{side}" not in pose.given else pose.step[side]
    z = hip[2] + pose.out[side] * (1 if side else -1)
    leg, _ = standing_leg(hip, (x, ankle_high - CM.ankle, z), FORWARD, pose.heels[side], (0.0, 1.0, 0.0))
    return leg


def place_arms_lying(figure: Figure, floor: float, shared: SharedByPoses) -> None:
    """Free arms of somebody who lies do not sink into the ground."""
    place_arms(figure, shared.things)
    for side, arm in enumerate(figure.arms):
        if figure.pose.hands[side] != "free":
            continue
        low = floor + 4.5  # the middle of an arm that lies on the ground (our choice)
        elbow, hand = arm.elbow, arm.hand
        if figure.pose.base in ("lying", "bridge") and f"shoulders.{side}" not in figure.pose.given:
            # Arms about which nothing is said lie beside the body, whatever the hips do.
            drop = arm.shoulder[1] - low
            reach = math.sqrt(max(0.0, CM.upper_arm**2 - drop * drop))
            elbow = (arm.shoulder[0] + reach, low, arm.shoulder[2])
            hand = (elbow[0] + CM.forearm + GRIP, low, arm.shoulder[2])
        if elbow[1] < low:
            elbow = (elbow[0], low, elbow[2])
        if hand[1] < low:
            hand = (hand[0], low, hand[2])
        figure.arms[side] = Arm(arm.shoulder, elbow, hand)


def bridge(pose: FullPose, shared: SharedByPoses) -> Figure:
    """Shoulders and feet stay where they are in lying; the hips rise until they are as open as written."""
    floor = _ground_under(pose)
    bend = 95.0  # shins about upright (our choice)
    far = reach_of(CM.thigh, CM.shank, bend)
    rise = LYING - CM.ankle
    feet = [
        pose.step[side] if f"step.{side}" in pose.given else math.sqrt(far * far - rise * rise)
        for side in (0, 1)
    ]
    chest = (-CM.trunk, floor + LYING, 0.0)
    side = 1 if pose.feet[1] != "lifted" else 0
    wanted = pose.hips[side]
    # Between flat and steeper than any trunk goes, halved until it is finer than a thousandth of a degree.
    low, high = 0.0, 55.0
    for _ in range(18):
        tilt = (low + high) / 2
        pelvis, knee = _bridge_at(chest, tilt, feet[side], floor, side)
        thigh, trunk = sub(knee, pelvis), sub(chest, pelvis)
        opened = math.degrees(math.atan2(cross(trunk, thigh)[2], trunk[0] * thigh[0] + trunk[1] * thigh[1]))
        # 180 between trunk and thigh is a straight line; less than that in front is flexion.
        flexion = 180.0 + opened if opened < 0 else opened - 180.0
        if flexion > wanted:
            low = tilt
        else:
            high = tilt
    pelvis, _ = _bridge_at(chest, (low + high) / 2, feet[side], floor, side)
    frame = _frame_between(pelvis, chest)
    figure = trunk_of(pose, frame, pelvis)
    # The neck bends: the head stays on the ground.
    figure.head = (chest[0] - HEAD, floor + LYING, 0.0)
    for leg_side in (0, 1):
        hip = along(pelvis, (HIP_HALF, frame.out(leg_side)))
        if pose.feet[leg_side] == "lifted":
            figure.legs[leg_side] = leg_by_angles(hip, frame, leg_side, pose)
        else:
            ground = (feet[leg_side], floor, hip[2])
            leg, gap = standing_leg(hip, ground, FORWARD, pose.heels[leg_side], (0.0, 1.0, 0.0))
            figure.stand(leg_side, leg, gap, LOOSE_STEP_MISSES)
    figure.back_carries = True
    place_arms_lying(figure, floor, shared)
    return figure


def _bridge_at(chest: Vec, tilt: float, foot: float, floor: float, side: int) -> tuple[Vec, Vec]:
    t = math.radians(tilt)
    pelvis = (chest[0] + CM.trunk * math.cos(t), chest[1] + CM.trunk * math.sin(t), 0.0)
    hip = pelvis
    leg, _ = standing_leg(hip, (foot, floor, 0.0), FORWARD, 0.0, (0.0, 1.0, 0.0))
    return pelvis, leg.knee


def _frame_between(pelvis: Vec, chest: Vec) -> TrunkFrame:
    up = unit(sub(chest, pelvis))
    right: Vec = (0.0, 0.0, 1.0)
    return TrunkFrame(unit(cross(up, right)), up, right)
