"""The exercises of the series: their pages, the index with its search, and lists by what they are."""

from collections.abc import Iterator
from functools import partial

from sitegen.pages.exercises.by_need import DECIDED, DECISIONS, episode_decisions
from sitegen.pages.exercises.drawing_files import drawing_pages
from sitegen.pages.exercises.exercise_library import Library
from sitegen.pages.exercises.exercise_page import exercise_pages as one_by_one
from sitegen.pages.exercises.facets import Facets
from sitegen.pages.exercises.index import index_pages
from sitegen.pages.exercises.lists import list_pages
from sitegen.pages.exercises.search_data import search_pages
from sitegen.pages.exercises.showing_facts import PLACES, SHOWINGS, SHOWN, episode_showings, places_of
from sitegen.pages.facts import FactByExercise
from sitegen.pages.page import Batch, Page
from sitegen.pages.site import Site
from sitegen.pages.views import Views

__all__ = [
    "DECIDED",
    "DECISIONS",
    "PLACES",
    "SHOWINGS",
    "SHOWN",
    "episode_decisions",
    "episode_showings",
    "exercise_pages",
    "places_of",
]


def exercise_pages(site: Site, views: Views) -> Batch:
    """Everything below ``exercises/``."""
    decisions, lines = FactByExercise(site, DECISIONS, DECIDED), FactByExercise(site, SHOWINGS, SHOWN)
    return Batch("exercises", partial(_pages, site, views, decisions, lines))


def _pages(site: Site, views: Views, decisions: FactByExercise, lines: FactByExercise) -> Iterator[Page]:
    library = Library(site)
    facets = Facets(site, library)
    yield from index_pages(site, facets)
    yield from search_pages(site, facets)
    yield from list_pages(site, facets, decisions)
    yield from one_by_one(site, views, library, lines, decisions)
    yield from drawing_pages(site, views)
