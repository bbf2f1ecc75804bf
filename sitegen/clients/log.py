"""What a client wrote down: the sittings of her sessions, and field tests."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime

from sitegen.clients.client import TestResult


@dataclass(frozen=True, slots=True, kw_only=True)
class LogEntry:
    """One exercise in one sitting, in her own words; empty where she wrote nothing."""

    load: str = ""
    reps: str = ""
    effort: int | None = None
    """From 0 (nothing) to 10 (all out), of this exercise alone."""

    @property
    def said(self) -> bool:
        """Whether she wrote anything."""
        return bool(self.load or self.reps or self.effort is not None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sitting:
    """One time that she did a session, or wrote something about it."""

    slug: str
    time: int
    """Which time of this session it was, from 1."""
    done: date | None = None
    effort: int | None = None
    """Of the whole session, from 0 to 10."""
    text: str = ""
    pain: str | None = None
    """Where something hurt; empty where she only says that it did, None where nothing did."""
    dizzy: bool = False
    """Dizzy, faint or short of breath."""
    changed: datetime | None = None
    """When she last changed it, by the clock of her device; None where nobody noted it."""
    items: Mapping[str, LogEntry] = field(default_factory=dict)
    """By form, as ``exercise`` or ``exercise/variant``."""

    @property
    def key(self) -> str:
        """What a sitting is known by in her file: the session and which time of it."""
        return f"{self.slug}-{self.time}"

    @property
    def own_words(self) -> tuple[str, ...]:
        """All that she wrote freely; a field for repetitions takes any text too."""
        return tuple(text for text in (self.pain or "", self.text, *self.in_fields) if text)

    @property
    def in_fields(self) -> tuple[str, ...]:
        """What she wrote in the fields of single exercises."""
        return tuple(text for entry in self.items.values() for text in (entry.load, entry.reps) if text)

    @property
    def troubled(self) -> bool:
        """Whether she had pain, or was dizzy, faint or short of breath."""
        return self.pain is not None or self.dizzy


@dataclass(frozen=True, slots=True, kw_only=True)
class Log:
    """One file that came back."""

    file: str
    code: str
    """Of the plan; empty for the progress file of the public site, which says nothing of a person."""
    saved: datetime
    """When the file was saved, by the clock of her device."""
    sittings: tuple[Sitting, ...]
    tests: tuple[TestResult, ...] = ()
