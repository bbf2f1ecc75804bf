"""What the grammar of spoken amounts yields."""

from dataclasses import dataclass

from sitegen.notation import Count, Dose, Duration

DOSE, SETS, REST, WORK = "dose", "sets", "rest", "work"
LOAD, TEMPO, EFFORT, DISTANCE, OTHER = "load", "tempo", "effort", "distance", "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class SpokenAmount:
    """One amount said, from token ``first`` to ``last``."""

    kind: str
    """:data:`DOSE` (or what may be one), :data:`SETS`, :data:`REST` (also the time to change over),
    :data:`WORK` (of intervals), :data:`LOAD`, :data:`TEMPO`, :data:`EFFORT`, :data:`DISTANCE`, or
    :data:`OTHER` (of what is no part of a session: degrees, years).
    """
    first: int
    last: int
    dose: Dose | None = None
    """For :data:`DOSE` and :data:`DISTANCE`."""
    count: Count | None = None
    """For :data:`SETS`."""
    length: Duration | None = None
    """For times."""
    text: str = ""
    """For loads, tempos, efforts and distances: as an episode file writes it."""
    form: str = ""
    """How it is said: ``bare`` (a number alone), ``unit``, ``ladder``, ``max``, ``by`` (three by ten)."""
    sided: bool = False
    """Whether a side is said with it."""
    counted: bool = False
    """Whether it is a number of counting aloud, up or down."""
    word: str = ""
    """For :data:`SETS`: what they are called, ``sets``, ``rounds`` or ``times``."""
