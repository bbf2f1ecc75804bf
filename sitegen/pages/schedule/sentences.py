"""The schedule's sentences, from the theme's strings. ``scripts/schedule-words.js`` writes the same."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta
from typing import Any

from sitegen.pages.site import Site
from sitegen.pages.theme import plural
from sitegen.study.schedule import (
    Conflict,
    FinishByConflict,
    HorizonConflict,
    RecoveryConflict,
    Schedule,
    ScheduleRequest,
    Wait,
)
from sitegen.vocabulary import WEEKDAYS


class ScheduleSentences:
    """Says what a plan holds, for a reader."""

    def __init__(self, site: Site, titles: Mapping[int, str]) -> None:
        self._words: Any = site.theme.strings.schedule
        self._calendar: Any = site.theme.strings.calendar
        self._titles = titles
        """By number of the session."""
        self.full_day = site.phrases.day

    # --- days --------------------------------------------------------------------------------

    def day(self, day: date) -> str:
        """A day with its weekday: ``Monday 14 September``."""
        weekday = self._calendar.weekdays[day.weekday()]
        return str(self._words.day.format(weekday=weekday, day=day.day, month=self._month(day)))

    def month(self, day: date) -> str:
        """A month with its year: ``September 2026``."""
        return str(self._words.month.format(month=self._month(day), year=day.year))

    def week(self, monday: date) -> str:
        """The days of a week: ``21–27 September``."""
        sunday = monday + timedelta(days=6)
        if monday.month == sunday.month:
            text = self._words.days_in_month
            return str(text.format(first=monday.day, last=sunday.day, month=self._month(monday)))
        return str(self._words.days.format(first=self._short(monday), last=self._short(sunday)))

    def weekdays(self, days: Sequence[str]) -> str:
        """Days that come back: ``Mondays, Wednesdays and Fridays``."""
        names = [self._words.on_weekdays[n] for n, day in enumerate(WEEKDAYS) if day in days]
        return self.listed(names)

    def _month(self, day: date) -> str:
        return str(self._calendar.months[day.month - 1])

    def _short(self, day: date) -> str:
        return str(self._words.short_day.format(day=day.day, month=self._month(day)))

    def _run(self, wait: Wait) -> str:
        if wait.first == wait.last:
            return self.day(wait.first)
        return str(self._words.days.format(first=self.day(wait.first), last=self.day(wait.last)))

    # --- sessions ----------------------------------------------------------------------------

    def listed(self, words: Iterable[str], last: str | None = None) -> str:
        """Words as a list: ``a, b and c``."""
        *first, end = [*words] or [""]
        return f"{self._words.between.join(first)}{last or self._words['and']}{end}" if first else end

    def count(self, number: int) -> str:
        """A number of sessions: ``12 sessions``."""
        return plural(self._words.sessions, number).replace("#", str(number))

    def session(self, number: int, repeat: int = 1) -> str:
        """``4. Rising tide``, with the time it is done where that is not the first."""
        text = self._words.session if repeat == 1 else self._words.session_again
        return str(text.format(number=number, title=self._titles.get(number, ""), repeat=repeat))

    # --- the plan ----------------------------------------------------------------------------

    def lead(self, plan: Schedule, request: ScheduleRequest, start: int | None) -> str:
        """The plan in one sentence; ``start`` is minutes after midnight."""
        placed = plan.placements
        sessions = self.count(len(placed))
        if not placed:
            return str(self._words.lead_open.format(sessions=self.count(len(request.sessions))))
        if len(placed) == 1:
            return str(self._words.lead_one.format(sessions=sessions, first=self.full_day(placed[0].date)))
        text = self._words.lead if start is None else self._words.lead_at
        return str(
            text.format(
                sessions=sessions,
                first=self.full_day(placed[0].date),
                last=self.full_day(placed[-1].date),
                days=self.weekdays(request.days),
                time=clock(start or 0),
            )
        )

    def wait(self, wait: Wait) -> str:
        """Why training days before a session are free."""
        text, when = self._words.wait[wait.kind], self._run(wait)
        if wait.recovery is None:
            return str(text.format(when=when))
        reason = wait.recovery
        first = self.session(reason.first, reason.first_repeat)
        muscles = self.listed(reason.muscles)
        gap, needed = reason.gap_hours, reason.needed_hours
        return str(text.format(when=when, muscles=muscles, first=first, gap=gap, needed=needed))

    def conflict(self, conflict: Conflict) -> str:
        """What had to give way."""
        words = self._words.plan
        if isinstance(conflict, RecoveryConflict):
            return str(
                words.recovery.format(
                    first=self.session(conflict.first, conflict.first_repeat),
                    first_date=self.day(conflict.first_date),
                    second=self.session(conflict.second, conflict.second_repeat),
                    wanted=self.day(conflict.wanted),
                    planned=self.day(conflict.planned),
                    muscles=self.listed(conflict.muscles),
                    gap=conflict.gap_hours,
                    needed=conflict.needed_hours,
                )
            )
        if isinstance(conflict, HorizonConflict):
            first = self.session(conflict.session, conflict.repeat)
            numbers = {"placed": conflict.placed, "total": conflict.total}
            return str(words.horizon.format(**numbers, last=self.full_day(conflict.last_day), session=first))
        if isinstance(conflict, FinishByConflict):
            earliest = self.full_day(conflict.earliest) if conflict.earliest else ""
            text = words.finish_by_earliest if earliest else words.finish_by
            numbers = {"fitting": conflict.fitting, "total": conflict.total}
            return str(text.format(**numbers, wanted=self.full_day(conflict.wanted), earliest=earliest))
        reasons = self.listed(words.closed[kind] for kind in conflict.closed_by)
        return str(words.no_days_closed.format(reasons=reasons) if reasons else words.no_days)

    def helps(self, conflict: Conflict) -> list[str]:
        """What a viewer can do against it, each way enough alone; another order is for the trainer to choose
        and stands in what ``check`` says."""
        if not isinstance(conflict, RecoveryConflict):
            return []
        days = [self._calendar.weekdays[WEEKDAYS.index(day)] for day in conflict.allow_days]
        return [self._words.plan.allow.format(days=self.listed(days, self._words["or"]))] if days else []


def clock(minutes: int) -> str:
    """``18:30``."""
    return f"{minutes // 60}:{minutes % 60:02d}"
