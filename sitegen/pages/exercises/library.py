"""What lists of exercises are made from: facts of every form, and keys that change only with them.

A cue is no such fact: rewording one rewrites the exercise's own page, and no list.
"""

import re
import unicodedata
from collections.abc import Iterable, Mapping
from functools import cached_property

from sitegen.model import Exercise
from sitegen.pages.page import fingerprint
from sitegen.pages.site import Site
from sitegen.study.forms import Form, FormKey


class Library:
    """The exercises of one site as lists see them."""

    def __init__(self, site: Site) -> None:
        self.site = site
        self._reach_keys: dict[str, str] = {}

    @cached_property
    def forms(self) -> Mapping[str, tuple[Form, ...]]:
        """Every form by exercise, the main form first."""
        return {
            exercise.id: tuple(
                self.site.forms[FormKey(exercise.id, v)] for v in (None, *(v.id for v in exercise.variants))
            )
            for exercise in self.site.series.exercises.values()
        }

    @cached_property
    def by_name(self) -> tuple[Exercise, ...]:
        """The exercises from A to Z."""
        return tuple(sorted(self.site.series.exercises.values(), key=lambda e: (sorting_name(e.name), e.id)))

    @cached_property
    def patterns(self) -> Mapping[str, tuple[Form, ...]]:
        """Main forms by pattern, in order of name."""
        groups: dict[str, list[Form]] = {}
        for forms in self.forms.values():
            groups.setdefault(forms[0].pattern, []).append(forms[0])
        return {pattern: tuple(forms) for pattern, forms in groups.items()}

    def nearest(self, exercise_id: str, need: str) -> Form | None:
        """The form in which somebody with that need can do an exercise, whatever kit it takes."""
        return self.site.suitability.nearest_form(exercise_id, [need])

    def list_key(self, exercise_id: str) -> str:
        """Fingerprint of what a list says of an exercise: names, summary and the facts of its forms."""
        return self.site.outline_key(exercise_id)

    def reach_key(self, exercise_id: str) -> str:
        """Fingerprint of the list facts of an exercise and of those its variants lead on to."""
        known = self._reach_keys.get(exercise_id)
        if known is None:
            within = self._within_reach(exercise_id)
            known = self._reach_keys[exercise_id] = fingerprint(*within, *map(self.list_key, within))
        return known

    def _within_reach(self, exercise_id: str) -> list[str]:
        found = [exercise_id]
        for known in found:  # grows while it is walked
            found += [e for e in self.site.exercise(known).links if e not in found]
        return found

    def lists_key(self, exercises: Iterable[str]) -> str:
        """Fingerprint of what a list of these exercises says."""
        return fingerprint("\n".join(f"{exercise} {self.list_key(exercise)}" for exercise in exercises))


def sorting_name(name: str) -> str:
    """A name as it is sorted: from its first letter or digit, without accents, so that Ü stands with U."""
    plain = "".join(c for c in unicodedata.normalize("NFKD", name.casefold()) if not unicodedata.combining(c))
    return re.sub(r"^[\W_]+", "", plain) or "?"
