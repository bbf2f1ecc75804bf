"""Lists of exercises that work without scripts: from A to Z, and by movement, muscle, kit and need."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from markupsafe import Markup

from sitegen.pages.exercises.by_need import decided_for
from sitegen.pages.exercises.drawing_files import drawing_address
from sitegen.pages.exercises.facets import KINDS, Facets, FacetValue
from sitegen.pages.exercises.links import FormLink, form_link
from sitegen.pages.facts import FactByExercise
from sitegen.pages.page import Page
from sitegen.pages.site import Site
from sitegen.pages.views import markup
from sitegen.study.forms import Form


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedExercise:
    """An exercise in a list, with the variants that the list is about."""

    id: str
    name: str
    also: tuple[str, ...]
    summary: Markup
    forms: tuple[FormLink, ...]
    drawing: str
    """The picture of its main form, below the site's root; empty where it has none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ListGroup:
    """A part of a list: why these exercises stand together, and which."""

    title: str
    entries: tuple[ListedExercise, ...]


def entry(site: Site, exercise_id: str, forms: Iterable[Form]) -> ListedExercise:
    """An exercise with some of its forms; the main form needs no mention."""
    exercise = site.exercise(exercise_id)
    return ListedExercise(
        id=exercise_id,
        name=exercise.name,
        also=exercise.also,
        summary=markup(exercise.summary),
        forms=tuple(form_link(site, form) for form in forms if form.key.variant),
        drawing=drawing_address(site.form(exercise_id, None)),
    )


def facet_address(value: FacetValue) -> str:
    """Where the list of one value is."""
    return f"exercises/by/{value.kind}/{value.id}/index.html"


def list_pages(site: Site, facets: Facets, decisions: FactByExercise) -> Iterator[Page]:
    """One page for every pattern, muscle, piece of kit and need."""
    for kind in KINDS:
        for value in facets.values[kind]:
            decided = decisions if kind == "need" else None
            yield Page(facet_address(value), partial(_make, site, facets, value, decided))


def _make(site: Site, facets: Facets, value: FacetValue, decisions: FactByExercise | None) -> bytes:
    groups = _need_groups(site, decisions, value) if decisions else _groups(site, facets, value)
    return site.render(
        "exercises_by.html",
        facet_address(value),
        value=value,
        need=site.details.needs[value.id] if value.kind == "need" else None,
        groups=[group for group in groups if group.entries],
    )


def _groups(site: Site, facets: Facets, value: FacetValue) -> Iterator[ListGroup]:
    """Exercises that have the value in their main form, then those that have it in a version only."""
    titles = site.theme.strings.exercise_lists
    members = facets.members(value.kind, value.word)
    main = {e: forms[0] for e, forms in members.items() if forms[0].key.variant is None}
    versions = {e: forms for e, forms in members.items() if e not in main}
    if value.kind == "muscle":
        prime = [e for e, form in main.items() if value.word in form.muscles.prime]
        yield _group(site, titles.prime, dict.fromkeys(prime, ()))
        yield _group(site, titles.assist, {e: () for e in main if e not in prime})
    else:
        yield _group(site, titles[f"{value.kind}_main"], dict.fromkeys(main, ()))
    yield _group(site, titles.versions, versions)


def _need_groups(site: Site, decisions: FactByExercise, value: FacetValue) -> Iterator[ListGroup]:
    """Exercises as they are in every session, those done in another way in some, those without a form."""
    titles = site.theme.strings.exercise_lists
    place = list(site.details.needs).index(value.id)
    decided = {e: decided_for(site, e, shown, place) for e, shown in decisions.of.items()}
    as_is = [e for e, ones in decided.items() if all(one.as_filmed for one in ones)]
    none = [e for e, ones in decided.items() if not any(one.form for one in ones)]
    forms = {
        e: tuple(site.forms[key] for key in dict.fromkeys(one.form for one in ones if one.form))
        for e, ones in decided.items()
        if e not in as_is and e not in none
    }
    yield _group(site, titles.need_main, dict.fromkeys(as_is, ()))
    yield _group(site, titles.need_versions, forms)
    yield _group(site, titles.need_none, dict.fromkeys(none, ()))


def _group(site: Site, title: str, members: Mapping[str, Sequence[Form]]) -> ListGroup:
    return ListGroup(title=title, entries=tuple(entry(site, e, forms) for e, forms in members.items()))
