"""The training days of a request, with what closes them, as numbers to count with.

Days are ordinals of the proleptic Gregorian calendar (``date.toordinal``): no clock, no time zone.
"""

from dataclasses import dataclass
from datetime import date

from sitegen.study.schedule.records import ScheduleRequest
from sitegen.vocabulary import WEEKDAYS

HOLIDAY, DELOAD, OPEN = "holiday", "deload", ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TrainingDays:
    """Training days from the start to the horizon; those that may be used are the open ones."""

    days: tuple[int, ...]
    """All training days, ascending."""
    closed: tuple[str, ...]
    """What closes each of ``days``; ``OPEN`` for none."""
    open: tuple[int, ...]
    """Positions in ``days`` of the open ones."""
    week: tuple[int, ...]
    """Week of each open day, from 0 for the week of the start."""
    next_week: tuple[int, ...]
    """For each open day the index (into ``open``) of the first open day of a later week."""
    spare: tuple[int, ...]
    """For each open day how many open days its week has beyond those the pace needs."""
    per_week: int
    recovery_days: int
    last: int
    """The horizon's day."""

    def day(self, index: int) -> int:
        """Ordinal of the open day with that index."""
        return self.days[self.open[index]]


def weekday(day: int) -> int:
    """0 for Monday to 6 for Sunday; ordinal 1 is a Monday."""
    return (day - 1) % 7


def training_days(request: ScheduleRequest) -> TrainingDays:
    """Lay out the training days of a request."""
    start = request.start.toordinal()
    last = min(start + request.horizon_days, date.max.toordinal())
    wanted = {WEEKDAYS.index(name) for name in request.days}
    monday = start - weekday(start)
    days = tuple(day for day in range(start, last + 1) if weekday(day) in wanted)
    off = _holidays(request, start, last)
    closed = tuple(_closed(day, off, (day - monday) // 7 + 1, request.deload_every) for day in days)
    open_ = tuple(position for position, reason in enumerate(closed) if reason == OPEN)
    week = tuple((days[position] - monday) // 7 for position in open_)
    per_week = min(request.per_week or len(wanted), len(wanted))
    next_week = _next_week(week)
    return TrainingDays(
        days=days,
        closed=closed,
        open=open_,
        week=week,
        next_week=next_week,
        spare=_spare(week, next_week, per_week),
        per_week=per_week,
        recovery_days=-(-request.recovery_hours // 24),
        last=last,
    )


def _holidays(request: ScheduleRequest, start: int, last: int) -> set[int]:
    off: set[int] = set()
    for holiday in request.holidays:
        first_off = max(holiday.first.toordinal(), start)
        off.update(range(first_off, min(holiday.last.toordinal(), last) + 1))
    return off


def _closed(day: int, off: set[int], week: int, deload_every: int | None) -> str:
    if day in off:
        return HOLIDAY
    return DELOAD if deload_every and week % deload_every == 0 else OPEN


def _next_week(week: tuple[int, ...]) -> tuple[int, ...]:
    found = [len(week)] * len(week)
    for index in reversed(range(len(week) - 1)):
        found[index] = index + 1 if week[index + 1] != week[index] else found[index + 1]
    return tuple(found)


def _spare(week: tuple[int, ...], next_week: tuple[int, ...], per_week: int) -> tuple[int, ...]:
    spare: list[int] = []
    while len(spare) < len(week):
        open_days = next_week[len(spare)] - len(spare)
        spare.extend([max(open_days - per_week, 0)] * open_days)
    return tuple(spare)
