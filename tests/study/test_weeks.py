"""Weeks of a series by calendar and by release, worked by hand."""

from datetime import date

import pytest

from sitegen.study.schedule import ScheduleRequest, SessionToPlace
from sitegen.study.weeks import Week, monday_of, planned_days, session_weeks, usual_count, weeks_of
from tests.study.series_parts import block, episode

MONDAY = date(2026, 9, 7)


def days(*days_and_sessions):
    return [(date.fromisoformat(day), session) for day, session in days_and_sessions]


def test_weeks_run_from_monday_to_sunday():
    weeks = weeks_of(days(("2026-09-07", 1), ("2026-09-13", 2), ("2026-09-14", 3)))

    assert [(week.number, week.sessions) for week in weeks] == [(1, (1, 2)), (2, (3,))]
    assert [week.monday for week in weeks] == [MONDAY, date(2026, 9, 14)]


def test_a_week_without_a_session_keeps_its_number_free():
    weeks = weeks_of(days(("2026-09-09", 1), ("2026-09-30", 2)))

    assert [week.number for week in weeks] == [1, 4]


def test_sessions_of_a_week_are_in_order_of_their_days():
    weeks = weeks_of(days(("2026-09-11", 1), ("2026-09-07", 2)))

    assert weeks[0].sessions == (2, 1)


def test_a_session_held_twice_is_there_twice():
    request = ScheduleRequest(
        sessions=(SessionToPlace(number=1), SessionToPlace(number=2)),
        start=MONDAY,
        days=("monday", "thursday"),
        repeats=2,
    )

    assert [(week.number, week.sessions) for week in session_weeks([], request)] == [(1, (1, 1)), (2, (2, 2))]
    assert list(planned_days(request))[1] == (1, 2, date(2026, 9, 10))


def test_without_a_calendar_release_dates_count_and_undated_episodes_do_not():
    episodes = [
        episode(1, block("straight sets"), released=date(2026, 9, 8)),
        episode(2, block("straight sets")),
        episode(3, block("straight sets"), released=date(2026, 9, 15)),
    ]

    assert [(week.number, week.sessions) for week in session_weeks(episodes, None)] == [(1, (1,)), (2, (3,))]


@pytest.mark.parametrize(
    ("counts", "usual"),
    [((), 0), ((3, 3, 2), 3), ((2, 3), 3), ((1, 1, 3, 3), 3), ((4, 2, 2), 2)],
    ids=["none", "most weeks", "a draw is the larger", "a draw of two each", "a long first week"],
)
def test_the_usual_number_of_sessions(counts, usual):
    weeks = [Week(number=n, monday=MONDAY, sessions=tuple(range(count))) for n, count in enumerate(counts, 1)]

    assert usual_count(weeks) == usual


def test_monday_of_a_sunday_is_six_days_before():
    assert monday_of(date(2026, 9, 13)) == MONDAY
