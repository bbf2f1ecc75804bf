"""Lying on the left side, and the side plank."""

import math

from sitegen.study.body.figure import (
    CM,
    HIP_HALF,
    LYING,
    PALM,
    SHOULDER_HALF,
    Arm,
    Figure,
    TrunkFrame,
    leg_by_angles,
)
from sitegen.study.body.placing.lying import place_arms_lying
from sitegen.study.body.placing.trunk import SharedByPoses, trunk_of
from sitegen.study.body.pose import FullPose
from sitegen.study.body.reaching import place_arms
from sitegen.study.body.vectors import Vec, along, cross, turned

ON_SIDE = TrunkFrame((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
"""On the left side, the front towards the eye, the head to the right."""


def lie_on_side(pose: FullPose, shared: SharedByPoses) -> Figure:
    """On the left side, one leg on the other."""
    # On the side the spine is higher than on the back: hips are wider than a trunk is deep.
    figure = trunk_of(pose, ON_SIDE, (0.0, LYING + 2.0, 0.0))
    _legs_on_side(figure, ON_SIDE)
    figure.back_carries = True
    place_arms_lying(figure, 0.0, shared)
    return figure


def _legs_on_side(figure: Figure, frame: TrunkFrame) -> None:
    # Legs that lie on each other are drawn half as far apart as hips are wide.
    hips = [along(figure.pelvis, (HIP_HALF * 0.5, frame.out(side))) for side in (0, 1)]
    figure.legs = [leg_by_angles(hips[side], frame, side, figure.pose) for side in (0, 1)]


SAGGED = 20.0
"""The side bend, in degrees, with which the hip of a side plank lies on the ground."""


def side_plank(pose: FullPose, shared: SharedByPoses) -> Figure:
    """Left elbow below the shoulder, a straight line to the feet; a side bend lets the hip sink."""
    on_knees = (pose.knees[0] or 0.0) > 45.0  # half way to a right angle: the shins lie behind (our choice)
    legs = CM.thigh + (0.0 if on_knees else CM.shank)
    low = 11.0  # where the legs end: the edge of a foot with the other on top, or a knee
    # The middle of the chest lies over the lower shoulder by most of half its breadth: it sinks into the
    # shoulder.
    chest_high = PALM + CM.upper_arm + SHOULDER_HALF * 0.8
    slope = math.asin((chest_high - low) / (legs + CM.trunk))
    straight = low + legs * math.sin(slope)
    high = straight + (LYING + 2.0 - straight) * min(1.0, max(0.0, pose.side / SAGGED))
    pelvis = (0.0, high, 0.0)
    trunk = _rising(math.asin(max(-1.0, min(1.0, (chest_high - high) / CM.trunk))))
    side, pose.side = pose.side, 0.0
    figure = trunk_of(pose, trunk, pelvis)
    pose.side = side
    _legs_on_side(figure, _rising(math.asin(max(-1.0, min(1.0, (high - low) / legs)))))
    shoulder = figure.arms[0].shoulder
    elbow = (shoulder[0], PALM, shoulder[2])
    # The forearm lies half ahead, half across, so that it is seen from the front too.
    resting = Arm(shoulder, elbow, along(elbow, (CM.forearm, (0.75, 0.0, 0.66))), "floor", True, True)
    place_arms(figure, shared.things)
    figure.arms[0] = resting
    figure.legs[0].carries = True
    figure.legs[0].on_knee = on_knees
    return figure


def _rising(slope: float) -> TrunkFrame:
    """On the left side, the head end up by so many radians."""
    up = turned((1.0, 0.0, 0.0), (0.0, 0.0, 1.0), math.degrees(slope))
    front: Vec = (0.0, 0.0, 1.0)
    return TrunkFrame(front, up, cross(front, up))
