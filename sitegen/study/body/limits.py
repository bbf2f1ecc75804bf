"""What a body can do: the ranges that a pose may use.

Ranges of motion are those of the American Academy of Orthopaedic Surgeons, 1965 (shoulder flexion and
abduction 180, extension 60; elbow 150; hip flexion 120, extension 30, abduction 45; knee 135), with room
for what daily life needs beyond them (squatting and kneeling bend the knee to 160) and for the part that
the pelvis adds to a lifted thigh. They are there to find slips of the pen, not to say what is healthy.
"""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limit:
    """Least and most of one key."""

    least: float
    most: float
    what: str
    """What it is that cannot do more."""
    zero: str
    """What 0 means."""
    paired: bool = False
    unit: str = "degrees"


LIMITS: Mapping[str, Limit] = {
    "lean": Limit(-95, 125, "a trunk", "upright"),
    "round": Limit(-40, 100, "a spine", "straight"),
    "side": Limit(-45, 45, "a spine", "straight"),
    "turn": Limit(-70, 70, "a trunk", "facing ahead"),
    "head": Limit(-60, 60, "a neck", "in line with the spine"),
    "hips": Limit(-30, 145, "a hip", "in line with the trunk", paired=True),
    "hips_out": Limit(-30, 60, "a hip", "straight down", paired=True),
    "hips_turn": Limit(-45, 90, "a hip", "knees ahead", paired=True),
    "knees": Limit(0, 160, "a knee", "straight", paired=True),
    "heels": Limit(-50, 75, "an ankle", "the whole foot down", paired=True),
    "shoulders": Limit(-65, 190, "a shoulder", "the arm down", paired=True),
    "shoulders_out": Limit(-50, 180, "a shoulder", "the arm down", paired=True),
    "shoulders_turn": Limit(-90, 100, "a shoulder", "the elbow's crease ahead", paired=True),
    "elbows": Limit(0, 155, "an elbow", "straight", paired=True),
    "step": Limit(-120, 120, "a step", "the usual place", paired=True, unit="cm"),
    "out": Limit(-60, 110, "a step", "hip-wide", paired=True, unit="cm"),
    "weight": Limit(0, 100, "a foot", "all on the left", unit="per cent"),
    "shift": Limit(-60, 60, "a balance", "balanced", unit="cm"),
    "lift": Limit(0, 60, "a jump", "on the floor", unit="cm"),
    "distance": Limit(-80, 200, "a room", "at the feet", unit="cm"),
    "reach": Limit(20, 230, "an arm", "the floor", unit="cm"),
}
