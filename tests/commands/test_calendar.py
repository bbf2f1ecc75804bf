"""`sitegen calendar`: the counts of published entries, kept with the content."""

from pathlib import Path

import pytest

from sitegen.cli import main
from sitegen.reading.reader import read_series
from tests.sessions import SessionFolder

ROW = "backpack-row, dose: 8"


@pytest.fixture
def series(tmp_path: Path) -> SessionFolder:
    folder = SessionFolder(tmp_path)
    for number in (1, 2):
        folder.session(number, ROW)
    return folder


def note(series: SessionFolder) -> int:
    return main(["calendar", "--content", str(series.root)])


def counts(series: SessionFolder) -> dict[str, int]:
    return {key: one.sequence for key, one in read_series(series.root).calendar.items()}


def test_first_noted_nothing_has_changed_yet(series: SessionFolder) -> None:
    assert note(series) == 0
    assert counts(series) == {"session-1-1": 0, "session-2-1": 0}


def test_noted_again_the_file_stays_as_it_is(
    series: SessionFolder, capsys: pytest.CaptureFixture[str]
) -> None:
    note(series)
    before = (series.root / "calendar.yaml").stat()
    note(series)

    assert (series.root / "calendar.yaml").stat().st_ino == before.st_ino
    assert "2 entries, 0 of them new or changed" in capsys.readouterr().out


def test_only_what_changed_is_counted(series: SessionFolder) -> None:
    note(series)
    series.edit("series.yaml", "days: [monday, thursday]", "days: [monday, friday]")
    note(series)
    series.session(3, ROW)
    note(series)

    assert counts(series) == {"session-1-1": 0, "session-2-1": 1, "session-3-1": 0}


def test_a_series_without_a_calendar(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    series = SessionFolder(tmp_path, schedule="")

    assert note(series) == 1
    assert "give series.yaml a schedule" in capsys.readouterr().err
    assert not (series.root / "calendar.yaml").exists()


@pytest.mark.parametrize(
    "line",
    ["session-1-1: 0", "session-1-1: 0 xyz", "session-1-1: -1 93b1c0de5f27", "Session 1: 0 93b1c0de5f27"],
)
def test_a_damaged_file_is_a_problem_with_its_line(series: SessionFolder, line: str) -> None:
    series.write("calendar.yaml", f"# kept\n{line}\n")

    (problem,) = series.problems()
    assert (problem.file, problem.line) == ("calendar.yaml", 2)
