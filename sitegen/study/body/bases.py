"""The bases that a pose can start from, with the defaults that make most forms short to write."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Base:
    """One base."""

    says: str
    """What it is, for the guide and for editors."""
    defaults: Mapping[str, Any] = field(default_factory=dict)


BASES: Mapping[str, Base] = {
    "standing": Base(says="on the feet; the hips are put where the figure balances"),
    "seated": Base(says="on a seat, feet on the floor", defaults={"knees": 90.0, "lean": 0.0}),
    "half kneeling": Base(says="left knee down, right foot ahead", defaults={"step": 44.0}),
    "kneeling": Base(says="upright on both knees"),
    "all fours": Base(says="hands and knees", defaults={"hands": "floor", "elbows": 0.0}),
    "plank": Base(
        says="a straight body on hands and toes; the hands may be on something",
        defaults={"hands": "floor", "elbows": 0.0, "knees": 0.0},
    ),
    "knee plank": Base(
        says="a straight body on hands and knees",
        defaults={"hands": "floor", "elbows": 0.0, "knees": 90.0},
    ),
    "side plank": Base(says="on the left forearm and the edge of the feet", defaults={"knees": 0.0}),
    "side lying": Base(says="on the left side", defaults={"knees": 0.0}),
    "lying": Base(says="on the back", defaults={"knees": 0.0}),
    "lying face down": Base(says="on the belly", defaults={"knees": 0.0}),
    "bridge": Base(says="on the shoulders and the feet, hips lifted", defaults={"hips": 0.0}),
    "back to the wall": Base(says="feet ahead, the back on the wall", defaults={"step": 40.0}),
    "hanging back": Base(
        says="leaning back from a towel or a handle",
        defaults={"lean": -30.0, "hands": "towel", "elbows": 0.0},
    ),
    "dip": Base(
        says="hands on a seat behind, feet ahead", defaults={"hands": "chair", "elbows": 5.0, "knees": 90.0}
    ),
}

ON_HANDS = ("plank", "knee plank", "all fours")
"""Bases whose hands carry from the front."""
