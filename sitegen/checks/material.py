"""What the checks look at."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from sitegen.model import Block, Episode, Exercise, Item, Series, Variant
from sitegen.problems import Location, Problem
from sitegen.reading.captions.cues import Cue
from sitegen.study.avoided_in_vain import declared_demands
from sitegen.study.forms import Form, FormKey, Forms, forms_of
from sitegen.study.suitability import Suitability


@dataclass(frozen=True)
class Material:
    """A series that reads well, and what many checks ask of it, worked out once for all of them."""

    series: Series
    cues: Mapping[str, tuple[Cue, ...]]
    """Caption cues by file."""

    @cached_property
    def forms(self) -> Forms:
        """Every form of every exercise."""
        return forms_of(self.series.exercises)

    @cached_property
    def declared(self) -> frozenset[str]:
        """The demands that some form makes."""
        return declared_demands(self.forms)

    def items(self) -> Iterator[tuple[Episode, Block, int, Item]]:
        """Every item of every session, with its number in its block; one of a routine in each of its
        episodes."""
        for episode in self.series.sessions:
            for block in episode.blocks:
                for index, item in enumerate(block.items):
                    yield episode, block, index, item

    def own_forms(self, exercise: Exercise) -> Iterator[tuple[Form, Exercise | Variant]]:
        """The forms written in an exercise's file, each with its record; not those of other exercises."""
        yield self.forms[FormKey(exercise.id)], exercise
        for variant in exercise.variants:
            if variant.exercise is None:
                yield self.forms[FormKey(exercise.id, variant.id)], variant

    def location_of(self, form: Form) -> Location:
        """Where a form is written."""
        exercise = self.series.exercises[form.key.exercise]
        variant = exercise.variant(form.key.variant) if form.key.variant else None
        return variant.location if variant else exercise.location.at("name")

    @cached_property
    def suitability(self) -> Suitability:
        """Answers who can do what."""
        return Suitability(self.series.details, self.forms)


Check = Callable[[Material], Iterable[Problem]]
