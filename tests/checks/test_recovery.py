"""Warnings about recovery and the calendar."""

from pathlib import Path

import pytest

from sitegen.cli import main
from tests.sessions import SessionFolder

ROW = "backpack-row, dose: 8, effort: 2 in reserve"


def series_with(tmp_path: Path, schedule: str) -> SessionFolder:
    return SessionFolder(tmp_path, schedule=schedule)


def three_days_in_a_row(tmp_path: Path) -> SessionFolder:
    return series_with(tmp_path, "schedule: {start: 2027-01-04, days: [monday, tuesday, wednesday]}\n")


def calendar_of(series: SessionFolder) -> str:
    return f"series.yaml:{series.line('series.yaml', 'schedule:')}"


def test_two_hard_sessions_a_day_apart_with_what_would_help(tmp_path: Path) -> None:
    series = three_days_in_a_row(tmp_path)
    for number in (1, 2):
        series.session(number, ROW)
    series.session(3, "jumping-jack, dose: 30 s", kind="conditioning")

    assert series.said("recovery") == [
        "episodes/02-session-2.yaml:4:3: episode 1 and episode 2 both train lats and upper back "
        "hard, and Monday to "
        "Tuesday leaves 24 h of the 48 h to recover, so episode 2 moves to Wed 6 Jan 2027"
    ]
    assert series.advice("recovery") == ["allow Thursday, Friday, Saturday or Sunday, or swap 2 and 3"]


def test_a_recovery_of_its_own(tmp_path: Path) -> None:
    schedule = "schedule: {start: 2027-01-04, days: [monday, tuesday, wednesday], recovery: 24 h}\n"
    series = series_with(tmp_path, schedule)
    for number in (1, 2, 3):
        series.session(number, ROW)

    assert series.said("recovery") == []


def test_a_pace_that_may_fall_is_no_conflict(tmp_path: Path) -> None:
    schedule = "schedule: {start: 2027-01-04, days: [monday, tuesday, wednesday], keep_pace: no}\n"
    series = series_with(tmp_path, schedule)
    for number in (1, 2, 3):
        series.session(number, ROW)

    assert series.said("recovery") == []


def test_an_end_that_cannot_be_kept(tmp_path: Path) -> None:
    schedule = "schedule: {start: 2027-01-04, days: [monday, thursday], finish_by: 2027-01-10}\n"
    series = series_with(tmp_path, schedule)
    for number in (1, 2, 3):
        series.session(number, ROW)

    assert series.said("calendar") == [
        f"{calendar_of(series)}:11: 2 of 3 sessions fit before Sun 10 Jan 2027; the earliest end is "
        "Mon 11 Jan 2027"
    ]
    assert series.advice("calendar") == ["start on Thu 31 Dec 2026, or train on Saturday or Sunday too"]


def test_holidays_that_leave_no_day(tmp_path: Path) -> None:
    schedule = "schedule: {start: 2027-01-04, days: [monday], holidays: [2027-01-01 to 2031-01-01]}\n"
    series = series_with(tmp_path, schedule)
    series.session(1, ROW)

    assert series.said("calendar") == [
        f"{calendar_of(series)}:11: no training day is left: holidays take them all"
    ]


def test_planned_before_it_is_out(tmp_path: Path) -> None:
    series = series_with(tmp_path, "schedule: {start: 2027-01-04, days: [monday]}\n")
    series.session(1, ROW, head="released: 2027-01-04")
    series.session(2, ROW, head="released: 2027-01-12")

    assert series.said("released-late") == [
        "episodes/02-session-2.yaml:3:11: it comes out on Tue 12 Jan 2027, but the calendar has it "
        "on Mon 11 Jan 2027"
    ]
    assert series.advice("released-late") == [
        "add 2027-01-11 to holidays: under schedule: in series.yaml, so that the calendar waits for it, "
        "or release it earlier"
    ]


@pytest.mark.parametrize(
    ("released", "advice", "old", "new"),
    [
        (
            ["2027-01-04", "2027-01-25", "2027-02-01"],
            "add 2027-01-11 to 2027-01-24 to holidays: under schedule: in series.yaml",
            "days: [monday]",
            "days: [monday], holidays: [2027-01-11 to 2027-01-24]",
        ),
        (
            ["2027-02-01", "2027-02-08", "2027-02-15"],
            "write start: 2027-02-01 under schedule: in series.yaml",
            "start: 2027-01-04",
            "start: 2027-02-01",
        ),
    ],
    ids=["a pause", "a late start"],
)
def test_what_lets_the_calendar_wait_does_so_for_all(
    tmp_path: Path, released: list[str], advice: str, old: str, new: str
) -> None:
    series = series_with(tmp_path, "schedule: {start: 2027-01-04, days: [monday]}\n")
    for number, day in enumerate(released, start=1):
        series.session(number, ROW, head=f"released: {day}")

    assert {one.partition(",")[0] for one in series.advice("released-late")} == {advice.partition(",")[0]}
    series.edit("series.yaml", old, new)
    assert series.said("released-late") == []


def test_without_a_calendar_release_days_count(tmp_path: Path) -> None:
    series = series_with(tmp_path, "")
    series.session(1, ROW, head="released: 2027-01-04")
    series.session(2, ROW, head="released: 2027-01-05")
    series.session(3, ROW, head="released: 2027-01-07")

    assert series.said("recovery") == [
        "episodes/02-session-2.yaml:3:11: episode 1 comes out 24 h before this one, and both train "
        "lats and upper back "
        "hard, which wants 48 h to recover"
    ]


@pytest.mark.parametrize("change", ["sets: 3\n", "sets: 4\n"], ids=["as published", "longer by a set"])
def test_a_calendar_that_is_not_as_published(tmp_path: Path, change: str) -> None:
    series = series_with(tmp_path, "schedule: {start: 2027-01-04, days: [monday]}\n")
    file = series.session(1, ROW)
    main(["calendar", "--content", str(series.root)])
    series.edit("series.yaml", "2027-01-04", "2027-01-11" if change != "sets: 3\n" else "2027-01-04")
    series.edit(file, "sets: 3\n", change)

    expected = ["calendar.yaml:3:1: one calendar entry is not as it was last published"]
    assert series.said("calendar-changed") == (expected if change != "sets: 3\n" else [])
