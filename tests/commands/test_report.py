"""`sitegen report`: the numbers behind a series in the terminal and as JSON."""

import json
from pathlib import Path
from typing import Any

import pytest

from sitegen.cli import main
from sitegen.report.table import table
from tests.four_weeks import four_weeks
from tests.sessions import SessionFolder

ROW = "backpack-row, dose: 8 each side, effort: 2 in reserve"


def report(capsys: pytest.CaptureFixture[str], content: Path, *words: str) -> str:
    assert main(["report", "--content", str(content), *words]) == 0
    return capsys.readouterr().out


def data(capsys: pytest.CaptureFixture[str], content: Path) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(report(capsys, content, "--json"))
    return found


@pytest.fixture
def series(tmp_path: Path) -> SessionFolder:
    """Monday and Thursday from 4 January 2027: two sessions in week 1, one in week 2."""
    folder = SessionFolder(tmp_path)
    folder.session(1, ROW, "chair-squat, dose: 10")
    folder.session(2, ROW, sets="2-3")
    folder.session(3, "jumping-jack, dose: 60 s", sets="4", kind="conditioning")
    return folder


def test_weeks_by_muscle(capsys: pytest.CaptureFixture[str], series: SessionFolder) -> None:
    lines = report(capsys, series.root).splitlines()
    start = lines.index("Strength sets of each muscle by week (+ rounds of conditioning)")

    assert lines[start + 1 : start + 6] == [
        "               week 1  week 2  bounds",
        "side shoulder  -       0 + 2",
        "upper back     5-6     -",
        "lats           5-6     -",
        "biceps         2.5-3   -",
    ]


def test_the_same_as_json(capsys: pytest.CaptureFixture[str], series: SessionFolder) -> None:
    found = data(capsys, series.root)

    assert [week["monday"] for week in found["weeks"]] == ["2027-01-04", "2027-01-11"]
    assert [week["iso_week"] for week in found["weeks"]] == [[2027, 1], [2027, 2]]
    assert [week["sessions"] for week in found["weeks"]] == [[1, 2], [3]]
    assert found["weeks"][0]["strength_sets"]["lats"] == [5.0, 6.0]
    assert found["weeks"][0]["balance"]["pull"] == [5.0, 6.0]
    assert found["weeks"][1]["strength_sets"] == {}
    assert found["weeks"][1]["minutes"]["vigorous"] == [4.0, 4.0]
    assert found["weeks"][1]["guideline_minutes"] == [8.0, 8.0]


def test_times_of_each_episode(capsys: pytest.CaptureFixture[str], series: SessionFolder) -> None:
    """Squats 3 x 10 x 3 s; rows 3 x 2 x 8 x 3 s, 10 s to change sides; four rests of 60 s, one of 10 s."""
    found = data(capsys, series.root)

    assert found["episodes"][0]["your_turn_seconds"] == [90 + 144 + 30 + 240 + 10] * 2
    assert found["episodes"][0]["seconds"] is None  # nobody knows the video's length
    assert found["episodes"][0]["hard"] == ["glutes", "lats", "quadriceps", "upper back"]


def test_conflicts_and_a_better_order(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    days = "schedule: {start: 2027-01-04, days: [monday, tuesday, wednesday]}\n"
    series = SessionFolder(tmp_path, schedule=days)
    series.session(1, ROW)
    series.session(2, ROW)
    series.session(3, "jumping-jack, dose: 30 s", kind="conditioning")
    text = report(capsys, series.root)

    assert "- episode 1 and episode 2 both train lats and upper back hard" in text
    assert "or swap 2 and 3" in text
    assert "Another order: the order 1, 3, 2 would lose 1 training day less to recovery" in text


def test_a_series_without_days_says_so(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    series = SessionFolder(tmp_path, schedule="")
    series.session(1, ROW)
    text = report(capsys, series.root)

    assert "No weeks: the series has no schedule and the episodes no release dates." in text
    assert "Calendar: none" in text


def test_bad_content_is_reported_not_counted(
    capsys: pytest.CaptureFixture[str], series: SessionFolder
) -> None:
    series.session(4, "no-such-exercise, dose: 8")

    assert main(["report", "--content", str(series.root)]) == 1
    assert "no-such-exercise" in capsys.readouterr().out


def test_the_demo_has_a_row_for_every_episode(capsys: pytest.CaptureFixture[str]) -> None:
    text = report(capsys, four_weeks())

    assert [f"\n{number} " in text for number in range(1, 13)] == [True] * 12
    assert "No conflicts: every muscle trained hard has its time to recover." in text


WIDE = (("", "week 1", "week 2", "week 3", "limit"), [("lats", "1", "2", "3", "4-9")])


def test_a_table_that_fits() -> None:
    head, rows = WIDE
    assert list(table(head, rows, 80, keep=1)) == [
        "      week 1  week 2  week 3  limit",
        "lats  1       2       3       4-9",
    ]


def test_columns_that_do_not_fit_go_below_with_the_first_and_the_last() -> None:
    head, rows = WIDE
    assert list(table(head, rows, 30, keep=1)) == [
        "      week 1  week 2  limit",
        "lats  1       2       4-9",
        "",
        "      week 3  limit",
        "lats  3       4-9",
    ]


def test_a_long_last_column_is_wrapped() -> None:
    rows = [("one", "many words that go on for longer than there is room")]
    assert list(table(("", "what"), rows, 32)) == [
        "     what",
        "one  many words that go on for",
        "     longer than there is room",
    ]


def test_the_room_of_the_next_session(capsys: pytest.CaptureFixture[str]) -> None:
    text = report(capsys, four_weeks())
    start = text.index(
        "Room of the next session, episode 13 (Mon 12 Oct 2026, week 6, 3 sessions to come in it"
    )

    assert "after a week off)" in text[start:]
    assert "\nglutes          0            8            24        15.6\n" in text[start:]
    assert "push to pull: 1.5 to 1 at most, so a pull has to come before or with the next push" in text
    assert "the load for biceps, chest" in text[start:]
    assert "loaded where they were loaded: No jumping" in text

    room = data(capsys, four_weeks())["room"]
    assert (room["episode"], room["day"], room["after_week_off"]) == (13, "2026-10-12", True)
    assert room["muscles"]["glutes"] == {
        "done": [0, 0],
        "lacks": 8,
        "may": 24,
        "usual": 15.62,
        "recovering_from": [],
    }
    assert room["kept"]["wheelchair"]["quadriceps"]["sets"] == [0, 0]
