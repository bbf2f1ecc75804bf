"""What the next session has room for: the limits of its week, what is still tired, what each need kept."""

from pathlib import Path

import pytest

from sitegen.model import Series
from sitegen.reading.reader import read_series
from sitegen.study.week_room import MuscleRoom, WeekRoom, room
from tests.sessions import STARTER_SCHEDULE, SessionFolder

ROW = "backpack-row, dose: 8 each side, effort: 2 in reserve"
"""Prime: upper back and lats; assisting: biceps."""
DAILY = "schedule: {start: 2027-01-04, days: [monday, tuesday, thursday]}\n"
BOUNDS = "bounds: {sets_per_week: 4-10, muscles: {calves: 2-6}, push_per_pull: 1.5}\n"


def muscle(found: WeekRoom, name: str) -> MuscleRoom:
    return next(one for one in found.muscles if one.muscle == name)


@pytest.fixture
def series(tmp_path: Path) -> SessionFolder:
    """Two sessions a week; the first week is full."""
    folder = SessionFolder(tmp_path, more=BOUNDS)
    folder.session(1, ROW)
    folder.session(2, ROW)
    return folder


def test_a_new_week_has_all_of_its_room(series: SessionFolder) -> None:
    found = room(read_series(series.root))
    lats = muscle(found, "lats")

    assert (found.number, str(found.day), found.week, found.sessions, found.left) == (
        3,
        "2027-01-11",
        2,
        (),
        2,
    )
    assert (lats.done.high, lats.usual, lats.lacks, lats.may) == (0, 6, 4, 10)


def test_a_week_that_has_begun_has_what_is_left(series: SessionFolder) -> None:
    series.session(3, ROW)
    found = room(read_series(series.root))

    assert (found.sessions, found.left) == ((3,), 1)
    assert [(m.lacks, m.may) for m in (muscle(found, n) for n in ("lats", "biceps"))] == [
        (1, 7),
        (0.0, 8.5),  # only ever assists, so that the lower limit does not hold
    ]


def test_a_muscle_with_a_limit_of_its_own_is_needed_though_nothing_trains_it(series: SessionFolder) -> None:
    calves = muscle(room(read_series(series.root)), "calves")
    assert (calves.lacks, calves.may, calves.usual) == (2, 6, 0)


def test_without_limits_nothing_is_lacking(tmp_path: Path) -> None:
    folder = SessionFolder(tmp_path)
    folder.session(1, ROW)
    lats = muscle(room(read_series(folder.root)), "lats")
    assert (lats.lacks, lats.may) == (0, None)


def test_push_room_is_what_the_pull_allows(series: SessionFolder) -> None:
    series.session(3, ROW)
    assert room(read_series(series.root)).push_room == 4.5


@pytest.mark.parametrize(
    ("hours", "tired"),
    [("48 h", (1,)), ("24 h", ())],
)
def test_a_muscle_recovers_from_the_day_before(tmp_path: Path, hours: str, tired: tuple[int, ...]) -> None:
    folder = SessionFolder(tmp_path, schedule=DAILY.replace("}", f", recovery: {hours}}}"))
    folder.session(1, ROW)
    found = room(read_series(folder.root))
    assert str(found.day) == "2027-01-05"
    assert muscle(found, "lats").tired_from == tired
    assert muscle(found, "biceps").tired_from == ()


def test_a_week_off_is_told(tmp_path: Path) -> None:
    folder = SessionFolder(tmp_path, schedule=STARTER_SCHEDULE.rstrip() + "\n  deload_every: 2\n")
    folder.session(1, ROW)
    assert not room(read_series(folder.root)).after_week_off
    folder.session(2, ROW)
    found = room(read_series(folder.root))
    assert (str(found.day), found.week, found.after_week_off) == ("2027-01-18", 3, True)


def test_a_series_without_a_calendar_goes_by_its_usual_week(tmp_path: Path) -> None:
    folder = SessionFolder(tmp_path, schedule="")
    for number, day in enumerate(("2027-01-04", "2027-01-06", "2027-01-11"), start=1):
        folder.session(number, ROW, head=f"released: {day}")
    found = room(read_series(folder.root))
    assert (found.day, found.week, found.sessions, found.left) == (None, 2, (3,), 1)


def test_a_series_without_sessions_has_room_too(tmp_path: Path) -> None:
    found = room(read_series(SessionFolder(tmp_path).root))
    assert (found.number, str(found.day), found.sessions, found.kept_in) == (1, "2027-01-04", (), ())


def test_what_each_need_keeps_in_the_demo(demo_series: Series) -> None:
    """Seated, the squats and lunges of the last week are done without their loads; nothing moves the legs of
    somebody who does not use them; who only avoids jumping keeps every strength set."""
    found = room(demo_series)
    assert found.kept_in == (10, 11, 12)
    seated, wheelchair, jumping = (found.kept[need] for need in ("seated", "wheelchair", "no-jumping"))
    assert seated["quadriceps"].filmed_loaded
    assert not seated["quadriceps"].loaded
    assert seated["quadriceps"].sets.high > 0
    assert wheelchair["quadriceps"].sets.high == 0
    assert all(one.sets == one.filmed for one in jumping.values())
