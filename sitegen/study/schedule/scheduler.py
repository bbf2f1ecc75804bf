"""From wishes to a plan: the earliest one that keeps order and recovery, with every reason given."""

from collections.abc import Sequence

from sitegen.model import ScheduleWishes
from sitegen.study.schedule.conflicts import recovery_conflicts
from sitegen.study.schedule.impossible import limit_conflicts
from sitegen.study.schedule.layout import lay_out, placements
from sitegen.study.schedule.records import Schedule, ScheduleRequest, SessionToPlace


def place(request: ScheduleRequest) -> Schedule:
    """The earliest plan in the given order, and where wishes had to give way.

    Order, recovery, closed days and the most occurrences in a week are always kept. The pace and the
    wanted last day are wishes: where they cannot be kept, the plan is still the earliest there is,
    and ``conflicts`` says why and what would help. An occurrence without a day before the horizon is
    left out, with all that follow it.
    """
    layout = lay_out(request)
    conflicts = (*limit_conflicts(layout), *recovery_conflicts(layout))
    return Schedule(
        placements=placements(layout),
        conflicts=conflicts,
        per_week=layout.days.per_week,
        complete=layout.complete,
        kept=not conflicts,
        finish=layout.finish,
    )


def request_from_series(wishes: ScheduleWishes, sessions: Sequence[SessionToPlace]) -> ScheduleRequest:
    """What the series asks for, as the scheduler takes it."""
    return ScheduleRequest(
        sessions=tuple(sessions),
        start=wishes.start,
        days=wishes.days,
        repeats=wishes.repeats,
        per_week=wishes.per_week,
        keep_pace=wishes.keep_pace,
        recovery_hours=wishes.recovery_hours,
        deload_every=wishes.deload_every,
        holidays=wishes.holidays,
        finish_by=wishes.finish_by,
    )
