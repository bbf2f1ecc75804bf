"""A request laid out for counting: its training days, hard muscles, occurrences and earliest plan."""

from dataclasses import dataclass
from datetime import date

from sitegen.study.schedule.days import OPEN, TrainingDays, training_days
from sitegen.study.schedule.placement import (
    PlacementState,
    PlacementStep,
    first_free,
    place_in_order,
    recovering_from,
)
from sitegen.study.schedule.records import Placement, Recovering, ScheduleRequest, Wait

WEEK_FULL, RECOVERY = "week-full", "recovery"


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarLayout:
    """The earliest plan of a request, with what it was made from."""

    request: ScheduleRequest
    days: TrainingDays
    hard: tuple[frozenset[str], ...]
    """Muscles by index of session."""
    order: tuple[int, ...]
    """Index of the session of each occurrence."""
    steps: tuple[PlacementStep, ...]
    """One for each occurrence that has a day."""
    occurrence_on: dict[int, int]
    """Which occurrence is held on a day."""

    @property
    def complete(self) -> bool:
        """Whether every occurrence has a day."""
        return len(self.steps) == len(self.order)

    @property
    def finish(self) -> date | None:
        """Day of the last occurrence, where every one has a day."""
        return self.date_of(len(self.steps) - 1) if self.complete and self.steps else None

    def day_of(self, occurrence: int) -> int:
        """Ordinal of the day of a placed occurrence."""
        return self.days.day(self.steps[occurrence].state.index)

    def date_of(self, occurrence: int) -> date:
        """The day of a placed occurrence."""
        return date.fromordinal(self.day_of(occurrence))

    def before(self, occurrence: int) -> PlacementState:
        """The state in which that occurrence is placed."""
        return self.steps[occurrence - 1].state if occurrence else PlacementState()

    def name(self, occurrence: int) -> tuple[int, int]:
        """SessionToPlace number and repeat of an occurrence."""
        return self.request.sessions[self.order[occurrence]].number, occurrence % self.request.repeats + 1

    def recovering(self, occurrence: int, day: int) -> Recovering:
        """Why that occurrence is too early on ``day``. Raises ValueError where none before keeps it off."""
        earlier = recovering_from(self.hard, self.order[occurrence], self.before(occurrence))
        if earlier is None:
            raise ValueError(f"nothing keeps occurrence {occurrence} off day {day}")
        number, repeat = self.name(self.occurrence_on[earlier[0]])
        shared = self.hard[self.order[occurrence]]
        return Recovering(
            first=number,
            first_repeat=repeat,
            first_date=date.fromordinal(earlier[0]),
            muscles=tuple(m for m in self.request.sessions[earlier[1]].muscles if m in shared),
            gap_hours=(day - earlier[0]) * 24,
            needed_hours=self.request.recovery_hours,
        )


def lay_out(request: ScheduleRequest) -> CalendarLayout:
    """The earliest plan of a request."""
    days = training_days(request)
    hard = tuple(frozenset(session.muscles) for session in request.sessions)
    order = tuple(session for session in range(len(hard)) for _ in range(request.repeats))
    steps = tuple(place_in_order(days, hard, order))
    occurrence_on = {days.day(step.state.index): occurrence for occurrence, step in enumerate(steps)}
    return CalendarLayout(
        request=request, days=days, hard=hard, order=order, steps=steps, occurrence_on=occurrence_on
    )


def placements(layout: CalendarLayout) -> tuple[Placement, ...]:
    """Every placed occurrence with its day and its waits."""
    names = map(layout.name, range(len(layout.steps)))
    return tuple(
        Placement(session=number, repeat=repeat, date=layout.date_of(at), waits=_waits(layout, at))
        for at, (number, repeat) in enumerate(names)
    )


def _waits(layout: CalendarLayout, occurrence: int) -> tuple[Wait, ...]:
    """Runs of training days between the occurrence before and this one, by what kept them free."""
    days, before = layout.days, layout.before(occurrence)
    begin = days.open[before.index] + 1 if before.index >= 0 else 0
    end = days.open[layout.steps[occurrence].state.index]
    free = first_free(days, before)
    free_from = days.open[free]
    runs: list[tuple[str, list[int]]] = []
    for position in range(begin, end):
        waiting = WEEK_FULL if position < free_from else RECOVERY
        kind = waiting if days.closed[position] == OPEN else days.closed[position]
        if not runs or runs[-1][0] != kind:
            runs.append((kind, []))
        runs[-1][1].append(days.days[position])
    return tuple(
        Wait(
            kind=kind,
            first=date.fromordinal(run[0]),
            last=date.fromordinal(run[-1]),
            days=len(run),
            recovery=layout.recovering(occurrence, run[0]) if kind == RECOVERY else None,
        )
        for kind, run in runs
    )
