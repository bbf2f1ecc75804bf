"""What a recording was found to show: blocks, items, questions, stubs."""

from dataclasses import dataclass, field

from sitegen.notation import Count, Dose, Duration


@dataclass(slots=True, kw_only=True)
class FoundItem:
    """One exercise shown."""

    exercise: str | None
    """Id in the library; None where the library lacks it."""
    variant: str | None = None
    heard: str
    """The name as heard."""
    start: float
    """Seconds from the start of the video."""
    named_at: float
    """When its name is said, in seconds."""
    confidence: float
    """0 to 1."""
    dose: Dose | None = None
    dose_at: float | None = None
    """When the dose is said, in seconds."""
    dose_confidence: float = 0.0
    alternatives: list["Alternative"] = field(default_factory=list)
    others: list[str] = field(default_factory=list)
    """Other exercises that the name may mean as well."""
    faults_at: list[float] = field(default_factory=list)
    cautions_at: list[float] = field(default_factory=list)


@dataclass(frozen=True, slots=True, kw_only=True)
class Alternative:
    """An easier, harder or gentler form offered in talk."""

    at: float
    kind: str
    """``easier``, ``harder`` or ``spares`` (for somebody with a complaint)."""
    exercise: str | None = None
    variant: str | None = None


@dataclass(slots=True, kw_only=True)
class FoundBlock:
    """One part of the session."""

    name: str
    kind: str
    format: str | None = None
    """None where it is not known."""
    format_said: bool = False
    """False where it is only the usual one."""
    start: float
    your_turn: float | None = None
    sets: Count | None = None
    sets_at: float | None = None
    sets_word: str = ""
    """``sets``, ``rounds`` or nothing: how they were called."""
    rest_exercises: Duration | None = None
    rest_sets: Duration | None = None
    work: Duration | None = None
    time: Duration | None = None
    confidence: float = 0.5
    items: list[FoundItem] = field(default_factory=list)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stub:
    """An exercise that the library lacks."""

    id: str
    """An id made from the name."""
    name: str
    """As heard."""
    at: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """Something that could not be decided."""

    at: float
    """Seconds; where in the recording to look."""
    text: str
