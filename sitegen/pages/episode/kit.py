"""What to fetch before pressing play: kit, what a home has instead, loads, and plans for uneven ones."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from sitegen.model import Episode, Kit
from sitegen.notation import Load
from sitegen.pages.load_words import load_words
from sitegen.pages.rotation_words import RotationWords
from sitegen.pages.site import Site
from sitegen.pages.vessels import Vessel, vessels_of
from sitegen.pages.views import Views
from sitegen.study.fetching import in_number
from sitegen.study.rotation import first_hands
from sitegen.study.timing import item_sets


@dataclass(frozen=True, slots=True, kw_only=True)
class FetchView:
    """A piece of kit with all that is to be done before the session."""

    id: str
    name: str
    """With how many of it: ``2 × Food tin``."""
    stand_ins: tuple[str, ...]
    loads: tuple[str, ...]
    """Each load that the session asks of it, with its weight; none where nobody wrote one."""
    vessels: tuple[tuple[Vessel, ...], ...]
    """The same loads as drawings."""


def fetch_list(site: Site, views: Views, episode: Episode) -> tuple[FetchView, ...]:
    """The kit of the forms as filmed, in the order in which it is first needed."""
    loads = [item.load for block in episode.blocks for item in block.items if item.load is not None]
    return tuple(_fetched(site, piece, number, loads) for piece, number in views.fetched(episode))


def _fetched(site: Site, piece: Kit, number: int, loads: Iterable[Load]) -> FetchView:
    told = {load_words(site, load): load for load in loads_in(piece, loads)}
    return FetchView(
        id=piece.id,
        name=in_number(number, piece.name),
        stand_ins=piece.stand_ins,
        loads=tuple(told),
        vessels=tuple(vessels_of(site, load) for load in told.values()),
    )


def more_kit(site: Site, episode: Episode) -> tuple[str, ...]:
    """What the episode lists as at hand and no form as filmed uses, by id."""
    forms = (site.form(item.exercise, item.variant) for block in episode.blocks for item in block.items)
    used = {piece for form in forms for piece in form.kit}
    return tuple(piece for piece in episode.kit if piece not in used)


def loads_in(piece: Kit, loads: Iterable[Load]) -> Iterator[Load]:
    """What of each load is in the piece: of two unequal hands perhaps only one."""
    for load in loads:
        mine = load.only(lambda part: part.piece == piece.id)
        if mine is not None:
            yield from mine.sets or (mine,)


def rotation_plans(site: Site, episode: Episode) -> Mapping[tuple[int, int], str]:
    """By place of block and item, which hand gets the heavier load in which set: for items whose loads do
    not weigh the same."""
    words, hands = (
        RotationWords(site.theme.strings, site.phrases),
        first_hands(site.details, site.forms, episode),
    )
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
