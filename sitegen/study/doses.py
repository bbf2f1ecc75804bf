"""What a set asks for, and how doses compare."""

from sitegen.model import Block, Item
from sitegen.notation import Dose


def amount(dose: Dose) -> int:
    """What one set asks for in all, both sides together, at its most; 0 for ``max``."""
    return dose.high * dose.sides


def is_larger(one: Dose, other: Dose) -> bool:
    """Whether one dose asks for more than another of the same measure; doses of different measures, and
    ``max``, do not compare."""
    alike = one.measure == other.measure and "max" not in (one.kind, other.kind)
    return alike and amount(one) > amount(other)


def dose_in(block: Block, item: Item) -> Dose:
    """What one set of an item asks for: its dose, or where the format sets it the work time."""
    if item.dose is None and block.work is not None:
        return Dose(kind="time", low=block.work.low, high=block.work.high)
    return item.dose or Dose(kind="max")
