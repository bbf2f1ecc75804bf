"""The page of each exercise: how it is done, its ladder of forms, whom it suits, where it is shown."""

from collections.abc import Iterator, Sequence
from functools import partial

from sitegen.model import Exercise
from sitegen.pages.exercises.by_need import need_rows
from sitegen.pages.exercises.exercise_library import Library
from sitegen.pages.exercises.forms import FormViews
from sitegen.pages.exercises.showings import showings
from sitegen.pages.facts import FactByExercise, FactOfExercise
from sitegen.pages.page import Page
from sitegen.pages.site import Site
from sitegen.pages.views import Views


def exercise_address(exercise_id: str) -> str:
    """Where an exercise's page is."""
    return f"exercises/{exercise_id}/index.html"


def exercise_pages(
    site: Site, views: Views, library: Library, lines: FactByExercise, decisions: FactByExercise
) -> Iterator[Page]:
    """One page per exercise."""
    patterns = library.patterns
    for exercise in site.series.exercises.values():
        shown = lines.of[exercise.id]
        alike = patterns[exercise.pattern]
        make = partial(_make, site, views, library, exercise, shown, alike, decisions.of[exercise.id])
        yield Page(exercise_address(exercise.id), make)


def _make(
    site: Site,
    views: Views,
    library: Library,
    exercise: Exercise,
    shown: FactOfExercise,
    alike: Sequence[str],
    decided: FactOfExercise,
) -> bytes:
    """The page; with its showings, the exercises of the same pattern, and what the sessions
    decide for each need."""
    forms = FormViews(site, views, library)
    return site.render(
        "exercise.html",
        exercise_address(exercise.id),
        exercise=exercise,
        form=views.form(exercise.id, None),
        asks=views.asks.of(site.form(exercise.id, None)),
        pattern=forms.pattern(exercise),
        trains=forms.muscles(exercise),
        levels=forms.ladder(exercise),
        instead=forms.instead(exercise),
        by_kit=forms.by_kit(exercise),
        by_need=list(need_rows(site, exercise.id, decided)),
        showings=showings(site, exercise.id, shown.values),
        related=forms.related(exercise, alike),
    )
