"""By what exercises can be looked through: movement, muscle, kit and need, and who has what."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from sitegen.pages.anchors import Anchors
from sitegen.pages.exercises.exercise_library import Library
from sitegen.pages.page import Gateway
from sitegen.pages.site import Site
from sitegen.study.forms import Form
from sitegen.system.noted_reads import shared_property
from sitegen.vocabulary import MUSCLE_REGIONS, PATTERNS

NO_KIT = "_none"
"""Stands for no kit where ids of kit stand; no id can be this."""

KINDS = ("pattern", "muscle", "kit", "need")


@dataclass(frozen=True, slots=True, kw_only=True)
class FacetValue:
    """One value of a facet."""

    kind: str
    """One of :data:`KINDS`."""
    word: str
    """As content files write it."""
    id: str
    """As addresses write it."""
    label: str
    """As a reader sees it."""


class Facets(Gateway):
    """The values that occur in a site's library, and the forms that have them."""

    def __init__(self, site: Site, library: Library) -> None:
        self.site = site
        self.library = library

    @shared_property
    def values(self) -> Mapping[str, tuple[FacetValue, ...]]:
        """By kind, in the order shown."""
        return {
            "pattern": tuple(self._named("pattern", (p for p in PATTERNS if p in self._members["pattern"]))),
            "muscle": self._muscles(),
            "kit": self._kit(),
            "need": self._needs(),
        }

    def _muscles(self) -> tuple[FacetValue, ...]:
        muscles = MUSCLE_REGIONS | dict(self.site.details.muscles)
        return tuple(self._named("muscle", (m for m in muscles if m in self._members["muscle"])))

    def _named(self, kind: str, words: Iterable[str]) -> Iterator[FacetValue]:
        labels, anchors = self.site.theme.strings.exercise[f"{kind}_words"], Anchors()
        for word in words:
            yield FacetValue(kind=kind, word=word, id=anchors.take(word), label=labels.get(word, word))

    def _kit(self) -> tuple[FacetValue, ...]:
        used = self._members["kit"]
        pieces = [
            FacetValue(kind="kit", word=piece.id, id=piece.id, label=piece.name)
            for piece in self.site.details.kit.values()
            if piece.id in used
        ]
        none = FacetValue(kind="kit", word=NO_KIT, id=NO_KIT, label=self.site.theme.strings.exercises.no_kit)
        return (*pieces, *([none] if NO_KIT in used else []))

    def _needs(self) -> tuple[FacetValue, ...]:
        needs = self.site.details.needs.values()
        return tuple(FacetValue(kind="need", word=need.id, id=need.id, label=need.name) for need in needs)

    def members(self, kind: str, word: str) -> Mapping[str, tuple[Form, ...]]:
        """By exercise, its forms with that pattern, muscle or kit; no exercise is listed for a need."""
        return self._members[kind].get(word, {})

    @shared_property
    def _members(self) -> Mapping[str, Mapping[str, Mapping[str, tuple[Form, ...]]]]:
        found: dict[str, dict[str, dict[str, tuple[Form, ...]]]] = {"pattern": {}, "muscle": {}, "kit": {}}
        for exercise, forms in self.library.forms.items():
            # A variant that is another exercise is found there.
            for form in (form for form in forms if not form.link):
                for kind, word in _values_of(form):
                    of_word = found[kind].setdefault(word, {})
                    of_word[exercise] = (*of_word.get(exercise, ()), form)
        return found


def _values_of(form: Form) -> Iterator[tuple[str, str]]:
    yield "pattern", form.pattern
    for muscle in dict.fromkeys((*form.muscles.prime, *form.muscles.assist)):
        yield "muscle", muscle
    for piece in form.kit or (NO_KIT,):
        yield "kit", piece
