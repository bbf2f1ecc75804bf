"""Bases that a seat, a wall or a towel holds up."""

import math

from sitegen.study.body.figure import (
    CM,
    FORWARD,
    GRIP,
    HIP_HALF,
    LOOSE_STEP_MISSES,
    NEARLY_STRAIGHT,
    PAD,
    PALM,
    SOFT,
    STEP_MISSES,
    UP,
    UPRIGHT,
    Arm,
    Figure,
    PlacedThing,
    TrunkFrame,
    arm_by_angles,
    leg_by_angles,
    reach_of,
    standing_leg,
    two_segments,
)
from sitegen.study.body.placing.feet import STANCE, ground_of, heading_of
from sitegen.study.body.placing.trunk import SharedByPoses, leaning, trunk_of
from sitegen.study.body.pose import FullPose
from sitegen.study.body.reaching import place_arms
from sitegen.study.body.things import TOWEL_KNOT
from sitegen.study.body.vectors import Vec, along, sub, unit

SEAT_BACK = 42.0
"""How far behind the feet the hips of a seated figure are: a thigh's length."""


def sit(pose: FullPose, shared: SharedByPoses) -> Figure:
    """On a seat, each foot on what it uses or at its angles."""
    pelvis = (-SEAT_BACK + pose.shift, pose.height_of(pose.seat) + PAD + pose.lift, 0.0)
    figure = trunk_of(pose, leaning(pose), pelvis)
    upright = TrunkFrame(FORWARD, UP, (0.0, 0.0, 1.0))
    for side in (0, 1):
        hip = along(pelvis, (HIP_HALF, upright.out(side)))
        if pose.feet[side] == "lifted":
            figure.legs[side] = leg_by_angles(hip, upright, side, _seated_angles(pose, side))
        else:
            _put_foot_before_seat(figure, side, hip)
    place_arms(figure, shared.things)
    # A seat that is left, if only by a finger's width, carries no more: hands and feet do.
    figure.seat_carries = not pose.lift
    for arm in figure.arms:
        arm.carries = bool(pose.lift) and arm.on in ("chair", "arm rests", "raised chair", "bed")
    return figure


def _seated_angles(pose: FullPose, side: int) -> FullPose:
    """Angles of a lifted leg; a level thigh where only the knee is written."""
    if f"hips.{side}" in pose.given:
        return pose
    hips = (90.0, pose.hips[1]) if side == 0 else (pose.hips[0], 90.0)
    return FullPose(
        hips=hips, hips_out=pose.hips_out, hips_turn=pose.hips_turn, knees=pose.knees, heels=pose.heels
    )


def _put_foot_before_seat(figure: Figure, side: int, hip: Vec) -> None:
    """A seated leg with its foot down: as far ahead or under the seat as the knee's bend puts it."""
    pose = figure.pose
    bend = pose.knees[side]
    far = reach_of(CM.thigh, CM.shank, bend if bend is not None else 90.0)
    high = pose.height_of(pose.feet[side])
    rise = hip[1] - high - CM.ankle
    # A seat that is higher than the leg is long leaves nothing under the root: the foot stands 2 cm ahead
    # then, and the gap is told below.
    ahead = math.sqrt(max(4.0, far * far - rise * rise)) if f"step.{side}" not in pose.given else None
    x = hip[0] + ahead if ahead is not None else pose.step[side]
    z = hip[2] + pose.out[side] * (1 if side else -1)
    heading = heading_of(pose, side)
    # The knee points up and ahead, and with a foot set 20 cm out a fifth to its side, as a thigh follows the
    # foot.
    pole = along(heading, (1.0, UP), (0.2 * pose.out[side] / 20, (0.0, 0.0, 1.0 if side else -1.0)))
    leg, gap = standing_leg(hip, (x, high, z), heading, pose.heels[side], pole)
    figure.stand(side, leg, gap, LOOSE_STEP_MISSES, pose.feet[side])


def at_wall(pose: FullPose, shared: SharedByPoses) -> Figure:
    """The back against a wall, the feet as far ahead as is said; hips and knees follow."""
    bend = pose.knees[1] if pose.knees[1] is not None else SOFT
    far = reach_of(CM.thigh, CM.shank, bend)
    ahead = pose.step[1]
    # Hips never lower than 10 cm over the ankles, however far the feet are said to stand ahead.
    high = CM.ankle + math.sqrt(max(100.0, far * far - ahead * ahead))
    if "knees" not in pose.given and far < abs(ahead):
        high = CM.ankle + 30.0  # feet too far ahead for the legs: the hips come down to them
    pelvis = (0.0, high, 0.0)
    figure = trunk_of(pose, UPRIGHT, pelvis)
    for side in (0, 1):
        if pose.feet[side] == "lifted":
            continue
        hip = along(pelvis, (HIP_HALF, UPRIGHT.out(side)))
        # Knees point ahead and a little up, so that they bend forwards even where hip and foot are in line.
        leg, gap = standing_leg(hip, ground_of(pose, side), FORWARD, pose.heels[side], (1.0, 0.3, 0.0))
        figure.stand(side, leg, gap, STEP_MISSES, pose.feet[side])
    figure.back_carries = True
    figure.placed.append(PlacedThing("wall", (-PAD - 1.0, 0.0, 0.0), -1))
    place_arms(figure, shared.things)
    return figure


