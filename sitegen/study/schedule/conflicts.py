"""Training days lost to recovery: which two sessions are to blame, and what would help.

The reason is minimal: a lost day is open, in order and within its week's count, so without a
recovery rule it would be used; and the one pair that is named keeps the occurrence off it alone.
What would help is found by planning again with one change, never guessed.
"""

from dataclasses import replace
from datetime import date

from sitegen.study.schedule.layout import CalendarLayout, lay_out
from sitegen.study.schedule.placement import place_in_order
from sitegen.study.schedule.records import RecoveryConflict, ScheduleRequest
from sitegen.vocabulary import WEEKDAYS

SWAP_REACH = 3
"""How many places apart two sessions may be whose exchange is proposed."""


def recovery_conflicts(layout: CalendarLayout) -> tuple[RecoveryConflict, ...]:
    """All occurrences that cost their week a training day."""
    costly = _costly(layout)
    if not costly or not layout.request.keep_pace:
        return ()
    others = [day for day in WEEKDAYS if day not in layout.request.days]
    left = {day: set(_costly(lay_out(with_day(layout, day)))) for day in others}
    return tuple(
        _conflict(layout, occurrence, tuple(day for day in others if occurrence not in left[day]))
        for occurrence in costly
    )


def with_day(layout: CalendarLayout, day: str, more_per_week: int = 0) -> ScheduleRequest:
    """What was requested, with one more weekday that may be used, the pace being held."""
    days = (*layout.request.days, day)
    return replace(layout.request, days=days, per_week=layout.days.per_week + more_per_week)


def _costly(layout: CalendarLayout) -> list[int]:
    return [occurrence for occurrence, step in enumerate(layout.steps) if step.lost]


def _conflict(layout: CalendarLayout, occurrence: int, allow_days: tuple[str, ...]) -> RecoveryConflict:
    step = layout.steps[occurrence]
    wanted = layout.days.day(step.first_lost)
    reason = layout.recovering(occurrence, wanted)
    number, repeat = layout.name(occurrence)
    return RecoveryConflict(
        first=reason.first,
        first_repeat=reason.first_repeat,
        first_date=reason.first_date,
        second=number,
        second_repeat=repeat,
        wanted=date.fromordinal(wanted),
        planned=layout.date_of(occurrence),
        lost_days=step.lost,
        muscles=reason.muscles,
        gap_hours=reason.gap_hours,
        needed_hours=reason.needed_hours,
        allow_days=allow_days,
        swaps=_swaps(layout, layout.occurrence_on[reason.first_date.toordinal()], occurrence),
    )


def _swaps(layout: CalendarLayout, earlier: int, later: int) -> tuple[tuple[int, int], ...]:
    """Exchanges of two sessions that end the conflict, of the shortest distance that has any."""
    first, second = layout.order[earlier], layout.order[later]
    if first == second:
        return ()
    for distance in range(1, SWAP_REACH + 1):
        # The earlier places of all exchanges over a distance that touch one of the two sessions.
        places = sorted({first - distance, first, second - distance, second})
        found = [
            (layout.request.sessions[a].number, layout.request.sessions[a + distance].number)
            for a in places
            if 0 <= a < len(layout.hard) - distance and _relieves(layout, a, a + distance, later)
        ]
        if found:
            return tuple(found)
    return ()


def _relieves(layout: CalendarLayout, a: int, b: int, later: int) -> bool:
    """Whether with sessions a and b exchanged the occurrence costs no day and fewer are lost around it.

    Both have to be in the plan. "Around it" reaches from the first occurrence that moves to the last
    that may have to wait for one that moved.
    """
    repeats = layout.request.repeats
    if (b + 1) * repeats > len(layout.steps):
        return False
    exchange = {a: b, b: a}
    session = layout.order[later]
    begin = a * repeats
    end = min((max(b, session) + 1) * repeats + layout.days.recovery_days, len(layout.steps))
    order = [exchange.get(place, place) for place in layout.order[begin:end]]
    steps = place_in_order(layout.days, layout.hard, order, layout.before(begin))
    moved = exchange.get(session, session) * repeats + later % repeats - begin
    return (
        len(steps) == end - begin
        and steps[moved].lost == 0
        and sum(step.lost for step in steps) < sum(step.lost for step in layout.steps[begin:end])
    )
