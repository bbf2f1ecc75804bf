"""Trunk, head and hanging limbs on a pelvis, and what the poses of one movement share."""

import math
from dataclasses import dataclass, field

from sitegen.study.body.figure import (
    CM,
    HIP_HALF,
    SHOULDER_HALF,
    UPRIGHT,
    Figure,
    TrunkFrame,
    arm_by_angles,
    leg_by_angles,
)
from sitegen.study.body.pose import FullPose
from sitegen.study.body.vectors import Vec, add, along, cross, turned

HEAD = 0.125 * 175.0
"""From the shoulders to the middle of the head; the look's, a little more than the ear's 0.112."""


@dataclass(frozen=True, slots=True)
class SharedByPoses:
    """What the start fixes for the poses after it."""

    span: float | None = None
    """From the feet (or knees) that bear to the hands, for bases on the hands."""
    things: dict[str, float] = field(default_factory=dict)
    """How far ahead of the feet each thing stands that hands use."""


def raise_figure(figure: Figure, by: float) -> None:
    """Move the whole figure up, feet and all."""
    _moved(figure, (0.0, by, 0.0))
    for leg in figure.legs:
        leg.carries = False


def _moved(figure: Figure, by: Vec) -> None:
    for name in ("pelvis", "chest", "head"):
        setattr(figure, name, add(getattr(figure, name), by))
    for leg in figure.legs:
        for name in ("hip", "knee", "ankle", "toe", "heel"):
            setattr(leg, name, add(getattr(leg, name), by))
    for arm in figure.arms:
        for name in ("shoulder", "elbow", "hand"):
            setattr(arm, name, add(getattr(arm, name), by))


def chord_of(pose: FullPose) -> float:
    """From the hips to the shoulders in a straight line: shorter than the trunk where it is rounded, as the
    chord of a circle is shorter than its arc."""
    curl = math.radians(abs(pose.round))
    # Under half a degree arc and chord are the same, and the quotient would come near 0 / 0.
    return CM.trunk * (math.sin(curl / 2) / (curl / 2) if curl > 0.01 else 1.0)


def trunk_of(pose: FullPose, frame: TrunkFrame, pelvis: Vec) -> Figure:
    """Trunk, head and hanging limbs on a pelvis with that frame."""
    spine = turned(frame.up, frame.front, pose.side)
    right = turned(frame.right, frame.front, pose.side)
    front = turned(frame.front, spine, -pose.turn)
    right = turned(right, spine, -pose.turn)
    chest_frame = TrunkFrame(front, spine, right)
    curl = math.radians(abs(pose.round))
    chord = chord_of(pose)
    bulge = math.copysign(chord / 2 * math.tan(curl / 4), pose.round)
    chest = along(pelvis, (chord, spine))
    # The head follows the last part of a curled spine.
    nod = pose.head + 0.5 * pose.round
    head_up = turned(spine, cross(front, spine), -nod)
    head = along(chest, (HEAD, head_up))
    hips = [along(pelvis, (HIP_HALF, frame.out(side))) for side in (0, 1)]
    shoulders = [along(chest, (SHOULDER_HALF, chest_frame.out(side))) for side in (0, 1)]
    return Figure(
        pose,
        pelvis,
        chest,
        head,
        frame,
        chest_frame,
        [leg_by_angles(hips[side], frame, side, pose) for side in (0, 1)],
        [arm_by_angles(shoulders[side], chest_frame, side, pose) for side in (0, 1)],
        bulge=bulge,
    )


def leaning(pose: FullPose) -> TrunkFrame:
    """The frame of an upright pelvis, tipped forwards by the pose's lean."""
    return UPRIGHT.pitched(pose.lean)
