"""The page of each exercise: how it is done, its ladder of forms, whom it suits, where it is shown."""

from collections.abc import Iterator, Sequence
from functools import partial

from sitegen.model import Exercise
from sitegen.pages.exercises.forms import FormViews
from sitegen.pages.exercises.library import Library
from sitegen.pages.exercises.showing_facts import lines_by_exercise
from sitegen.pages.exercises.showings import showings
from sitegen.pages.page import Page, fingerprint
from sitegen.pages.site import Site
from sitegen.pages.views import Views


def exercise_address(exercise_id: str) -> str:
    """Where an exercise's page is."""
    return f"exercises/{exercise_id}/index.html"


def exercise_pages(site: Site, views: Views, library: Library) -> Iterator[Page]:
    """One page per exercise."""
    beside = {
        pattern: library.lists_key(f.exercise for f in forms) for pattern, forms in library.patterns.items()
    }
    lines = lines_by_exercise(site)
    for exercise in site.series.exercises.values():
        shown = lines[exercise.id]
        facts = (site.exercise_key(exercise.id), beside[exercise.pattern], "\n".join(shown))
        key = fingerprint(site.key, "exercise", *facts)
        yield Page(exercise_address(exercise.id), key, partial(_make, site, views, library, exercise, shown))


def _make(site: Site, views: Views, library: Library, exercise: Exercise, shown: Sequence[str]) -> bytes:
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
        by_kit=forms.by_kit(exercise),
        by_need=forms.by_need(exercise),
        showings=showings(site, exercise.id, shown),
        related=forms.related(exercise),
    )
