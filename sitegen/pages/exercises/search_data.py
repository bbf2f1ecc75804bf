"""The data by which the theme's scripts search and filter exercises.

It is a script of its own beside the exercise index, because pages opened as files may not fetch:
``window.exerciseData = {…};``. Lists of numbers point into the tables:

``patterns``, ``muscles``
    ``[id in addresses, name, words to search by]``
``kit``
    ``[id, name, [stand-in, …]]``
``needs``
    ``[id, [demand, …]]``
``parts``
    kinds of parts of a session
``answers``
    what people type instead of names, and which filter it means: see ``answers``
``episodes``
    ``[slug, number, title, week or 0]``
``exercises``
    ``[id, name, [other name, …], [form, …], [episode, seconds, episode, seconds, …]]``, each form
    ``[id, name, change, pattern, [prime], [assisting], [kit], [demand], is another exercise,
    [part in which it is shown], has a drawing]``,
    the main form with empty id and name, changes by their place in ``CHANGES`` from 1
"""

from collections.abc import Iterable, Iterator, Mapping
from functools import partial
from typing import Any

from sitegen.pages.exercises.answers import answers
from sitegen.pages.exercises.facets import Facets, FacetValue
from sitegen.pages.exercises.session_weeks import weeks_by_session
from sitegen.pages.exercises.showing_facts import PLACES, ShowingPlace
from sitegen.pages.page import Page
from sitegen.pages.script_json import to_json
from sitegen.pages.site import Site
from sitegen.study.forms import Form
from sitegen.study.suitability import CombinedNeeds
from sitegen.vocabulary import BLOCK_KINDS, CHANGES, UNSHOWN, UNTOLD

DATA_ADDRESS = "exercises/find.js"


def search_pages(site: Site, facets: Facets) -> Iterator[Page]:
    """The data file."""
    yield Page(DATA_ADDRESS, partial(_make, site, facets))


def _make(site: Site, facets: Facets) -> bytes:
    return f"window.exerciseData = {to_json(search_data(site, facets))};\n".encode()


def search_data(site: Site, facets: Facets) -> dict[str, Any]:
    """The data as described above."""
    weeks = weeks_by_session(site)
    shown: list[tuple[int, ShowingPlace]] = [
        (number, place)
        for number, episode in enumerate(site.series.episodes)
        for place in site.facts.of(episode, PLACES)
    ]
    found: dict[str, list[int | None]] = {exercise: [] for exercise in site.series.exercises}
    kinds: dict[tuple[str, str], set[str]] = {}
    for number, place in shown:
        found[place.exercise] += (number, place.at)
        kinds.setdefault(place.form, set()).add(place.kind)
    rows = _Rows(site, facets, kinds)
    return {
        "patterns": [rows.words(value) for value in facets.values["pattern"]],
        "muscles": [rows.words(value) for value in facets.values["muscle"]],
        "kit": [[piece.id, piece.name, piece.stand_ins] for piece in site.details.kit.values()],
        "needs": [[need, rows.avoided(need)] for need in site.details.needs],
        "parts": BLOCK_KINDS,
        "answers": list(answers(site, facets)),
        "episodes": [[e.slug, e.number, e.title, weeks.get(e.number, 0)] for e in site.series.episodes],
        "exercises": [
            [
                e.id,
                e.name,
                e.also,
                [rows.form(f) for f in facets.library.forms[e.id]],
                found[e.id],
            ]
            for e in facets.library.by_name
        ],
    }


class _Rows:
    """Forms as rows of numbers."""

    def __init__(self, site: Site, facets: Facets, kinds: Mapping[tuple[str, str], set[str]]) -> None:
        self._details = site.details
        self._kinds = kinds
        self._extra = site.theme.strings.exercise.search_words
        self._places = {
            kind: {value.word: place for place, value in enumerate(facets.values[kind])}
            for kind in ("pattern", "muscle")
        }
        self._kit = {piece: place for place, piece in enumerate(site.details.kit)}
        self._demands = {
            demand: place for place, demand in enumerate((*site.details.demand_sentences, UNTOLD, UNSHOWN))
        }

    def words(self, value: FacetValue) -> list[str]:
        """A pattern or muscle, with the words it is found by: as written, as read, and what people say."""
        found_by = dict.fromkeys((value.word, value.label, self._extra.get(value.word, value.word)))
        return [value.id, value.label, " ".join(found_by)]

    def demands(self, demands: Iterable[str]) -> list[int]:
        """Numbers that stand for these demands: their places among all that the series may use."""
        return [self._demands[demand] for demand in demands]

    def avoided(self, need: str) -> list[int]:
        """All that a need avoids, also what follows from its limits, as numbers."""
        avoided = CombinedNeeds(self._details, [need]).avoided
        return sorted(self.demands(avoided))

    def form(self, form: Form) -> list[object]:
        """One form."""
        muscles = self._places["muscle"]
        kinds = self._kinds.get((form.key.exercise, form.key.variant or ""), ())
        return [
            form.key.variant or "",
            form.name if form.key.variant else "",
            CHANGES.index(form.change) + 1 if form.change else 0,
            self._places["pattern"].get(form.pattern, -1),
            [muscles[muscle] for muscle in form.muscles.prime if muscle in muscles],
            [muscles[muscle] for muscle in form.muscles.assist if muscle in muscles],
            [self._kit[piece] for piece in form.kit],
            self.demands(form.demands),
            int(form.link),
            [place for place, kind in enumerate(BLOCK_KINDS) if kind in kinds],
            int(form.poses is not None),
        ]
