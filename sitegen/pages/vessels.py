"""Loads as vessels filled to the mark: what a viewer sees at once where she would otherwise read and weigh.

A vessel is full at what its piece of kit holds. Where the series does not say what it holds, nothing is
known about the mark, and the vessel is drawn full. A weight, such as a food tin, is what it is: full.
"""

from dataclasses import dataclass

from sitegen.model import Kit
from sitegen.notation import Load, LoadPart
from sitegen.pages.site import Site
from sitegen.pages.theme import plural
from sitegen.study.load import part_mass
from sitegen.study.vessels import heaviest

CARRIER, BAG, WEIGHT = "carrier", "bag", "weight"
"""Kinds of vessel: for a volume, for a mass put into something, and a weight that is held itself."""
TOP, BOTTOM = 20.0, 80.0
"""Where the inside of a vessel begins and ends in its drawing, counted downwards in a box of 50 by 84."""
_LOWEST = 0.06
"""Share of the height that even the least load is drawn with, so that it is seen."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Vessel:
    """One vessel with what is in it."""

    kind: str
    level: float
    """How full it is, from 0 to 1."""

    @property
    def mark(self) -> float:
        """Where its level stands in the drawing."""
        return round(BOTTOM - (BOTTOM - TOP) * self.level, 1)


def vessels_of(site: Site, load: Load | None) -> tuple[Vessel, ...]:
    """One vessel for each part of a load, as written; of loads that differ by set, those of the heaviest."""
    return tuple(_vessel(site.details.kit.get(part.piece or ""), part) for part in load.parts) if load else ()


def load_in_short(site: Site, load: Load | None) -> str:
    """``5 + 3 litres of water``, ``2 × 800 g``: as few words as say it beside the vessels."""
    if load is None:
        return ""
    words = site.theme.strings.vessels
    if load.sets or len({(part.quantity.unit, part.fill, part.piece) for part in load.parts}) > 1:
        return site.phrases.load(load)
    first = load.parts[0]
    amounts = [f"{part.quantity.amount:.10g}" for part in load.parts]
    pair = len(amounts) == 2 and amounts[0] == amounts[1]
    amount = words.pair.format(amount=amounts[0]) if pair else words.uneven.join(amounts)
    # The letter l alone is a bare bar in the face of numbers.
    unit = words.units.get(first.quantity.unit, first.quantity.unit)
    text = f"{amount} {plural(unit, max(part.quantity.amount for part in load.parts))}"
    if first.fill is None:
        return text
    return str(words.filled.format(amount=text, fill=site.theme.strings.notation.fills[first.fill]))


def _vessel(piece: Kit | None, part: LoadPart) -> Vessel:
    bag = part.quantity.kind == "mass" and part.fill is None
    if piece is None or piece.holds is None:
        return Vessel(
            kind=WEIGHT if bag and piece is not None and piece.weighs else BAG if bag else CARRIER, level=1.0
        )
    return Vessel(kind=CARRIER if piece.holds.kind == "volume" else BAG, level=_level(piece, part))


def _level(piece: Kit, part: LoadPart) -> float:
    assert piece.holds is not None
    if part.quantity.kind == piece.holds.kind == "volume":
        share = part.quantity.base / piece.holds.base
    else:
        share = part_mass(part).mid / heaviest(piece)
    return max(_LOWEST, min(1.0, share))
