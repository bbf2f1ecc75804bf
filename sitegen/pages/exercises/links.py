"""A form of an exercise as a link."""

from dataclasses import dataclass

from sitegen.pages.site import Site
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


def form_link(site: Site, form: Form) -> FormLink:
    """A form as a link."""
    return FormLink(
        exercise=form.key.exercise,
        id=form.key.variant or "",
        name=form.name,
        change=form.change,
        change_word=site.phrases.words("changes", form.change) if form.change else "",
    )
