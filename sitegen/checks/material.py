"""What the checks look at."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from sitegen.model import Series
from sitegen.problems import Problem
from sitegen.reading.captions.cues import Cue
from sitegen.study.forms import Forms, forms_of
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
    def suitability(self) -> Suitability:
        """Answers who can do what."""
        return Suitability(self.series.details, self.forms)


Check = Callable[[Material], Iterable[Problem]]
