"""The scheduler against trying everything: all plans of small requests, all orders of short series.

The rules are written down a second time here, on dates and pairs, without the scheduler's code.
"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from itertools import combinations, permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.model import DateRange
from sitegen.study.schedule import (
    FinishByConflict,
    HorizonConflict,
    NoDaysConflict,
    RecoveryConflict,
    Schedule,
    ScheduleRequest,
    SessionToPlace,
    better_order,
    place,
)
from tests.draws import draws

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
FIRST = date(2026, 9, 7)

runs_of_days = st.tuples(st.integers(0, 5), st.integers(2, 4)).map(lambda run: WEEKDAYS[run[0] : sum(run)])
some_days = st.lists(st.sampled_from(WEEKDAYS), unique=True, min_size=1, max_size=4).map(tuple)
hard_muscles = st.sampled_from([("a",), ("b",), ("c",), ("a", "b"), ("b", "c"), ()])

near_dates = st.integers(0, 20).map(lambda days: FIRST + timedelta(days=days))
holidays = st.tuples(near_dates, near_dates).map(lambda ends: DateRange(first=min(ends), last=max(ends)))


@st.composite
def requests(draw: st.DrawFn, most: int = 4) -> ScheduleRequest:
    hard = draw(st.lists(hard_muscles, min_size=1, max_size=most))
    return ScheduleRequest(
        sessions=tuple(SessionToPlace(number=n, muscles=muscles) for n, muscles in enumerate(hard, 1)),
        start=draw(near_dates),
        days=draw(runs_of_days | some_days),
        repeats=draw(st.sampled_from([1, 1, 1, 2])) if len(hard) <= 2 else 1,
        per_week=draw(st.sampled_from([None, None, 1, 2, 3])),
        recovery_hours=draw(st.sampled_from([0, 24, 25, 48, 72, 100, 200])),
        deload_every=draw(st.sampled_from([None, None, 2, 3])),
        holidays=tuple(draw(st.lists(holidays, max_size=1))),
        finish_by=draw(st.none() | near_dates),
        horizon_days=draw(st.integers(0, 24)),
    )


def occurrences(wanted: ScheduleRequest) -> list[SessionToPlace]:
    return [session for session in wanted.sessions for _ in range(wanted.repeats)]


@cache
def open_dates(wanted: ScheduleRequest) -> list[date]:
    found = []
    monday = wanted.start - timedelta(days=wanted.start.weekday())
    for offset in range(wanted.horizon_days + 1):
        day = wanted.start + timedelta(days=offset)
        week = (day - monday).days // 7 + 1
        free_week = wanted.deload_every is not None and week % wanted.deload_every == 0
        holiday = any(range_.first <= day <= range_.last for range_ in wanted.holidays)
        if WEEKDAYS[day.weekday()] in wanted.days and not free_week and not holiday:
            found.append(day)
    return found


def pace(wanted: ScheduleRequest) -> int:
    return min(wanted.per_week or 7, len(wanted.days))


def keeps_the_rules(wanted: ScheduleRequest, dates: tuple[date, ...]) -> bool:
    held = list(zip(occurrences(wanted), dates, strict=True))
    rested = all(
        (later - earlier).days * 24 >= wanted.recovery_hours
        for (one, earlier), (other, later) in combinations(held, 2)
        if set(one.muscles) & set(other.muscles)
    )
    weeks = [day.isocalendar()[:2] for day in dates]
    return rested and all(weeks.count(week) <= pace(wanted) for week in weeks)


def every_plan(wanted: ScheduleRequest) -> Iterator[tuple[date, ...]]:
    """All that keep the rules; ``combinations`` gives days in order."""
    ways = combinations(open_dates(wanted), len(occurrences(wanted)))
    return (dates for dates in ways if keeps_the_rules(wanted, dates))


def days_lost(wanted: ScheduleRequest, dates: tuple[date, ...]) -> int:
    """Open days left free before the last occurrence, in weeks not full yet, beyond the spare ones."""
    lost = 0
    days = open_dates(wanted)
    for week in {day.isocalendar()[:2] for day in days}:
        in_week = [day for day in days if day.isocalendar()[:2] == week]
        spare = max(len(in_week) - pace(wanted), 0)
        used = [day for day in in_week if day in dates]
        until = used[-1] if len(used) == pace(wanted) else dates[-1]
        free = [day for day in in_week if day not in used and day < until]
        lost += max(len(free) - spare, 0)
    return lost


def dates_of(plan: Schedule) -> tuple[date, ...]:
    return tuple(p.date for p in plan.placements)


@given(requests())
@draws(100, thorough=400)
def test_a_plan_is_found_where_there_is_one_and_no_occurrence_can_be_earlier(wanted: ScheduleRequest) -> None:
    plan = place(wanted)
    ways = list(every_plan(wanted))
    assert plan.complete is bool(ways)
    if ways:
        assert dates_of(plan) == tuple(min(way[n] for way in ways) for n in range(len(ways[0])))
        assert plan.finish == min(way[-1] for way in ways)


@given(requests())
@draws(50, thorough=200)
def test_an_unfinished_plan_holds_all_that_can_be_held(wanted: ScheduleRequest) -> None:
    plan = place(wanted)
    limits = [c for c in plan.conflicts if isinstance(c, NoDaysConflict | HorizonConflict)]
    assert bool(limits) is not plan.complete
    for count, session in enumerate(occurrences(wanted), 1):
        shorter = replace(wanted, sessions=tuple(occurrences(wanted)[:count]), repeats=1)
        assert any(True for _ in every_plan(shorter)) is (count <= len(plan.placements)), session


@given(requests())
@draws(75, thorough=300)
def test_the_pace_is_reported_as_lost_just_where_no_plan_keeps_it(wanted: ScheduleRequest) -> None:
    plan = place(wanted)
    lost = sum(c.lost_days for c in plan.conflicts if isinstance(c, RecoveryConflict))
    if plan.complete:
        assert lost == days_lost(wanted, dates_of(plan))
        assert (lost == 0) is any(days_lost(wanted, way) == 0 for way in every_plan(wanted))


@given(requests())
@draws(50, thorough=200)
def test_the_pair_that_is_blamed_is_reason_enough(wanted: ScheduleRequest) -> None:
    plan = place(wanted)
    muscles = {session.number: set(session.muscles) for session in wanted.sessions}
    for conflict in plan.conflicts:
        if isinstance(conflict, RecoveryConflict):
            assert conflict.wanted in open_dates(wanted)
            assert conflict.gap_hours == (conflict.wanted - conflict.first_date).days * 24
            assert 0 < conflict.gap_hours < conflict.needed_hours == wanted.recovery_hours
            assert set(conflict.muscles) == muscles[conflict.first] & muscles[conflict.second]


@given(requests())
@draws(50, thorough=200)
def test_every_weekday_that_is_proposed_ends_the_conflict(wanted: ScheduleRequest) -> None:
    plan = place(wanted)
    for conflict in plan.conflicts:
        if isinstance(conflict, RecoveryConflict):
            helping = [
                day for day in WEEKDAYS if day not in wanted.days and not _costs(_with(wanted, day), conflict)
            ]
            assert list(conflict.allow_days) == helping


def _with(wanted: ScheduleRequest, day: str) -> ScheduleRequest:
    return replace(wanted, days=(*wanted.days, day), per_week=pace(wanted))


def _costs(wanted: ScheduleRequest, conflict: RecoveryConflict) -> bool:
    """Whether that occurrence loses a day under the request."""
    return (conflict.second, conflict.second_repeat) in {
        (c.second, c.second_repeat) for c in place(wanted).conflicts if isinstance(c, RecoveryConflict)
    }


@given(requests(most=7))
@draws(50, thorough=200)
def test_every_exchange_that_is_proposed_ends_the_conflict(wanted: ScheduleRequest) -> None:
    wanted = replace(wanted, horizon_days=200)
    for conflict in place(wanted).conflicts:
        if isinstance(conflict, RecoveryConflict):
            for one, other in conflict.swaps:
                exchange = {one: other, other: one}
                order = [exchange.get(s.number, s.number) for s in wanted.sessions]
                sessions = tuple(wanted.sessions[number - 1] for number in order)
                assert not _costs(replace(wanted, sessions=sessions), conflict)


@given(requests())
@draws(75, thorough=300)
def test_the_wished_end_is_missed_just_where_every_plan_misses_it(wanted: ScheduleRequest) -> None:
    late = [c for c in place(wanted).conflicts if isinstance(c, FinishByConflict)]
    if wanted.finish_by is None or not open_dates(wanted):
        assert late == []
    else:
        assert bool(late) is not _in_time(wanted)


@given(requests())
@draws(37, thorough=150)
def test_each_way_to_the_wished_end_is_enough_and_none_is_missed(wanted: ScheduleRequest) -> None:
    for conflict in place(wanted).conflicts:
        if isinstance(conflict, FinishByConflict):
            freed = {
                "recovery": replace(wanted, recovery_hours=0),
                "deload": replace(wanted, deload_every=None),
                "holiday": replace(wanted, holidays=()),
            }
            assert conflict.without == tuple(rule for rule, freer in freed.items() if _in_time(freer))
            fewer = [n for n in range(1, wanted.repeats) if _in_time(replace(wanted, repeats=n))]
            assert conflict.repeats == max(fewer, default=None)
            more = [
                replace(_with(wanted, d), per_week=pace(wanted) + 1) for d in WEEKDAYS if d not in wanted.days
            ]
            assert list(conflict.train_days) == [r.days[-1] for r in more if _in_time(r)]
            if conflict.start is not None:
                assert _in_time(replace(wanted, start=conflict.start))


def _in_time(wanted: ScheduleRequest) -> bool:
    return any(wanted.finish_by is None or way[-1] <= wanted.finish_by for way in every_plan(wanted))


@st.composite
def short_series(draw: st.DrawFn) -> ScheduleRequest:
    hard = draw(st.lists(hard_muscles, min_size=3, max_size=5))
    return ScheduleRequest(
        sessions=tuple(SessionToPlace(number=n, muscles=muscles) for n, muscles in enumerate(hard, 1)),
        start=FIRST,
        days=draw(st.sampled_from([WEEKDAYS[:2], WEEKDAYS[:3], (*WEEKDAYS[:2], WEEKDAYS[3])])),
        repeats=draw(st.sampled_from([1, 1, 2])),
        per_week=draw(st.sampled_from([None, None, 2])),
        recovery_hours=draw(st.sampled_from([48, 72])),
        horizon_days=120,
    )


def every_order(count: int) -> Iterator[tuple[int, ...]]:
    """All orders in which each session is at most three places after the first that is to come."""
    for order in permutations(range(1, count + 1)):
        to_come = [min(order[place:]) for place in range(count)]
        if all(number - first <= 3 for number, first in zip(order, to_come, strict=True)):
            yield order


def cost_of(wanted: ScheduleRequest, order: tuple[int, ...]) -> tuple[int, int, tuple[int, ...]]:
    """Days lost, exchanges of neighbours, and the order itself to settle ties."""
    sessions = tuple(wanted.sessions[number - 1] for number in order)
    plan = place(replace(wanted, sessions=sessions, keep_pace=False))
    turned = sum(later < earlier for earlier, later in combinations(order, 2))
    return days_lost(wanted, dates_of(plan)), turned, order


FAR_OR_CLOSE = [
    ("bc c b - a", 3, 2, 72, (4, 1, 5, 2, 3)),
    ("ab bc a a", 3, 1, 48, (3, 2, 4, 1)),
    ("a c ab ab b", 2, 2, 48, (1, 5, 2, 3, 4)),
    ("c bc - b b", 3, 1, 72, (2, 1, 3, 4, 5)),
    ("- b ab - a", 2, 2, 48, (2, 1, 3, 4, 5)),
]
"""Muscles of each session, training days from Monday, repeats, recovery hours, best order: cases in
which a session moves three places, or in which a close order is as good as a far one."""


@pytest.mark.parametrize(("hard", "days", "repeats", "hours", "order"), FAR_OR_CLOSE)
def test_a_session_moves_as_far_as_it_must_and_no_further(
    hard: str, days: int, repeats: int, hours: int, order: tuple[int, ...]
) -> None:
    wanted = ScheduleRequest(
        sessions=tuple(
            SessionToPlace(number=n, muscles=tuple(letters.strip("-")))
            for n, letters in enumerate(hard.split(), 1)
        ),
        start=FIRST,
        days=WEEKDAYS[:days],
        repeats=repeats,
        recovery_hours=hours,
        horizon_days=120,
    )
    assert min(cost_of(wanted, any_order) for any_order in every_order(len(order)))[2] == order
    proposal = better_order(wanted)
    assert proposal is not None
    assert proposal.order == order


@given(short_series())
@draws(30, thorough=120)
def test_the_order_that_is_proposed_is_the_best_of_all(wanted: ScheduleRequest) -> None:
    given_order = tuple(range(1, len(wanted.sessions) + 1))
    best = min(cost_of(wanted, order) for order in every_order(len(given_order)))
    proposal = better_order(wanted)
    if proposal is None:
        assert best == (cost_of(wanted, given_order)[0], 0, given_order)
    else:
        assert (proposal.lost_days, len(proposal.moved), proposal.order) == best
        assert proposal.exact
