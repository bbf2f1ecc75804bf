"""Which muscles a session trains hard, and sessions too near to each other."""

from datetime import UTC, datetime, timedelta, timezone
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sitegen.study.recovery import ShortRecovery, TimedSession, hard_muscles, short_recoveries
from sitegen.vocabulary import STRAIGHT
from tests.study.series_parts import block, details, episode, exercise, forms, item

SERIES = details()
LIBRARY = forms(
    exercise("squat", pattern="squat", prime=["quadriceps"], assist=["glutes"]),
    exercise("lunge", pattern="lunge", prime=["quadriceps", "glutes"]),
)


@pytest.mark.parametrize(
    ("done", "hard"),
    [
        (block(STRAIGHT, "squat 8", sets="2"), {"quadriceps"}),
        (block(STRAIGHT, "squat 8", sets="1"), set()),
        (block(STRAIGHT, "squat 8", "lunge 8", sets="1"), {"quadriceps"}),
        (block(STRAIGHT, "squat 8", sets="1-2"), {"quadriceps"}),
        (block(STRAIGHT, "squat 8", sets="5", kind="conditioning"), set()),
        (block(STRAIGHT, "squat 8", sets="5", kind="warm-up"), set()),
        (block(STRAIGHT, item("squat 8", effort="RPE 6"), sets="3"), set()),
        (block(STRAIGHT, item("squat 8", effort="RPE 6-7"), sets="3"), {"quadriceps"}),
        (block(STRAIGHT, item("squat 8", effort="4 in reserve"), sets="3"), set()),
        (block(STRAIGHT, item("squat 8", effort="3-5 in reserve"), sets="3"), {"quadriceps"}),
        (block(STRAIGHT, item("squat 8", effort="0 in reserve"), sets="3"), {"quadriceps"}),
        (block(STRAIGHT, item("squat 8", effort="RPE 7"), sets="2", kind="conditioning"), {"quadriceps"}),
        (block(STRAIGHT, item("squat 8", effort="RPE 9"), sets="2", kind="warm-up"), set()),
        (block(STRAIGHT, "squat max, 5 in reserve", sets="2"), set()),
        (block(STRAIGHT, "squat max, 2 in reserve", sets="2", kind="conditioning"), {"quadriceps"}),
        (block(STRAIGHT, "squat max", sets="2", kind="conditioning"), {"quadriceps"}),
    ],
    ids=[
        "two sets",
        "one set",
        "one set of each of two exercises",
        "perhaps two sets",
        "conditioning without an effort",
        "warm-up",
        "easy strength",
        "the harder end of the scale decides",
        "many left in reserve",
        "the harder end of the reserve decides",
        "none left in reserve",
        "hard conditioning",
        "a warm-up is never hard",
        "max with five in reserve",
        "max with two in reserve",
        "max",
    ],
)
def test_muscles_trained_hard(done, hard):
    assert hard_muscles(SERIES, LIBRARY, episode(1, done)) == hard


def test_assisting_muscles_are_not_trained_hard():
    day = episode(1, block(STRAIGHT, "squat 8", sets="8"))

    assert "glutes" not in hard_muscles(SERIES, LIBRARY, day)


def at(text, *muscles, slug=None):
    return TimedSession(slug or text, datetime.fromisoformat(text), frozenset(muscles))


def test_conflict_names_both_sessions_the_muscles_and_the_hours():
    monday = at("2026-09-07 18:30", "quadriceps", "chest", "lats", slug="one")
    tuesday = at("2026-09-08 18:30", "quadriceps", "chest", slug="two")

    assert short_recoveries([tuesday, monday], 48) == [
        ShortRecovery(earlier="one", later="two", muscles=("chest", "quadriceps"), hours=24, needed=48)
    ]


@pytest.mark.parametrize(
    ("later", "muscle", "count"),
    [
        ("2026-09-09 18:30", "chest", 0),
        ("2026-09-09 18:29", "chest", 1),
        ("2026-09-08 18:30", "lats", 0),
        ("2026-09-07 18:30", "chest", 1),
    ],
    ids=["48 hours are enough", "a minute less is not", "another muscle", "the same moment"],
)
def test_when_two_sessions_conflict(later, muscle, count):
    assert len(short_recoveries([at("2026-09-07 18:30", "chest"), at(later, muscle)], 48)) == count


def test_a_session_between_does_not_hide_a_conflict():
    days = [
        at("2026-09-07", "chest", slug="a"),
        at("2026-09-08", "lats", slug="b"),
        at("2026-09-09", "chest", slug="c"),
    ]

    assert [(one.earlier, one.later) for one in short_recoveries(days, 72)] == [("a", "c")]


def test_hours_are_real_hours_when_the_clocks_change():
    """In Lisbon the clocks go back on 25 October 2026: from 18:30 to 18:30 are 49 hours."""
    zone = ZoneInfo("Europe/Lisbon")
    saturday = TimedSession("a", datetime(2026, 10, 24, 18, 30, tzinfo=zone), frozenset({"chest"}))
    monday = TimedSession("b", datetime(2026, 10, 26, 18, 30, tzinfo=zone), frozenset({"chest"}))

    assert [one.hours for one in short_recoveries([saturday, monday], 50)] == [49]
    assert short_recoveries([saturday, monday], 49) == []


def test_times_in_different_zones_are_compared_as_moments():
    east = timezone(timedelta(hours=2))
    first = TimedSession("a", datetime(2026, 9, 7, 12, tzinfo=east), frozenset({"chest"}))
    second = TimedSession("b", datetime(2026, 9, 7, 12, tzinfo=UTC), frozenset({"chest"}))

    assert [one.hours for one in short_recoveries([first, second], 48)] == [2]


sessions = st.lists(
    st.builds(
        lambda number, hour, muscles: TimedSession(
            f"s{number}", datetime(2026, 9, 7) + timedelta(hours=hour), frozenset(muscles)
        ),
        st.integers(0, 999),
        st.integers(0, 200),
        st.sets(st.sampled_from(["chest", "lats", "glutes"])),
    ),
    max_size=8,
)


@settings(deadline=None)
@given(sessions, st.integers(0, 96))
def test_agrees_with_comparing_every_pair(plan, needed):
    ordered = sorted(plan, key=lambda session: session.start)
    pairs = [(a, b) for index, a in enumerate(ordered) for b in ordered[index + 1 :]]
    near = [
        (a.slug, b.slug)
        for a, b in pairs
        if a.hard & b.hard and (b.start - a.start) < timedelta(hours=needed)
    ]

    assert [(one.earlier, one.later) for one in short_recoveries(plan, needed)] == near
