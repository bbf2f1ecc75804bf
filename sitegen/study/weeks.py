"""The weeks of a series: which sessions fall into each, by the calendar or by release.

Weeks run from Monday to Sunday (ISO 8601).
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from sitegen.model import Episode
from sitegen.study.schedule import ScheduleRequest
from sitegen.study.schedule.layout import lay_out


@dataclass(frozen=True, slots=True, kw_only=True)
class Week:
    """A week with at least one session."""

    number: int
    """Weeks from the first one with a session, which is 1."""
    monday: date
    sessions: tuple[int, ...]
    """Numbers of the episodes, one for each time they are done, in order of their days."""

    @property
    def iso(self) -> tuple[int, int]:
        """Year and week number of ISO 8601; around New Year the year is not always the Monday's."""
        year, week, _ = self.monday.isocalendar()
        return year, week


def session_weeks(episodes: Iterable[Episode], request: ScheduleRequest | None) -> tuple[Week, ...]:
    """Weeks by the days that the calendar gives, or, where there is none, by release dates.

    Sessions without a day (or without a release date) are in no week.
    """
    if request is not None:
        return weeks_of((day, session) for session, _, day in planned_days(request))
    return weeks_of((e.released, e.number) for e in episodes if e.released is not None)


def planned_days(request: ScheduleRequest) -> Iterator[tuple[int, int, date]]:
    """Session, repeat and day of every occurrence that has a day."""
    layout = lay_out(request)
    for occurrence in range(len(layout.steps)):
        yield (*layout.name(occurrence), layout.date_of(occurrence))


def weeks_of(days: Iterable[tuple[date, int]]) -> tuple[Week, ...]:
    """The weeks of sessions given by day and number, earliest first."""
    grouped: dict[date, list[int]] = {}
    for day, session in sorted(days):
        grouped.setdefault(monday_of(day), []).append(session)
    first = min(grouped, default=date.min)
    return tuple(
        Week(number=(monday - first).days // 7 + 1, monday=monday, sessions=tuple(sessions))
        for monday, sessions in grouped.items()
    )


def monday_of(day: date) -> date:
    """The first day of its week."""
    return day - timedelta(days=day.weekday())


def usual_count(weeks: Iterable[Week]) -> int:
    """How many sessions a week of the series usually has: the most common number, of two the larger."""
    counts = [len(week.sessions) for week in weeks]
    return max(counts, key=lambda count: (counts.count(count), count), default=0)
