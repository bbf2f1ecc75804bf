"""What is held, in a reader's words: loads with their weight, and which hand has the heavier one when."""

from collections.abc import Collection
from typing import Any

from sitegen.model import Block, Item
from sitegen.notation import Load, LoadPart
from sitegen.pages.rotation import amount_words
from sitegen.pages.site import Site
from sitegen.study.doses import dose_in
from sitegen.study.load import part_mass, shown_mass
from sitegen.study.rotation import RotatedSet, Rotation, rotations
from sitegen.study.span import Span
from sitegen.study.vessels import in_two_pieces

_MASS_UNITS = {"metric": ("kg", "g"), "us": ("lb",), "imperial": ("lb",)}
"""By system of units, those in which a load needs no second reading."""


def load_words(site: Site, load: Load) -> str:
    """The load as written, with its weight where that says more: ``5 l of water (5.0 kg)``.

    Two loads in different pieces are told with their pieces: ``10 l of sand (Bucket, 12.8–16.0 kg) and
    4 l of water (Jug, 4.0 kg)``.
    """
    words = site.theme.strings.notation
    if load.sets:
        return str(words.then.join(load_words(site, one) for one in load.sets))
    familiar = _MASS_UNITS[site.details.units]
    if all(part.quantity.unit in familiar for part in load.parts):
        return site.phrases.load(load)
    if in_two_pieces(load):
        return str(words.uneven.join(_placed_words(site, part, familiar) for part in load.parts))
    weights = list(dict.fromkeys(_weight(site, part) for part in load.parts))
    each = words.each_weight if len(load.parts) == 2 and len(weights) == 1 else "{weight}"
    weight = each.format(weight=words.uneven.join(weights))
    return str(words.weighs.format(load=site.phrases.load(load), weight=weight))


def _placed_words(site: Site, part: LoadPart, familiar: Collection[str]) -> str:
    words, named = (
        site.theme.strings.notation,
        {"load": site.phrases.part(part), "piece": site.phrases.piece(part)},
    )
    if part.quantity.unit in familiar:
        return str(words.placed.format(**named))
    return str(words.placed_weighs.format(**named, weight=_weight(site, part)))


def _weight(site: Site, part: LoadPart) -> str:
    mass = shown_mass(part_mass(part), site.details.units)
    # One decimal even for whole numbers: 5.0 kg says how exact it is.
    low, high = (f"{end:.1f}" if end >= 1 else f"{end:g}" for end in (mass.low, mass.high))
    return f"{low} {mass.unit}" if low == high else f"{low}–{high} {mass.unit}"


def heavy_sets(site: Site, block: Block, item: Item, sets: Span, first: str) -> list[list[Any]]:
    """For each set of an uneven load: the hand that begins, seconds until it swaps, and when in words."""
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
