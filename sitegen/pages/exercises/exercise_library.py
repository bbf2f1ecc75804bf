"""What lists of exercises are made from: every form, in the orders that lists need."""

import re
import unicodedata
from collections.abc import Mapping

from sitegen.model import Exercise
from sitegen.pages.page import Gateway
from sitegen.pages.site import Site
from sitegen.study.forms import Form
from sitegen.system.noted_reads import shared_property


class Library(Gateway):
    """The exercises of one site as lists see them."""

    def __init__(self, site: Site) -> None:
        self.site = site

    @shared_property
    def forms(self) -> Mapping[str, tuple[Form, ...]]:
        """Every form by exercise, the main form first."""
        forms = self.site.forms
        return {exercise: tuple(forms.of(exercise).values()) for exercise in self.site.series.exercises}

    @shared_property
    def by_name(self) -> tuple[Exercise, ...]:
        """The exercises from A to Z."""
        return tuple(sorted(self.site.series.exercises.values(), key=lambda e: (sorting_name(e.name), e.id)))

    @shared_property
    def patterns(self) -> Mapping[str, tuple[str, ...]]:
        """Exercises by the pattern of their main form, in order of name."""
        groups: dict[str, list[str]] = {}
        for exercise, forms in self.forms.items():
            groups.setdefault(forms[0].pattern, []).append(exercise)
        return {pattern: tuple(exercises) for pattern, exercises in groups.items()}


def sorting_name(name: str) -> str:
    """A name as it is sorted: from its first letter or digit, without accents, so that Ü stands with U."""
    plain = "".join(c for c in unicodedata.normalize("NFKD", name.casefold()) if not unicodedata.combining(c))
    return re.sub(r"^[\W_]+", "", plain) or "?"
