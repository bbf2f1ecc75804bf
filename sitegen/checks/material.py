"""What the checks look at."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from sitegen.model import Series
from sitegen.problems import Problem
from sitegen.reading.captions.cues import Cue


@dataclass(frozen=True, slots=True)
class Material:
    """A series that reads well."""

    series: Series
    cues: Mapping[str, tuple[Cue, ...]]
    """Caption cues by file."""


Check = Callable[[Material], Iterable[Problem]]
