"""Kneeling, on one knee or both."""

import math

from sitegen.study.body.figure import (
    CM,
    FORWARD,
    HIP_HALF,
    KNEE_PAD,
    STEP_MISSES,
    UP,
    Figure,
    Leg,
    standing_leg,
)
from sitegen.study.body.placing.trunk import SharedByPoses, leaning, trunk_of
from sitegen.study.body.pose import FullPose
from sitegen.study.body.reaching import place_arms
from sitegen.study.body.vectors import Vec, add, along, turned


def kneel(pose: FullPose, shared: SharedByPoses) -> Figure:
    """On both knees, or on the left one with the right foot ahead."""
    frame = leaning(pose)
    down = (0, 1) if pose.base == "kneeling" else (0,)
    pad = KNEE_PAD + (pose.height_of("cushion") if "cushion" in pose.props else 0.0)
    knee: Vec = (-2.0, pad, 0.0)  # behind the middle of the scene, for the shins go back from there
    # Hips shifted by more than 0.9 of a thigh would lie on the ground: a slip, told by what is then out of
    # reach.
    thigh = turned(UP, (0.0, 0.0, 1.0), -math.degrees(math.asin(max(-0.9, min(0.9, pose.shift / CM.thigh)))))
    pelvis = along(knee, (CM.thigh, thigh))
    figure = trunk_of(pose, frame, pelvis)
    for side in (0, 1):
        hip = along(pelvis, (HIP_HALF, frame.out(side)))
        if side in down:
            figure.legs[side] = shin_on_floor(hip, add(knee, (0.0, 0.0, hip[2])), FORWARD)
        else:
            ground = (pose.step[side], 0.0, hip[2])
            leg, gap = standing_leg(hip, ground, FORWARD, pose.heels[side], (1.0, 0.3, 0.0))
            figure.stand(side, leg, gap, STEP_MISSES)
    place_arms(figure, shared.things)
    return figure


def shin_on_floor(hip: Vec, knee: Vec, heading: Vec) -> Leg:
    """A leg that kneels: its shin and the back of its foot on the ground, away from ``heading``."""
    # The shin slopes from the knee to an ankle 6 cm over the ground, by 30 degrees at most.
    drop = math.asin(min(0.5, max(-0.5, (knee[1] - 6.0) / CM.shank)))
    back = along((0.0, 0.0, 0.0), (-math.cos(drop), heading), (-math.sin(drop), UP))
    ankle = along(knee, (CM.shank, back))
    # The foot lies on its back, drawn a little more than half as long as it is since its toes bend.
    toe = along(ankle, (CM.foot * 0.55, back), (-1.5, UP))
    return Leg(hip, knee, ankle, toe, along(ankle, (3.0, UP)), carries=True, on_knee=True)
