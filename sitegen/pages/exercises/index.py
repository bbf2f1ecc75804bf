"""The exercise index: search and filters for those with scripts, and the complete list from A to Z."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from sitegen.model import Kit
from sitegen.pages.anchors import Anchors
from sitegen.pages.exercises.exercise_library import sorting_name
from sitegen.pages.exercises.facets import KINDS, NO_KIT, Facets
from sitegen.pages.exercises.lists import ListedExercise, entry, facet_address
from sitegen.pages.exercises.session_weeks import weeks_by_session
from sitegen.pages.needs_data import NeedsData
from sitegen.pages.page import Page
from sitegen.pages.script_json import script_json
from sitegen.pages.site import Site
from sitegen.vocabulary import BLOCK_KINDS, CHANGES

INDEX_ADDRESS = "exercises/index.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class FilterBox:
    """A box to tick in a filter, and the boxes that stand in for it."""

    value: str
    label: str
    instead: tuple["FilterBox", ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ListLink:
    """A link to a list, with how many exercises it names; None where that is not counted."""

    address: str
    label: str
    count: int | None


def index_pages(site: Site, facets: Facets) -> Iterator[Page]:
    """The index."""
    by_session = weeks_by_session(site)
    weeks = sorted({by_session[e.number] for e in site.series.episodes if e.number in by_session})
    yield Page(INDEX_ADDRESS, partial(_make, site, facets, weeks))


def _make(site: Site, facets: Facets, weeks: list[int]) -> bytes:
    library = facets.library
    letters: dict[str, list[ListedExercise]] = {}
    for exercise in library.by_name:
        found = letters.setdefault(sorting_name(exercise.name)[0].upper(), [])
        found.append(entry(site, exercise.id, library.forms[exercise.id]))
    return site.render(
        "exercises.html",
        INDEX_ADDRESS,
        letters=letters,
        filters=_filters(site, facets),
        lists={kind: _links(facets, kind) for kind in KINDS},
        episodes=[(e.slug, e.number, e.title) for e in site.series.episodes],
        weeks=weeks,
        words=script_json(vars(site.theme.strings.finder_script)),
        needs_data=NeedsData(site).json,
    )


def _filters(site: Site, facets: Facets) -> dict[str, tuple[FilterBox, ...]]:
    """Lists of ticks by name; their words are in the strings."""
    ticks = {kind: tuple(FilterBox(value=v.id, label=v.label) for v in facets.values[kind]) for kind in KINDS}
    kinds = tuple(FilterBox(value=change, label=site.phrases.words("changes", change)) for change in CHANGES)
    parts = tuple(FilterBox(value=kind, label=site.phrases.words("kinds", kind)) for kind in BLOCK_KINDS)
    lists = {
        "need": ticks["need"],
        "home": _home(site),
        "pattern": ticks["pattern"],
        "muscle": ticks["muscle"],
        "kit": ticks["kit"],
        "part": parts,
        "kind": kinds,
    }
    return {name: found for name, found in lists.items() if found}


def _home(site: Site) -> tuple[FilterBox, ...]:
    """What somebody may have at home: kit with its stand-ins, or nothing."""
    pieces = tuple(
        FilterBox(value=piece.id, label=piece.name, instead=tuple(_stand_ins(piece)))
        for piece in site.details.kit.values()
    )
    nothing = FilterBox(value=NO_KIT, label=site.theme.strings.exercises.nothing_at_home)
    return (nothing, *pieces) if pieces else ()


def _stand_ins(piece: Kit) -> Iterator[FilterBox]:
    anchors = Anchors()
    for words in piece.stand_ins:
        yield FilterBox(value=f"{piece.id}:{anchors.take(words)}", label=words)


def _links(facets: Facets, kind: str) -> list[ListLink]:
    return [
        ListLink(
            address=facet_address(value),
            label=value.label,
            count=None if kind == "need" else len(facets.members(kind, value.word)),
        )
        for value in facets.values[kind]
    ]
