"""How doses compare."""

from sitegen.notation import Dose


def amount(dose: Dose) -> int:
    """What one set asks for in all, both sides together, at its most; 0 for ``max``."""
    return dose.high * dose.sides


def is_larger(one: Dose, other: Dose) -> bool:
    """Whether one dose asks for more than another of the same measure; doses of different measures, and
    ``max``, do not compare."""
    alike = one.measure == other.measure and "max" not in (one.kind, other.kind)
    return alike and amount(one) > amount(other)
