"""What a body can do: the ranges that a pose may use.

Ranges of motion are those of the American Academy of Orthopaedic Surgeons, 1965 (shoulder flexion and
abduction 180, extension 60; elbow 150; hip flexion 120, extension 30, abduction 45; knee 135), with room
for what daily life needs beyond them (squatting and kneeling bend the knee to 160) and for the part that
the pelvis adds to a lifted thigh. They are there to find slips of the pen, not to say what is healthy.
"""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class AngleRange:
    """Least and most of one key."""

    least: float
    most: float
    what: str
    """What it is that cannot do more."""
    zero: str
    """What 0 means."""
    paired: bool = False
    unit: str = "degrees"


LIMITS: Mapping[str, AngleRange] = {
    "lean": AngleRange(-95, 125, "a trunk", "upright"),
    "round": AngleRange(-40, 100, "a spine", "straight"),
    "side": AngleRange(-45, 45, "a spine", "straight"),
    "turn": AngleRange(-70, 70, "a trunk", "facing ahead"),
    "head": AngleRange(-60, 60, "a neck", "in line with the spine"),
    "hips": AngleRange(-30, 145, "a hip", "in line with the trunk", paired=True),
    "hips_out": AngleRange(-30, 60, "a hip", "straight down", paired=True),
    "hips_turn": AngleRange(-45, 90, "a hip", "knees ahead", paired=True),
    "knees": AngleRange(0, 160, "a knee", "straight", paired=True),
    "heels": AngleRange(-50, 75, "an ankle", "the whole foot down", paired=True),
    "shoulders": AngleRange(-65, 190, "a shoulder", "the arm down", paired=True),
    "shoulders_out": AngleRange(-50, 180, "a shoulder", "the arm down", paired=True),
    "shoulders_turn": AngleRange(-90, 100, "a shoulder", "the elbow's crease ahead", paired=True),
    "elbows": AngleRange(0, 155, "an elbow", "straight", paired=True),
    "step": AngleRange(-120, 120, "a step", "the usual place", paired=True, unit="cm"),
    "out": AngleRange(-60, 110, "a step", "hip-wide", paired=True, unit="cm"),
    "weight": AngleRange(0, 100, "a foot", "all on the left", unit="per cent"),
    "shift": AngleRange(-60, 60, "a balance", "balanced", unit="cm"),
    "lift": AngleRange(0, 60, "a jump", "on the floor", unit="cm"),
    "distance": AngleRange(-80, 200, "a room", "at the feet", unit="cm"),
    "reach": AngleRange(20, 230, "an arm", "the floor", unit="cm"),
}
