"""A client as her file says: what she avoids, what she has, her own amounts and her days."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from sitegen.model import Limits
from sitegen.notation import Dose, Load
from sitegen.problems import Location
from sitegen.study.forms import FormKey


@dataclass(frozen=True, slots=True, kw_only=True)
class ExerciseExchange:
    """What she does instead of an exercise: a variant of it, or another exercise with a dose of its own."""

    exercise: str | None = None
    """None for a variant of the same exercise."""
    variant: str | None = None
    dose: Dose | None = None
    load: Load | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Amounts:
    """How much of one form she does, whatever the session says; None for what the session says."""

    dose: Dose | None = None
    load: Load | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ProposedStep:
    """A next step; it holds once the trainer accepts it."""

    form: str
    """As in the keys of ``exercises:``."""
    dose: Dose | None = None
    load: Load | None = None
    why: str = ""
    accept: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class TestResult:
    """One result of a field test."""

    test: str
    day: date
    result: int
    """In the unit of the test (see ``study.field_tests``)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Client:
    """One person. Ids are those of the series; ``exercise`` or ``exercise/variant`` names a form."""

    id: str
    """Name of her file without its ending. It is the trainer's word and goes nowhere."""
    name: str
    """How she is addressed on her own page."""
    age: int | None = None
    """In years."""
    sex: str | None = None
    """``woman`` or ``man``; None where it is not said."""
    needs: tuple[str, ...] = ()
    avoids: tuple[str, ...] = ()
    """Demands beyond those of her needs."""
    limits: Limits = Limits()
    leave_out: tuple[str, ...] = ()
    """Forms that she is never given; an exercise stands for all of its forms."""
    exchanges: Mapping[str, ExerciseExchange] = field(default_factory=dict)
    """By the form that a session asks for."""
    loads: Mapping[str, Load] = field(default_factory=dict)
    """By piece of kit, what one of it holds or weighs for her."""
    exercises: Mapping[str, Amounts] = field(default_factory=dict)
    """By form, her own dose and load."""
    kit: tuple[str, ...] | None = None
    """What she has at home; None where nothing is said, and the kit of each session is taken to be there."""
    start: date | None = None
    days: tuple[str, ...] = ()
    time: int | None = None
    """Minutes after midnight."""
    per_week: int | None = None
    skip: tuple[str, ...] = ()
    """Slugs of sessions that she does not do."""
    repeat: Mapping[str, int] = field(default_factory=dict)
    """By slug, how often she does a session; once where nothing is said."""
    note: str = ""
    notes: Mapping[str, str] = field(default_factory=dict)
    """By slug, a word for one session."""
    tests: tuple[str, ...] = ()
    """Field tests that she does herself now and then."""
    baseline: tuple[TestResult, ...] = ()
    proposals: tuple[ProposedStep, ...] = ()
    location: Location


def form_key(reference: str) -> FormKey:
    """The form that ``exercise`` or ``exercise/variant`` names."""
    exercise, _, variant = reference.partition("/")
    return FormKey(exercise, variant or None)


def reference_of(key: FormKey) -> str:
    """The other way round."""
    return f"{key.exercise}/{key.variant}" if key.variant else key.exercise
