"""Lists of exercises that work without scripts: from A to Z, and by movement, muscle, kit and need."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from markupsafe import Markup

from sitegen.pages.exercises.facets import KINDS, Facets, Value
from sitegen.pages.exercises.library import Library
from sitegen.pages.page import Page
from sitegen.pages.site import Site
from sitegen.pages.views import markup
from sitegen.study.forms import Form


@dataclass(frozen=True, slots=True, kw_only=True)
class FormLink:
    """A variant in a list."""

    exercise: str
    id: str
    """Its anchor on the exercise's page; empty for the main form."""
    name: str
    change: str
    """``regression`` and so on, for marking up; ``change_word`` is for reading."""
    change_word: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """An exercise in a list, with the variants that the list is about."""

    id: str
    name: str
    also: tuple[str, ...]
    summary: Markup
    forms: tuple[FormLink, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """A part of a list: why these exercises stand together, and which."""

    title: str
    entries: tuple[Entry, ...]


def form_link(site: Site, form: Form) -> FormLink:
    """A form as a link."""
    return FormLink(
        exercise=form.key.exercise,
        id=form.key.variant or "",
        name=form.name,
        change=form.change,
        change_word=site.phrases.words("changes", form.change) if form.change else "",
    )


def entry(site: Site, exercise_id: str, forms: Iterable[Form]) -> Entry:
    """An exercise with some of its forms; the main form needs no mention."""
    exercise = site.exercise(exercise_id)
    return Entry(
        id=exercise_id,
        name=exercise.name,
        also=exercise.also,
        summary=markup(exercise.summary),
        forms=tuple(form_link(site, form) for form in forms if form.key.variant),
    )


def facet_address(value: Value) -> str:
    """Where the list of one value is."""
    return f"exercises/by/{value.kind}/{value.id}/index.html"


def list_pages(site: Site, facets: Facets) -> Iterator[Page]:
    """One page for every pattern, muscle, piece of kit and need."""
    for kind in KINDS:
        for value in facets.values[kind]:
            yield Page(facet_address(value), partial(_make, site, facets, value))


def _make(site: Site, facets: Facets, value: Value) -> bytes:
    groups = (
        _need_groups(site, facets.library, value) if value.kind == "need" else _groups(site, facets, value)
    )
    return site.render(
        "exercises_by.html",
        facet_address(value),
        value=value,
        need=site.details.needs[value.id] if value.kind == "need" else None,
        groups=[group for group in groups if group.entries],
    )


def _groups(site: Site, facets: Facets, value: Value) -> Iterator[Group]:
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


def _need_groups(site: Site, library: Library, value: Value) -> Iterator[Group]:
    """Exercises that may stay as they are, those with a version that fits, those without one."""
    titles = site.theme.strings.exercise_lists
    nearest = {e: library.nearest(e, value.id) for e in site.series.exercises}
    fitting = {e: form for e, form in nearest.items() if form is not None}
    as_is = [e for e, form in fitting.items() if form.key == (e, None)]
    yield _group(site, titles.need_main, dict.fromkeys(as_is, ()))
    yield _group(site, titles.need_versions, {e: (form,) for e, form in fitting.items() if e not in as_is})
    yield _group(site, titles.need_none, {e: () for e in nearest if e not in fitting})


def _group(site: Site, title: str, members: Mapping[str, Sequence[Form]]) -> Group:
    return Group(title=title, entries=tuple(entry(site, e, forms) for e, forms in members.items()))
