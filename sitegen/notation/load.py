"""Household loads: ``12 kg``, ``5 l water``, ``2 x 5 l water``, ``5 l water + 3 l water``.

A load belongs to a piece of kit. The short form leaves unsaid which; where a form has several pieces
that could take it, the file names them: ``{bucket: 10 l sand, watering-can: 4 l water}``.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from sitegen.notation.errors import NotationError
from sitegen.notation.quantity import Quantity
from sitegen.notation.text import tidy

FILLS = ("water", "sand", "rice")
"""What a container may be filled with; the densities live in the study of loads."""

_EXAMPLE = "write for example 12 kg, 5 l water, 2 x 5 l water or 5 l water + 3 l water"
_PAIR = re.compile(r"2 ?x ?(.+)")


@dataclass(frozen=True, slots=True)
class LoadPart:
    """What one hand (or the one load) holds: a mass, or a volume of a fill."""

    quantity: Quantity
    fill: str | None = None
    """One of :data:`FILLS` for a volume; None for a mass."""
    piece: str | None = None
    """Id of the kit that holds it, or that it is; None while that is not settled."""

    def __str__(self) -> str:
        return f"{self.quantity} {self.fill}" if self.fill else str(self.quantity)


@dataclass(frozen=True, slots=True)
class Load:
    """One load, or two: one for each hand or side."""

    parts: tuple[LoadPart, ...]
    """One or two parts; two of the same piece mean two such pieces."""

    @classmethod
    def parse(cls, text: str) -> "Load":
        """Read a load. Raises NotationError where the text is none."""
        written = tidy(text)
        if pair := _PAIR.fullmatch(written):
            part = _parse_part(pair[1], text)
            return cls((part, part))
        parts = tuple(_parse_part(part, text) for part in written.split("+"))
        if len(parts) > 2:
            raise NotationError(f"{text!r} names more than two loads", _EXAMPLE)
        return cls(parts)

    @classmethod
    def of_pieces(cls, loads: Mapping[str, "Load"]) -> "Load":
        """One load from those of named pieces of kit, by id. Raises NotationError unless it has one or two
        parts in all."""
        parts = tuple(replace(part, piece=piece) for piece, load in loads.items() for part in load.parts)
        if not parts:
            raise NotationError("the load names no piece of kit", "write for example {bucket: 5 l water}")
        if len(parts) > 2:
            raise NotationError(
                "the load has more than two parts", "write one load, or two: one for each hand"
            )
        return cls(parts)

    def __str__(self) -> str:
        if len(self.parts) == 2 and self.parts[0] == self.parts[1]:
            return f"2 x {self.parts[0]}"
        return " + ".join(str(part) for part in self.parts)


def _parse_part(written: str, text: str) -> LoadPart:
    words, _, last = written.strip().rpartition(" ")
    fill = last if last in FILLS else None
    try:
        quantity = Quantity.parse(words if fill else written)
    except NotationError as error:
        raise NotationError(f"{text!r} is not a load", f"{error.instead}; {_EXAMPLE}") from None
    if quantity.kind == "volume" and not fill:
        raise NotationError(f"{text!r} does not say what fills it", f"add one of {', '.join(FILLS)}")
    if quantity.kind == "length" or (quantity.kind == "mass" and fill):
        raise NotationError(f"{text!r} is not a load", _EXAMPLE)
    if quantity.amount == 0:
        raise NotationError(f"{text!r} weighs nothing", _EXAMPLE)
    return LoadPart(quantity, fill)
