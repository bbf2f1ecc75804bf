"""What is held, in a reader's words: loads with their weight, and which hand has the heavier one when."""

from collections.abc import Collection
from typing import Any

from sitegen.model import Block, Item
from sitegen.notation import Load, LoadPart
from sitegen.pages.rotation_words import amount_words
from sitegen.pages.site import Site
from sitegen.pages.theme import plural
from sitegen.study.doses import dose_in
from sitegen.study.load import heavier_first, part_mass, shown_mass
from sitegen.study.rotation import RotatedSet, Rotation, rotations
from sitegen.study.span import Span
from sitegen.study.vessels import in_two_pieces

_MASS_UNITS = {"metric": ("kg", "g"), "us": ("lb",), "imperial": ("lb",)}
"""By system of units, those in which a load needs no second reading."""


def load_words(site: Site, load: Load) -> str:
    """The load as written, with its weight where that says more: ``5 litres of water (5 kg)``.

    Two unequal loads change hands from set to set, so their words name no order of hands: ``5 litres of water
    (5 kg) in one hand, 3 litres of water (3 kg) in the other``. In different pieces they are told with these:
    ``10 litres of sand (Bucket, 12.8–16 kg) in one hand, 4 litres of water (Jug, 4 kg) in the other``.
    """
    words = site.theme.strings.notation
    if load.sets:
        return str(words.then.join(load_words(site, one) for one in load.sets))
    familiar = _MASS_UNITS[site.details.units]
    if all(part.quantity.unit in familiar for part in load.parts):
        return site.phrases.load(load)
    if in_two_pieces(load):
        return site.phrases.in_two_hands([_placed_words(site, part, familiar) for part in load.parts])
    if len(set(load.parts)) == 2:
        return site.phrases.in_two_hands(
            [
                str(words.weighs.format(load=site.phrases.part(part), weight=_weight(site, part)))
                for part in load.parts
            ]
        )
    weight = _weight(site, load.parts[0])
    if len(load.parts) == 2:
        weight = words.each_weight.format(weight=weight)
    return str(words.weighs.format(load=site.phrases.load(load), weight=weight))


def large_amounts(site: Site, load: Load) -> list[list[str]]:
    """What each hand holds, the heavier first, for large type: number, unit, and in few words what else there
    is to say of it: ``["5", "litres", "water, 5 kg"]``, ``["6", "kg", ""]``.

    Which hand gets which is told by the plan of the set (:func:`heavy_sets`) and nowhere else.
    """
    pair = len(load.parts) == 2 and len(set(load.parts)) == 1
    return [_large_amount(site, part, named=in_two_pieces(load), each=pair) for part in heavier_first(load)]


def _large_amount(site: Site, part: LoadPart, *, named: bool, each: bool) -> list[str]:
    words = site.theme.strings
    number = f"{part.quantity.amount:.10g}"
    # The letter l alone is a bare bar in the face of numbers.
    unit = plural(words.vessels.units.get(part.quantity.unit, part.quantity.unit), part.quantity.amount)
    more = [site.phrases.piece(part)] if named else []
    if part.fill:
        more.append(str(words.notation.fills[part.fill]))
    if part.quantity.unit not in _MASS_UNITS[site.details.units]:
        mass = shown_mass(part_mass(part), site.details.units)
        low, high = (f"{end:.3g}" for end in (round(mass.low, 1), round(mass.high, 1)))
        weight = f"{low} {mass.unit}" if low == high else f"{low}–{high} {mass.unit}"
        more.append(words.notation.each_weight.format(weight=weight) if each else weight)
    return [number, unit, words.vessels.more.join(filter(None, more))]


def _placed_words(site: Site, part: LoadPart, familiar: Collection[str]) -> str:
    words = site.theme.strings.notation
    named = {"load": site.phrases.part(part), "piece": site.phrases.piece(part)}
    if part.quantity.unit in familiar:
        return str(words.placed.format(**named))
    return str(words.placed_weighs.format(**named, weight=_weight(site, part)))


def _weight(site: Site, part: LoadPart) -> str:
    return weight_words(site, part_mass(part))


def weight_words(site: Site, kilograms: Span) -> str:
    """A mass in the series' own unit: ``12.8–16 kg``."""
    mass = shown_mass(kilograms, site.details.units)
    return f"{site.phrases.number(mass.low, mass.high)} {mass.unit}"


def heavy_sets(site: Site, block: Block, item: Item, sets: Span, first: str) -> list[list[Any]]:
    """Each set of an uneven load: the hand that begins, seconds until it swaps, and when in words."""
    # The plan for the most sets begins as those for fewer do, but for the last one's swap.
    plans = rotations(block, item, sets, first)[-1:]
    sides = dose_in(block, item).sides
    return [_heavy_set(site, plan, one, sides) for plan in plans for one in plan.sets]


def _heavy_set(site: Site, plan: Rotation, one: RotatedSet, sides: int) -> list[Any]:
    words = site.theme.strings.rotation
    if one.every:
        every = amount_words(site.phrases, plan.measure, Span(one.every, one.every))
        return [one.begins, 0, words.swap_every.format(amount=every)]
    amount = one.stretches[0].amount
    # Where sides are done one after the other the load changes hands with the side.
    if sides == 2 or len(one.stretches) == 1 or amount is None:
        return [one.begins, 0, ""]
    seconds = int(amount.high) if plan.measure == "seconds" else 0
    return [
        one.begins,
        seconds,
        words.swap_after.format(amount=amount_words(site.phrases, plan.measure, amount)),
    ]
