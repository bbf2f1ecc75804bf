"""What to fetch before pressing play: kit, what a home has instead, loads, and plans for uneven ones."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass

from sitegen.model import Episode, Kit
from sitegen.notation import Load, LoadPart
from sitegen.pages.episode.recent import remember_last
from sitegen.pages.rotation import RotationWords
from sitegen.pages.site import Site
from sitegen.pages.views import Views
from sitegen.study.load import part_mass, shown_mass
from sitegen.study.rotation import first_hands
from sitegen.study.timing import item_sets
from sitegen.study.vessels import in_two_pieces

_MASS_UNITS = {"metric": ("kg", "g"), "us": ("lb",), "imperial": ("lb",)}
"""By system of units, those in which a load needs no second reading."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FetchView:
    """A piece of kit with all that is to be done before the session."""

    name: str
    stand_ins: tuple[str, ...]
    loads: tuple[str, ...]
    """Each load that the session asks of it, with its weight; none where nobody wrote one."""


@remember_last
def fetch_list(site: Site, views: Views, episode: Episode) -> tuple[FetchView, ...]:
    """The kit of the forms as filmed, in the order in which it is first needed."""
    loads = [item.load for block in episode.blocks for item in block.items if item.load is not None]
    return tuple(
        FetchView(
            name=piece.name,
            stand_ins=piece.stand_ins,
            loads=tuple(dict.fromkeys(load_words(site, load) for load in _loads_in(piece, loads))),
        )
        for piece in views.kit(episode)
    )


def _loads_in(piece: Kit, loads: Iterable[Load]) -> Iterator[Load]:
    """What of each load is in the piece: of two unequal hands perhaps only one."""
    for load in loads:
        mine = tuple(part for part in load.parts if part.piece == piece.id)
        if mine:
            yield Load(mine)


@remember_last
def hands_of(site: Site, episode: Episode) -> Mapping[tuple[int, int], str]:
    """By place of block and item, the hand with which each uneven load of a session begins."""
    return first_hands(site.details, site.forms, episode)


@remember_last
def rotation_plans(site: Site, episode: Episode) -> Mapping[tuple[int, int], str]:
    """By place of block and item, which hand gets the heavier load in which set: for items whose loads do
    not weigh the same."""
    words, hands = RotationWords(site.theme.strings, site.phrases), hands_of(site, episode)
    plans: dict[tuple[int, int], str] = {}
    for index, block in enumerate(episode.blocks):
        places = [place for place in range(len(block.items)) if (index, place) in hands]
        sets = item_sets(site.details, site.forms, block) if places else ()
        for place in places:
            hand = hands[index, place]
            plans[index, place] = words.plan(block, block.items[place], sets[place], hand)
    return plans


def named_plans(site: Site, episode: Episode) -> tuple[tuple[str, str], ...]:
    """Exercise and plan of each of them, once."""
    plans = rotation_plans(site, episode)
    items = {place: episode.blocks[place[0]].items[place[1]] for place in plans}
    named = ((site.form(items[p].exercise, items[p].variant).name, plan) for p, plan in plans.items())
    return tuple(dict.fromkeys(named))


def load_words(site: Site, load: Load) -> str:
    """The load as written, with its weight where that says more: ``5 l of water (5.0 kg)``.

    Two loads in different pieces are told with their pieces: ``10 l of sand (Bucket, 12.8–16.0 kg) and
    4 l of water (Jug, 4.0 kg)``.
    """
    words = site.theme.strings.notation
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