DOOR_AHEAD = 75.0
"""Centimetres from the feet to the door where a pose says nothing: about the reach of an arm (our choice)."""


def hang_back(pose: FullPose, shared: SharedByPoses) -> Figure:
    """Leaning back from a towel in a door, in one line from the feet."""
    frame = leaning(pose)
    bend = pose.knees[1] if pose.knees[1] is not None else NEARLY_STRAIGHT
    far = reach_of(CM.thigh, CM.shank, bend)
    tilt = math.radians(pose.lean)
    pelvis = (far * math.sin(tilt), CM.ankle + far * math.cos(tilt), 0.0)
    figure = trunk_of(pose, frame, pelvis)
    for side in (0, 1):
        hip = along(pelvis, (HIP_HALF, frame.out(side)))
        leg, _ = standing_leg(hip, ground_of(pose, side), FORWARD, 0.0, (1.0, 0.0, 0.0))
        figure.legs[side] = leg
    door = (pose.distance if pose.distance is not None else DOOR_AHEAD, TOWEL_KNOT, 0.0)
    figure.placed.append(PlacedThing("door", (door[0], 0.0, 0.0)))
    for side in (0, 1):
        shoulder = figure.arms[side].shoulder
        arm_reach = reach_of(CM.upper_arm, CM.forearm + GRIP, pose.elbows[side] or 0.0)
        if pose.hands[side] != "towel":
            figure.arms[side] = arm_by_angles(shoulder, figure.chest_frame, side, pose)
            continue
        grip = along(shoulder, (arm_reach, unit(sub(door, shoulder))))
        # Both ends of a towel come from one knot: hands are half as far apart as shoulders, elbows point back
        # and down beside the ribs.
        grip = (grip[0], grip[1], shoulder[2] * 0.5)
        pole = along((0.0, 0.0, 0.0), (-0.9, FORWARD), (-0.5, UP))
        elbow, hand, _ = two_segments(shoulder, grip, CM.upper_arm, CM.forearm + GRIP, pole)
        figure.arms[side] = Arm(shoulder, elbow, hand, on="towel", carries=True)
    return figure


DIP_CLEAR = 13.0
"""How far ahead of the hands the shoulders are, so that the hips pass the edge of the seat with room (our
choice, by eye: half a thigh's thickness)."""


def dip(pose: FullPose, shared: SharedByPoses) -> Figure:
    """Hands behind on the edge of a seat, trunk upright in front of it."""
    seat = pose.height_of("chair")
    bend = pose.elbows[1] if pose.elbows[1] is not None else 5.0
    arm = reach_of(CM.upper_arm, CM.forearm + PALM, bend)
    frame = leaning(pose)
    hands_x = -SEAT_BACK
    lean_back = DIP_CLEAR
    chest = (hands_x + lean_back, seat + PALM + math.sqrt(arm * arm - lean_back * lean_back), 0.0)
    pelvis = along(chest, (-CM.trunk, frame.up))
    figure = trunk_of(pose, frame, pelvis)
    for side in (0, 1):
        hip = figure.legs[side].hip
        ahead = pose.step[side] if f"step.{side}" in pose.given else 2.0
        ground = (ahead, 0.0, (1 if side else -1) * STANCE)
        # Knees of legs in front of a seat point up rather than ahead.
        leg, gap = standing_leg(hip, ground, FORWARD, pose.heels[side], (0.6, 1.0, 0.0))
        figure.stand(side, leg, gap, LOOSE_STEP_MISSES)
        shoulder = figure.arms[side].shoulder
        target = (hands_x, seat + PALM, shoulder[2])
        # Elbows of hands that are behind can only go back.
        pole = along((0.0, 0.0, 0.0), (-1.0, frame.front), (0.2, frame.up))
        elbow, hand, _ = two_segments(shoulder, target, CM.upper_arm, CM.forearm + PALM, pole)
        figure.arms[side] = Arm(shoulder, elbow, hand, on="chair", carries=True)
    figure.placed.append(PlacedThing("chair", (hands_x + 4.0, seat, 0.0)))
    return figure
