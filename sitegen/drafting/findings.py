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
    """The name as heard; empty where it is only described."""
    start: float
    """Seconds from the start of the video."""
    named_at: float
    """When its name is said, in seconds; its start where it never is."""
    confidence: float
    """0 to 1."""
    plain: bool = False
    """Whether its name is said in whole, and not in passing."""
    ruled_out: str = ""
    """Words by which the trainer may leave it out today."""
    dose: Dose | None = None
    dose_at: float | None = None
    """When the dose is said, in seconds."""
    dose_confidence: float = 0.0
    said: list["Remark"] = field(default_factory=list)
    """What else an episode file has a place for: load, tempo, effort."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Remark:
    """A load, a tempo or an effort said."""

    kind: str
    """``load``, ``tempo`` or ``effort``."""
    text: str
    """As an episode file writes it."""
    heard: str
    """The words it is said in, with some around it."""
    at: float
    plain: bool
    """Whether it can only be meant for the viewer's set; else it is a question."""


@dataclass(slots=True, kw_only=True)
class FoundBlock:
    """One part of the session."""

    name: str
    kind: str
    kind_confidence: float = 0.0
    format: str = ""
    format_confidence: float = 0.0
    start: float
    your_turn: float | None = None
    """The end of the words that hand over to the viewer, in seconds."""
    turn_confidence: float = 0.0
    routine: str | None = None
    """The shared routine that it is."""
    sets: Count | None = None
    sets_at: float | None = None
    sets_confidence: float = 0.0
    rest_exercises: Duration | None = None
    rest_sets: Duration | None = None
    work: Duration | None = None
    time_said: tuple[int, int] | None = None
    """A long time said in the block: the token, and seconds."""
    items: list[FoundItem] = field(default_factory=list)
    unlikely: list[FoundItem] = field(default_factory=list)
    """What may be shown as well, but likelier is not."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ExerciseStub:
    """An exercise that the library lacks."""

    id: str
    """An id made from the name."""
    name: str
    """As heard."""
    at: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Unplaced:
    """Something heard that has no place in the draft: a name, an amount, a move."""

    text: str
    at: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenQuestion:
    """Something that could not be decided."""

    at: float
    """Seconds; where in the recording to look."""
    text: str
