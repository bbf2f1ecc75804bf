"""A number with a unit of mass, volume or length, and its exact size in SI-based units.

Factors: inch 2.54 cm (a foot is 12 inches, a yard 36) and pound 0.45359237 kg exactly (NIST SP 811,
appendix B; 16 CFR 500.19), US liquid gallon 3.785411784 l (231 cubic inches), imperial gallon 4.54609 l
exactly.
"""

import re
from dataclasses import dataclass

from sitegen.notation.errors import NotationError
from sitegen.notation.text import tidy

# All exact by definition; the sources stand at the head of this file.
KG_PER_LB = 0.45359237
LITRES_PER_US_GALLON = 3.785411784
LITRES_PER_IMPERIAL_GALLON = 4.54609
CM_PER_INCH = 2.54
"""The inch; feet and yards follow from it."""
DISTANCES_CM = {"m": 100.0, "ft": 12 * CM_PER_INCH, "yd": 36 * CM_PER_INCH}
"""Units in which one may walk."""

# Each unit as a multiple of the first in its table.
MASS_UNITS_KG = {"kg": 1.0, "g": 0.001, "lb": KG_PER_LB}
# Gallons have two sizes, so that the word alone is refused.
VOLUME_UNITS_L = {
    "l": 1.0,
    "ml": 0.001,
    "US gal": LITRES_PER_US_GALLON,
    "imperial gal": LITRES_PER_IMPERIAL_GALLON,
}
# What one may measure lengths in, such as a step's height.
LENGTH_UNITS_CM = {"cm": 1.0, "in": CM_PER_INCH} | DISTANCES_CM

_FACTORS = MASS_UNITS_KG | VOLUME_UNITS_L | LENGTH_UNITS_CM
_SPELLINGS = {unit.lower(): unit for unit in _FACTORS} | {
    "lbs": "lb",
    "litre": "l",
    "litres": "l",
    "liter": "l",
    "liters": "l",
    "us gallon": "US gal",
    "us gallons": "US gal",
    "imperial gallon": "imperial gal",
    "imperial gallons": "imperial gal",
    "inch": "in",
    "inches": "in",
}
_QUANTITY = re.compile(r"(\d+(?:\.\d+)?) ?([a-z ]*[a-z])")  # the unit may be two words: 1 US gal


@dataclass(frozen=True, slots=True)
class Quantity:
    """An amount as the trainer wrote it, with its unit kept."""

    amount: float
    unit: str
    """A key of one of the unit tables above."""

    @classmethod
    def parse(cls, text: str) -> "Quantity":
        """Read an amount with its unit. Raises NotationError where the text is none."""
        match = _QUANTITY.fullmatch(tidy(text))
        if match and match[2] in ("gal", "gallon", "gallons"):
            raise NotationError(f"{text!r} does not say which gallon", "write US gal or imperial gal")
        if not match or match[2] not in _SPELLINGS:
            units = ", ".join(_FACTORS)
            raise NotationError(f"{text!r} is not an amount", f"write a number and one of {units}")
        return cls(float(match[1]), _SPELLINGS[match[2]])

    @property
    def kind(self) -> str:
        """``mass``, ``volume`` or ``length``."""
        if self.unit in MASS_UNITS_KG:
            return "mass"
        return "volume" if self.unit in VOLUME_UNITS_L else "length"

    @property
    def base(self) -> float:
        """The amount in kilograms, litres or centimetres."""
        return self.amount * _FACTORS[self.unit]

    def __str__(self) -> str:
        return f"{self.amount:.10g} {self.unit}"
