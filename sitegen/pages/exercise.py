"""The exercise index and the exercise pages."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from sitegen.model import Appearance, Exercise
from sitegen.notation import format_clock
from sitegen.output.page import Page, fingerprint
from sitegen.pages.site import Site
from sitegen.pages.views import Views, by_letter

INDEX_ADDRESS = "exercises/index.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class AppearanceView:
    """One showing of an exercise, as a line of its page."""

    slug: str
    number: int
    title: str
    block: str
    dose: str
    sets: str
    at: int
    clock: str


def exercise_address(exercise_id: str) -> str:
    """Where an exercise's page is."""
    return f"exercises/{exercise_id}/index.html"


def exercise_pages(site: Site, views: Views) -> Iterator[Page]:
    """The index, then one page per exercise."""
    exercises = site.series.exercises.values()
    index_key = fingerprint(site.key, "exercises", *((e.id, e.name, e.also, e.pattern, e.summary) for e in exercises))
    yield Page(INDEX_ADDRESS, index_key, partial(_make_index, site))
    for exercise in exercises:
        shown = site.appearances[exercise.id]
        facts = [(a.episode.slug, a.episode.number, a.episode.title, _facts(a)) for a in shown]
        key = fingerprint(site.key, "exercise", site.exercise_key(exercise.id), facts)
        yield Page(exercise_address(exercise.id), key, partial(_make, site, views, exercise))


def _facts(appearance: Appearance) -> tuple[object, ...]:
    """What an appearance's line is made from."""
    block, item = appearance.block, appearance.item
    return (block.name, str(block.sets), block.at, item.at, str(item.dose), str(item.load), str(block.work))


def _make_index(site: Site) -> bytes:
    exercises = site.series.exercises
    groups = by_letter({e.id: e.name for e in exercises.values()})
    letters = {letter: [exercises[key] for key in keys] for letter, keys in groups.items()}
    return site.render("exercises.html", INDEX_ADDRESS, letters=letters)


def _make(site: Site, views: Views, exercise: Exercise) -> bytes:
    return site.render(
        "exercise.html",
        exercise_address(exercise.id),
        exercise=exercise,
        form=views.form(exercise.id, None),
        variants=views.variants(exercise.id),
        appearances=[_appearance(site, a) for a in site.appearances[exercise.id]],
    )


def _appearance(site: Site, appearance: Appearance) -> AppearanceView:
    block, item = appearance.block, appearance.item
    at = item.at if item.at is not None else block.at
    dose = site.phrases.dose(item.dose) or (site.phrases.duration(block.work) if block.work else "")
    return AppearanceView(
        slug=appearance.episode.slug,
        number=appearance.episode.number,
        title=appearance.episode.title,
        block=block.name,
        dose=dose,
        sets=site.phrases.count(block.sets),
        at=at,
        clock=format_clock(at),
    )
