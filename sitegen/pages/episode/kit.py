"""What to fetch before pressing play: kit, what a home has instead, loads, and plans for uneven ones."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from sitegen.model import Block, Episode, Item, Kit
from sitegen.notation import Load
from sitegen.pages.episode.recent import remember_last
from sitegen.pages.rotation import rotation_words
from sitegen.pages.site import Site
from sitegen.pages.views import Views
from sitegen.study.load import part_mass, shown_mass
from sitegen.study.timing import item_sets

_MASS_UNITS = {"metric": ("kg", "g"), "us": ("lb",), "imperial": ("lb",)}
"""By system of units, those in which a load needs no second reading."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FetchView:
    """A piece of kit with all that is to be done before the session."""

    name: str
    stand_ins: tuple[str, ...]
    loads: tuple[str, ...]
    """Each load it is used with, with its weight; where none is given, what it weighs when full."""


@remember_last
def fetch_list(site: Site, views: Views, episode: Episode) -> tuple[FetchView, ...]:
    """The kit of the forms as filmed, in the order in which it is first needed."""
    loaded = [(block, item) for block in episode.blocks for item in block.items if item.load is not None]
    return tuple(_fetch(site, piece, loaded) for piece in views.kit(episode))


def _fetch(site: Site, piece: Kit, loaded: Iterable[tuple[Block, Item]]) -> FetchView:
    mine = [(block, item) for block, item in loaded if _held(site, item) == piece.id]
    loads = [item.load for _, item in mine if item.load is not None] or ([piece.holds] if piece.holds else [])
    return FetchView(
        name=piece.name,
        stand_ins=piece.stand_ins,
        loads=tuple(dict.fromkeys(load_words(site, load) for load in loads)),
    )


def rotation_plans(site: Site, episode: Episode) -> tuple[tuple[str, str], ...]:
    """Exercise and plan for every item whose loads do not weigh the same."""
    found = (
        (site.form(item.exercise, item.variant).name, rotation_of(site, block, item))
        for block in episode.blocks
        for item in block.items
    )
    return tuple(dict.fromkeys(pair for pair in found if pair[1]))


def _held(site: Site, item: Item) -> str:
    """Id of the kit that the item's load is; empty where it is not clear.

    A volume is in a container; a load given by weight is the only piece of kit there is.
    """
    kit = site.form(item.exercise, item.variant).kit
    if item.load is not None and item.load.parts[0].fill:
        return next((piece for piece in kit if site.details.kit[piece].holds), "")
    return kit[0] if len(kit) == 1 else ""


def load_words(site: Site, load: Load) -> str:
    """The load as written, with its weight where that says more: ``5 l of water (5.0 kg)``."""
    text = site.phrases.load(load)
    familiar = _MASS_UNITS[site.details.units]
    if all(part.quantity.unit in familiar for part in load.parts):
        return text
    weights = list(dict.fromkeys(_weight(site, load)))
    words = site.theme.strings.notation
    each = words.each_weight if len(load.parts) == 2 and len(weights) == 1 else "{weight}"
    return str(words.weighs.format(load=text, weight=each.format(weight=words.uneven.join(weights))))


def _weight(site: Site, load: Load) -> Iterator[str]:
    for part in load.parts:
        mass = shown_mass(part_mass(part), site.details.units)
        # One decimal even for whole numbers: 5.0 kg says how exact it is.
        low, high = (f"{end:.1f}" if end >= 1 else f"{end:g}" for end in (mass.low, mass.high))
        yield f"{low} {mass.unit}" if low == high else f"{low}–{high} {mass.unit}"


def rotation_of(site: Site, block: Block, item: Item) -> str:
    """Which hand gets the heavier load in which set; empty where the loads weigh the same."""
    if item.load is None or not item.load.uneven:
        return ""
    sets = item_sets(site.details, site.forms, block)[block.items.index(item)]
    return rotation_words(item, item.dose, sets, site.theme.strings, site.phrases)
