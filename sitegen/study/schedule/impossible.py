"""Wishes that cannot be met at all: no days, too few before the horizon, too late for the wanted end.

That they cannot be met is certain, because the earliest plan is the earliest for every occurrence
(see ``placement``). The ways out are found by planning again with one change.
"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

from sitegen.study.schedule.conflicts import with_day
from sitegen.study.schedule.days import DELOAD, HOLIDAY
from sitegen.study.schedule.layout import RECOVERY, CalendarLayout, lay_out
from sitegen.study.schedule.placement import first_free
from sitegen.study.schedule.records import (
    FinishByConflict,
    HorizonConflict,
    NoDaysConflict,
    ScheduleRequest,
)
from sitegen.vocabulary import WEEKDAYS

START_SEARCH_DAYS = 366
"""How far back an earlier start is looked for."""
START_SEARCH_OCCURRENCES = 60_000
"""Most occurrences placed while looking, so that long series are looked at for fewer days."""


def limit_conflicts(
    layout: CalendarLayout,
) -> tuple[NoDaysConflict | HorizonConflict | FinishByConflict, ...]:
    """The outer limits that are not kept, the most basic first."""
    if not layout.order:
        return ()
    if not layout.days.open:
        reasons = tuple(kind for kind in (HOLIDAY, DELOAD) if kind in layout.days.closed)
        return (NoDaysConflict(closed_by=reasons),)
    beyond = () if layout.complete else (_beyond_horizon(layout),)
    return (*beyond, *_late(layout))


def _beyond_horizon(layout: CalendarLayout) -> HorizonConflict:
    occurrence = len(layout.steps)
    number, repeat = layout.name(occurrence)
    free = first_free(layout.days, layout.before(occurrence))
    days_left = free < len(layout.days.open)
    return HorizonConflict(
        session=number,
        repeat=repeat,
        placed=occurrence,
        total=len(layout.order),
        last_day=date.fromordinal(layout.days.last),
        recovery=layout.recovering(occurrence, layout.days.day(free)) if days_left else None,
    )


def _late(layout: CalendarLayout) -> Iterator[FinishByConflict]:
    wanted = layout.request.finish_by
    if wanted is None:
        return
    fitting = sum(layout.date_of(occurrence) <= wanted for occurrence in range(len(layout.steps)))
    if fitting == len(layout.order):
        return
    number, repeat = layout.name(fitting)
    request = layout.request
    yield FinishByConflict(
        wanted=wanted,
        earliest=layout.finish,
        session=number,
        repeat=repeat,
        fitting=fitting,
        total=len(layout.order),
        without=tuple(name for name, freed in _without_rules(request) if _in_time(freed)),
        train_days=tuple(
            day for day in WEEKDAYS if day not in request.days and _in_time(with_day(layout, day, 1))
        ),
        repeats=next(
            (n for n in range(request.repeats - 1, 0, -1) if _in_time(replace(request, repeats=n))), None
        ),
        start=_earlier_start(request, len(layout.order)),
    )


def _without_rules(request: ScheduleRequest) -> Iterator[tuple[str, ScheduleRequest]]:
    yield RECOVERY, replace(request, recovery_hours=0)
    yield DELOAD, replace(request, deload_every=None)
    yield HOLIDAY, replace(request, holidays=())


def _in_time(request: ScheduleRequest) -> bool:
    """Whether everything fits by the wanted last day: plan with that day as the horizon."""
    if request.finish_by is None or request.finish_by < request.start:
        return False
    until = (request.finish_by - request.start).days
    return lay_out(replace(request, horizon_days=min(until, request.horizon_days))).complete


def _earlier_start(request: ScheduleRequest, occurrences: int) -> date | None:
    tries = min(START_SEARCH_DAYS, START_SEARCH_OCCURRENCES // occurrences, request.start.toordinal() - 1)
    starts = (request.start - timedelta(days=back) for back in range(1, tries + 1))
    return next((start for start in starts if _in_time(replace(request, start=start))), None)
