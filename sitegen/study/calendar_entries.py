"""Calendar entries: what each says, and how its changes are counted.

A calendar program that took over an entry notices a change by its sequence number (RFC 5545, section
3.8.7.4), which must rise with every change and never otherwise. No build may depend on the one before
it, so the last published state of each entry is content itself (calendar.yaml, which ``sitegen
calendar`` writes): an entry that says what is recorded there has the recorded number, one that says
something else has the next.
"""

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from sitegen.model import Details, Episode, Recorded
from sitegen.study.fetching import fetched, in_number
from sitegen.study.forms import Forms
from sitegen.study.span import Span
from sitegen.study.timing import SessionTime

ROUND_TO = 5
"""Minutes that the length of an entry is rounded up to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionSummary:
    """What a calendar tells of a session."""

    number: int
    slug: str
    title: str
    seconds: Span | None
    """Setting up, video and your turns; None where the video's length is not known."""
    kit: tuple[str, ...]
    """Names of what to fetch, with how many of it, in the order it is needed."""

    @property
    def minutes(self) -> int | None:
        """Length of an entry: the long end, rounded up."""
        return None if self.seconds is None else -(-int(self.seconds.high) // (60 * ROUND_TO)) * ROUND_TO


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarEntry:
    """One session on its day."""

    key: str
    """Names it for ever: the first slug of its episode, and which time it is done."""
    repeat: int
    """From 1."""
    date: date
    start: int | None
    """Minutes after midnight; None for an all-day entry."""
    time_zone: str
    brief: SessionSummary

    @property
    def mark(self) -> str:
        """Fingerprint of all it says."""
        brief = self.brief
        parts = (self.date, self.start, self.time_zone, brief.number, brief.title, brief.minutes, *brief.kit)
        return hashlib.blake2b("\0".join(map(str, parts)).encode(), digest_size=6).hexdigest()


def brief_of(details: Details, forms: Forms, episode: Episode, time: SessionTime) -> SessionSummary:
    """What the calendar tells of an episode that takes so long."""
    kit = fetched(details, forms, episode)
    return SessionSummary(
        number=episode.number,
        slug=episode.slug,
        title=episode.title,
        seconds=time.whole,
        kit=tuple(in_number(number, details.kit[piece].name) for piece, number in kit.items()),
    )


def entries(
    details: Details, briefs: Mapping[int, SessionSummary], days: Iterable[tuple[int, int, date]]
) -> Iterator[CalendarEntry]:
    """An entry for each session, repeat and date. Raises ValueError for a series without a calendar."""
    if details.schedule is None:
        raise ValueError("the series has no calendar")
    for number, repeat, day in days:
        brief = briefs[number]
        yield CalendarEntry(
            key=f"{first_slug(details.moved, brief.slug)}-{repeat}",
            repeat=repeat,
            date=day,
            start=details.schedule.time,
            time_zone=details.schedule.time_zone,
            brief=brief,
        )


def first_slug(moved: Mapping[str, str], slug: str) -> str:
    """The slug under which an episode was first published: ids outlive its renaming."""
    came_from = {_page(new): _page(old) for old, new in moved.items()}
    page = f"episodes/{slug}"
    seen = {page}
    # Renamed more than once; a circle, which check refuses, ends.
    while (earlier := came_from.get(page, page)) not in seen and earlier.startswith("episodes/"):
        page = earlier
        seen.add(page)
    return page.removeprefix("episodes/")


def _page(address: str) -> str:
    return address.strip("/").removesuffix("index.html").rstrip("/")


def sequence(recorded: Mapping[str, Recorded], entry: CalendarEntry) -> int:
    """How often the entry has changed since it was first published."""
    before = recorded.get(entry.key)
    if before is None:
        return 0
    return before.sequence if before.mark == entry.mark else before.sequence + 1


def is_changed(recorded: Mapping[str, Recorded], entry: CalendarEntry) -> bool:
    """Whether it says something else than when it was last recorded, or was not recorded yet."""
    before = recorded.get(entry.key)
    return before is None or before.mark != entry.mark


def record(recorded: Mapping[str, Recorded], now: Iterable[CalendarEntry]) -> dict[str, Recorded]:
    """What is to be kept once these entries are published. Entries that are gone stay: they may return."""
    fresh = {e.key: Recorded(sequence=sequence(recorded, e), mark=e.mark) for e in now}
    return dict(sorted({**recorded, **fresh}.items()))
