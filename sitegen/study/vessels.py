"""Which piece of kit a load is in, or is, and whether it fits.

A piece takes a load if the series says so: a container by its volume (``holds: 5 l``), a bag by what it
carries (``holds: 15 kg``), a weight by what it weighs (``weighs: 400 g``). Nothing is guessed: a chair,
of which the series says none of these, takes no load.
"""

from collections.abc import Iterable

from sitegen.model import Kit
from sitegen.notation import Load, LoadPart
from sitegen.study.load import KG_PER_LITRE, part_mass, same_mass

_SLACK = 1 + 1e-9
"""A full vessel is not overfull, whatever the arithmetic leaves over."""


def in_two_pieces(load: Load) -> bool:
    """Whether the two hands hold different pieces of kit, such as a bucket and a watering can."""
    return len({part.piece for part in load.parts}) > 1


def takers(part: LoadPart, pieces: Iterable[Kit]) -> list[Kit]:
    """The pieces that may be meant: those made for such a load, or failing that any that take it.

    A volume is first of all in a container, a mass in a bag or in a weight.
    """
    able = [piece for piece in pieces if takes(part, piece)]
    wanted = [piece for piece in able if is_container(piece) == (part.quantity.kind == "volume")]
    return wanted or able


def takes(part: LoadPart, piece: Kit) -> bool:
    """Whether the piece is something that such a load can be in, or be; its size is left aside."""
    return piece.holds is not None or (bool(piece.weighs) and part.fill is None)


def fits(part: LoadPart, piece: Kit) -> bool:
    """Whether a load that the piece takes is no more than it holds, or is what it weighs."""
    mass = part_mass(part)
    if piece.holds is None:
        return any(same_mass(mass.mid, weight.base) for weight in piece.weighs)
    if piece.holds.kind == "mass":
        return mass.low <= piece.holds.base * _SLACK
    if part.quantity.kind == "volume":
        return part.quantity.base <= piece.holds.base * _SLACK
    return mass.low <= heaviest(piece) * _SLACK


def heaviest(piece: Kit) -> float:
    """Kilograms that a piece holds at most: a container full of the heaviest fill."""
    if piece.holds is None:
        return max((weight.base for weight in piece.weighs), default=0.0)
    densest = max(density.high for density in KG_PER_LITRE.values())
    return piece.holds.base * (densest if is_container(piece) else 1)


def is_container(piece: Kit) -> bool:
    """Whether a piece holds a volume, such as a jug."""
    return piece.holds is not None and piece.holds.kind == "volume"
