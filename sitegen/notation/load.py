"""Household loads: ``12 kg``, ``5 l water``, ``2 x 5 l water``, ``5 l water + 3 l water``.

A load belongs to a piece of kit. The short form leaves unsaid which; where a form has several pieces
that could take it, the file names them: ``{bucket: 10 l sand, watering-can: 4 l water}``.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from sitegen.notation.errors import NotationError
from sitegen.notation.quantity import Quantity
from sitegen.notation.text import THEN, tidy

FILLS = ("water", "sand", "rice")
"""What a container may be filled with; the densities live in the study of loads."""

_EXAMPLE = "write for example 12 kg, 5 l water, 2 x 5 l water or 5 l water + 3 l water"
_PAIR = re.compile(r"2 ?x ?(.+)")  # the same in each hand


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
    sets: tuple["Load", ...] = ()
    """The load of each set where they differ: pyramids, drop sets. ``parts`` are then those of the heaviest,
    so that whoever looks at them alone is on the safe side."""

    @classmethod
    def parse(cls, text: str) -> "Load":
        """Read a load. Raises NotationError where the text is none."""
        written = tidy(text)
        if THEN.search(written):
            return cls.of_sets([cls.parse(one) for one in THEN.split(written)])
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

    @classmethod
    def of_sets(cls, loads: Sequence["Load"]) -> "Load":
        """One load from that of each set. Raises NotationError where they cannot be compared, or where the
        hands hold different loads: no plan says then which hand gets which."""
        if any(one.sets for one in loads):
            raise NotationError("the load of a set is a list itself", "write one load for each set")
        if len(set(loads)) == 1:
            return loads[0]
        if any(len({(p.quantity, p.fill) for p in one.parts}) > 1 for one in loads):
            raise NotationError(
                "loads set by set are the same in both hands", "write for example [2 x 4 kg, 2 x 5 kg]"
            )
        if len({(p.quantity.kind, p.fill) for one in loads for p in one.parts}) > 1:
            raise NotationError(
                "the loads of the sets are of different kinds", "write all as masses, or all with one fill"
            )
        heaviest = max(loads, key=lambda one: sum(part.quantity.base for part in one.parts))
        return cls(heaviest.parts, tuple(loads))

    def each_set(self, change: Callable[["Load"], "Load | None"]) -> "Load | None":
        """The load with every set changed; None where one of them cannot be."""
        changed = [change(one) for one in self.sets or (self,)]
        kept = [one for one in changed if one is not None]
        return Load.of_sets(kept) if len(kept) == len(changed) else None

    def only(self, wanted: Callable[[LoadPart], bool]) -> "Load | None":
        """What of the load is in the parts that are wanted; None for nothing."""

        def kept(load: Load) -> Load | None:
            parts = tuple(filter(wanted, load.parts))
            return Load(parts) if parts else None

        return self.each_set(kept)

    def __str__(self) -> str:
        if self.sets:
            return ", then ".join(map(str, self.sets))
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
