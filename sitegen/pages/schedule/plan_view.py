"""A plan as it is shown: months with their weeks and days, and the list of sessions."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby

from sitegen.pages.schedule.sentences import ScheduleSentences
from sitegen.pages.schedule.sessions import ScheduledSession
from sitegen.study.schedule import Placement, Schedule, ScheduleRequest
from sitegen.study.weeks import monday_of
from sitegen.vocabulary import WEEKDAYS

MOST_CONFLICTS = 5
"""How many are told one by one; the rest are counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OccurrenceView:
    """A session on its day, or without one."""

    key: str
    """Of its ticks and notes: slug and time."""
    name: str
    session: ScheduledSession
    date: str = ""
    """``2026-09-14``; empty without a day."""
    day: str = ""
    waits: tuple[str, ...] = ()
    early: bool = False
    """True where the day comes before the session is out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DayView:
    """A day of a month."""

    date: str
    """Empty for a place before the first day or after the last."""
    number: int
    occurrence: OccurrenceView | None
    free: str
    """Why a training day is free: a kind of wait; empty for other days."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthWeek:
    """A row of a month."""

    number: int
    """ISO 8601 week of the year."""
    days: tuple[DayView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthView:
    """A month."""

    id: str
    name: str
    weeks: tuple[MonthWeek, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ListWeek:
    """A week of the list."""

    number: int
    """From the first; 0 for sessions without a day."""
    days: str
    occurrences: tuple[OccurrenceView, ...]
    """None in a week off between others, which is told so that nobody looks for it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ConflictView:
    """Something that had to give way, and what helps."""

    text: str
    helps: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanView:
    """The whole plan."""

    lead: str
    conflicts: tuple[ConflictView, ...] = ()
    more: int = 0
    """Conflicts that are not told one by one."""
    months: tuple[MonthView, ...] = ()
    weeks: tuple[ListWeek, ...]


def plan_view(
    plan: Schedule,
    request: ScheduleRequest,
    sessions: Mapping[int, ScheduledSession],
    words: ScheduleSentences,
    start: int | None,
) -> PlanView:
    """A plan, with sessions by number; ``start`` is the time of day in minutes."""
    occurrences = [_occurrence(placed, sessions[placed.session], words) for placed in plan.placements]
    days = [placed.date for placed in plan.placements]
    told = plan.conflicts[:MOST_CONFLICTS]
    return PlanView(
        lead=words.lead(plan, request, start),
        conflicts=tuple(ConflictView(text=words.conflict(c), helps=tuple(words.helps(c))) for c in told),
        more=len(plan.conflicts) - len(told),
        months=tuple(_months(dict(zip(days, occurrences, strict=True)), _free_days(plan, request), words)),
        weeks=tuple(_weeks(days, occurrences, words)),
    )


def undated_view(
    sessions: Mapping[int, ScheduledSession], repeats: int, words: ScheduleSentences, lead: str
) -> PlanView:
    """All sessions in their order, without days."""
    occurrences = tuple(
        OccurrenceView(key=f"{one.slug}-{repeat}", name=words.session(one.number, repeat), session=one)
        for one in sessions.values()
        for repeat in range(1, repeats + 1)
    )
    week = ListWeek(number=0, days="", occurrences=occurrences)
    return PlanView(lead=lead, weeks=(week,) if occurrences else ())


def _occurrence(placed: Placement, session: ScheduledSession, words: ScheduleSentences) -> OccurrenceView:
    return OccurrenceView(
        key=f"{session.slug}-{placed.repeat}",
        name=words.session(placed.session, placed.repeat),
        session=session,
        date=placed.date.isoformat(),
        day=words.day(placed.date),
        waits=tuple(words.wait(wait) for wait in placed.waits),
        early=not session.out and session.released is not None and placed.date < session.released,
    )


def _free_days(plan: Schedule, request: ScheduleRequest) -> dict[date, str]:
    """Training days that are left free, by what keeps them so."""
    free: dict[date, str] = {}
    for wait in (wait for placed in plan.placements for wait in placed.waits):
        for offset in range((wait.last - wait.first).days + 1):
            day = wait.first + timedelta(days=offset)
            if WEEKDAYS[day.weekday()] in request.days:
                free[day] = wait.kind
    return free


def _months(
    occurrences: Mapping[date, OccurrenceView], free: Mapping[date, str], words: ScheduleSentences
) -> Iterator[MonthView]:
    if not occurrences:
        return
    month, last = min(occurrences).replace(day=1), max(occurrences)
    while month <= last:
        following = (month + timedelta(days=31)).replace(day=1)
        yield MonthView(
            id=f"{month:%Y-%m}",
            name=words.month(month),
            weeks=tuple(_rows(month, following, occurrences, free)),
        )
        month = following


def _rows(
    month: date, following: date, occurrences: Mapping[date, OccurrenceView], free: Mapping[date, str]
) -> Iterator[MonthWeek]:
    monday = monday_of(month)
    while monday < following:
        days = [monday + timedelta(days=n) for n in range(7)]
        yield MonthWeek(
            number=monday.isocalendar().week,
            days=tuple(_day(day, occurrences, free) if month <= day < following else EMPTY for day in days),
        )
        monday += timedelta(days=7)


def _day(day: date, occurrences: Mapping[date, OccurrenceView], free: Mapping[date, str]) -> DayView:
    return DayView(
        date=day.isoformat(), number=day.day, occurrence=occurrences.get(day), free=free.get(day, "")
    )


EMPTY = DayView(date="", number=0, occurrence=None, free="")
"""A place of a month's table that is no day of the month."""


def _weeks(
    days: Sequence[date], occurrences: Sequence[OccurrenceView], words: ScheduleSentences
) -> Iterator[ListWeek]:
    pairs = zip(map(monday_of, days), occurrences, strict=True)
    monday = monday_of(days[0]) if days else date.min
    number = 1
    for start, group in groupby(pairs, lambda pair: pair[0]):
        while monday <= start:
            here = tuple(occurrence for _, occurrence in group) if monday == start else ()
            yield ListWeek(number=number, days=words.week(monday), occurrences=here)
            monday, number = monday + timedelta(days=7), number + 1
