"""What commands say of a plan they write: no warm-up or cool-down, a calendar that is ahead of it."""

import re
from datetime import date, timedelta
from pathlib import Path

import pytest

from sitegen.cli import main
from tests.checks.library_folder import LibraryFolder
from tests.sessions import STARTER_SCHEDULE

LACKS = (
    "it has no {0}: the series has none to take; write one as a shared block, "
    "routines/my-{0}.yaml with kind: {0}"
)


@pytest.mark.parametrize(
    ("warm_up", "lacks"),
    [
        ("warm-up", ["cool-down"]),
        ("mobility", ["warm-up"]),
        ("cool-down", ["warm-up"]),
        ("strength", ["warm-up", "cool-down"]),
    ],
)
def test_a_small_library_lacks_warm_up_or_cool_down(
    tmp_path: Path, warm_up: str, lacks: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    library = LibraryFolder(tmp_path)
    library.edit("routines/short-warm-up.yaml", "kind: warm-up", f"kind: {warm_up}")
    content = ["--content", str(library.root)]
    for command in (["propose", "--count", "1"], ["plan", "1"]):
        assert main([*command, *content]) == 0
        told = [line.strip() for line in capsys.readouterr().out.splitlines() if "it has no" in line]
        assert {*told} == {LACKS.format(kind) for kind in lacks}


@pytest.mark.parametrize(
    "command", [["episode", "More"], ["plan", "1"], ["propose", "--count", "1", "--write"]]
)
def test_how_the_calendar_waits_is_said_and_helps(
    tmp_path: Path, command: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    """A series that began four weeks ago with one session has its second in the past."""
    library = LibraryFolder(tmp_path)
    start = date.today() - timedelta(weeks=4)
    schedule = f"schedule:\n  start: {start}\n  days: [monday, thursday]\n"
    library.edit("series.yaml", STARTER_SCHEDULE, schedule)
    assert main([*command, "--content", str(library.root)]) == 0
    said = re.search(r"add (\S+ to \S+) to holidays: under schedule: in series.yaml", capsys.readouterr().out)

    assert said is not None
    assert library.warnings("released-late") != []
    library.edit("series.yaml", schedule, f"{schedule}  holidays: [{said[1]}]\n")
    assert library.warnings("released-late") == []
