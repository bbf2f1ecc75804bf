"""The series as a whole: sessions, library, pages in the trainer's words, what was published of the
calendar."""

import itertools
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from operator import attrgetter

from sitegen.model.details import Details
from sitegen.model.episode import Block, Episode, Item
from sitegen.model.exercise import Exercise
from sitegen.problems import Location
from sitegen.stored_records import Record
from sitegen.system.noted_reads import note, recorded, recorded_lists, unrecorded


@recorded(id_of=attrgetter("slug"), otherwise="page", silent={"slug"})
@dataclass(frozen=True, slots=True, kw_only=True)
class FreePage:
    """A page of the trainer's own words."""

    slug: str
    title: str
    summary: str = ""
    text: str
    """Markdown."""
    first_line: int = 1
    """Line of the file on which the text starts."""
    menu: bool = True
    location: Location


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedLibrary:
    """A library read in place."""

    folder: str
    version: str
    """Fingerprint of its exercises, shared blocks and series.yaml, the same for whoever reads it."""
    files: Mapping[str, str]
    """Fingerprint of each file by its path below the library's folder."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Recorded(Record):
    """What was last published of a session's calendar entry."""

    sequence: int
    """How often it had changed by then."""
    mark: str
    """Fingerprint of what it said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Appearance:
    """One showing of an exercise."""

    episode: Episode
    block: Block
    item: Item


@recorded_lists("episodes", "upcoming", "exercises", "pages", "calendar")
@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """Everything, cross references checked."""

    details: Details
    episodes: tuple[Episode, ...]
    """By number."""
    upcoming: tuple[Episode, ...] = ()
    """By number, those that are not out yet, plans among them; they are not in ``episodes``."""
    exercises: Mapping[str, Exercise]
    """By id, in order of name."""
    pages: tuple[FreePage, ...] = ()
    calendar: Mapping[str, Recorded] = field(default_factory=dict)
    """Published calendar entries by key, such as ``steady-pull-1``: the episode's slug and which time."""
    digests: Mapping[str, str] = field(default_factory=dict)
    """Fingerprint of each content file's bytes, by path below the content folder."""
    sizes: Mapping[str, tuple[int, int]] = field(default_factory=dict)
    """Width and height of the logo and the photograph, by file."""
    held_in_pages: Mapping[str, str] = field(default_factory=dict)
    """Small logos as addresses that hold them whole (``data:``, RFC 2397), by file."""
    library: SharedLibrary | None = None
    """The library shared with other series, whose exercises and blocks are among these; None without one."""

    def file_of_routine(self, routine_id: str) -> str:
        """The file of a shared block: the series' own, else that of the library."""
        own = f"routines/{routine_id}.yaml"
        return own if self.library is None or own in self.digests else f"{self.library.folder}/{own}"

    def in_its_folder(self, file: str) -> str:
        """The path of a file below the folder it belongs to: the series' own or that of the library."""
        return file if self.library is None else file.removeprefix(f"{self.library.folder}/")

    def exercise(self, exercise_id: str) -> Exercise:
        """The exercise with that id; KeyError where there is none."""
        return self.exercises[exercise_id]

    @property
    def sessions(self) -> tuple[Episode, ...]:
        """All episodes by number, those that are not out yet among them."""
        note("list sessions")
        with unrecorded():
            return tuple(sorted((*self.episodes, *self.upcoming), key=lambda episode: episode.number))

    def as_of(self, day: date | None, *, plans: bool = False) -> "Series":
        """The series on a day: episodes released later are upcoming. With None all are out.

        Plans are upcoming until they are filmed, unless ``plans`` are to be among the episodes.
        """

        def is_out(episode: Episode) -> bool:
            if episode.planned and not plans:
                return False
            return day is None or episode.released is None or episode.released <= day

        sessions = self.sessions
        return replace(
            self,
            episodes=tuple(filter(is_out, sessions)),
            upcoming=tuple(itertools.filterfalse(is_out, sessions)),
        )
