"""What household loads weigh, in kilograms and in the series' own unit.

Densities in kilograms per litre:

- water 0.9982 at 20 C (CIPM table, Tanaka et al. 2001, Metrologia 38:301);
- dry sand 1.28 to 1.60, poured (80-100 lb per cubic foot, seen in a reference article only);
- rice 0.75 to 0.85, poured (from memory; not checked against a source).
"""

from dataclasses import dataclass

from sitegen.notation import Load, LoadPart
from sitegen.notation.quantity import KG_PER_LB
from sitegen.study.span import Span, total

EQUAL = 0.02
"""Two loads that differ by no more than this share of the heavier one count as equal: kitchen scales and
the eye at a water line are no better (common practice, no source)."""

KG_PER_LITRE = {"water": Span(0.9982, 0.9982), "sand": Span(1.28, 1.60), "rice": Span(0.75, 0.85)}
"""Water at 20 degrees (standard tables: 998.207 kg a cubic metre); dry sand 80 to 100 lb a cubic foot,
restated; raw rice from memory."""


@dataclass(frozen=True, slots=True)
class Mass:
    """A mass as it is shown: rounded to 0.1, below 1 to 0.01."""

    low: float
    high: float
    unit: str
    """``kg`` or ``lb``."""


def part_mass(part: LoadPart) -> Span:
    """Kilograms of what one hand holds, or of the one load."""
    if part.fill is None:
        return Span(part.quantity.base, part.quantity.base)
    return KG_PER_LITRE[part.fill] * part.quantity.base


def heavier_first(load: Load) -> list[LoadPart]:
    """The parts of a load, the heavier before the lighter."""
    return sorted(load.parts, key=lambda part: -part_mass(part).high)


def load_mass(load: Load) -> Span:
    """Kilograms of all its parts together."""
    return total(part_mass(part) for part in load.parts)


def difference(load: Load) -> float:
    """Kilograms between the two hands, at the middle of each range; 0 for a single load, and for two that
    count as equal."""
    if len(load.parts) < 2:
        return 0.0
    one, other = (part_mass(part).mid for part in load.parts)
    return 0.0 if same_mass(one, other) else abs(one - other)


def same_mass(one: float, other: float) -> bool:
    """Whether two masses in kilograms count as equal."""
    # The last digit of a computation must not decide: 5 kg and 4.9 kg are 2 % apart.
    return abs(one - other) <= EQUAL * max(one, other) * (1 + 1e-9)


def shown_mass(mass: Span, units: str) -> Mass:
    """Kilograms for a ``metric`` series, pounds for a ``us`` or ``imperial`` one."""
    if units == "metric":
        return Mass(_rounded(mass.low), _rounded(mass.high), "kg")
    return Mass(_rounded(mass.low / KG_PER_LB), _rounded(mass.high / KG_PER_LB), "lb")


def _rounded(amount: float) -> float:
    return round(amount, 1 if amount >= 1 else 2)
