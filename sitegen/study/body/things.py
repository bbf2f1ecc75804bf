"""The things a figure uses: how high they are, what a held one weighs, and how they are spoken of.

Heights in centimetres and masses in kilograms; a series may set its own heights.
"""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """One thing that can be drawn."""

    height: float = 0.0
    """Of the surface that feet, hands or seat use."""
    mass: float = 0.0
    """Of a held one as it is usually loaded."""
    wide: float = 0.0
    tall: float = 0.0
    load: bool = False
    """Whether it is drawn as a load."""


THINGS: Mapping[str, Thing] = {
    "floor": Thing(),
    # The chair of the 30-second chair stand, 43 cm (Kuo 2013).
    "chair": Thing(height=43.0),
    "wheelchair": Thing(height=49.0),
    "arm rests": Thing(height=70.0),
    "raised chair": Thing(height=51.0),
    "chair back": Thing(height=88.0),
    # Stair risers 102 to 178 mm where stairs must be accessible (ADA/ABA).
    "step": Thing(height=17.8),
    "second step": Thing(height=35.6),
    # Common practice, no source: wheelchairs, kitchen counters, firm beds, folded cushions.
    "counter": Thing(height=90.0),
    "bed": Thing(height=50.0),
    "cushion": Thing(height=6.0, wide=34.0, tall=8.0),
    "wall": Thing(height=210.0),
    "door": Thing(height=200.0),
    "rail": Thing(height=95.0),
    "carrier": Thing(mass=5.0, wide=24.0, tall=34.0, load=True),
    "half carrier": Thing(mass=2.5, wide=24.0, tall=34.0, load=True),
    # A 400 g tin with its metal.
    "tin": Thing(mass=0.45, wide=8.5, tall=12.0, load=True),
    "backpack": Thing(mass=6.0, wide=28.0, tall=42.0, load=True),
    "light backpack": Thing(mass=2.0, wide=28.0, tall=42.0, load=True),
    "towel": Thing(),
    "broom": Thing(mass=0.4, wide=120.0),
}

TOWEL_KNOT = 118.0
"""Height at which a towel is shut in a door to lean back from: about that of the chest."""

PROPS = (
    *("chair", "raised chair", "wheelchair", "counter", "step", "second step", "wall", "door", "rail"),
    *("bed", "cushion"),
)
"""What can stand in the scene without being used."""
UPRIGHTS = ("wall", "door", "rail")
HELD = tuple(name for name, thing in THINGS.items() if thing.mass or name in ("towel", "cushion"))
HOLDS = (
    *("each hand", "right hand", "left hand", "both hands", "palms", "chest", "back", "front"),
    *("hips", "thighs", "forearms", "right forearm", "along the back", "shoulders", "under the feet"),
    *("round the foot", "between the knees", "under the back", "round the back"),
)
"""Where something is held or worn."""


HEIGHTS: Mapping[str, tuple[float, float]] = {
    "chair": (30.0, 60.0),
    "raised chair": (35.0, 75.0),
    "chair back": (70.0, 110.0),
    "wheelchair": (38.0, 62.0),
    "arm rests": (55.0, 90.0),
    "step": (5.0, 35.0),
    "second step": (10.0, 70.0),
    "counter": (65.0, 120.0),
    "bed": (25.0, 80.0),
    "cushion": (2.0, 20.0),
}
"""Things whose height a series may set, with the least and the most in centimetres, to find slips of the pen.
Common practice, no source."""

_ABOVE: Mapping[str, tuple[str, float]] = {
    "raised chair": ("chair", THINGS["raised chair"].height - THINGS["chair"].height),
    "chair back": ("chair", THINGS["chair back"].height - THINGS["chair"].height),
    "arm rests": ("wheelchair", THINGS["arm rests"].height - THINGS["wheelchair"].height),
}


def heights_from(own: Mapping[str, float]) -> dict[str, float]:
    """The heights that are not as usual where a series sets some: what stands on a thing rises with it."""
    found = {thing: own[below] + above for thing, (below, above) in _ABOVE.items() if below in own}
    if "step" in own:
        found["second step"] = 2 * own["step"]
    return found | dict(own)
