"""``sitegen filming``: the shot list of a session, as a page and as a PDF file."""

from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from sitegen.cli import main
from tests.folders import SeriesFolder

PLAN = """\
title: Second go
number: 2
blocks:
  - routine: short-warm-up
  - name: First pair
    kind: strength
    format: superset
    sets: 3
    rest: {between_exercises: 20 s, between_sets: 60-90 s}
    items:
      - {exercise: chair-squat, dose: 8-12, tempo: 3-0-x-1, effort: 2 in reserve}
      - {exercise: backpack-row, load: 5 kg, dose: 8 each side}
  - name: Once more
    kind: conditioning
    format: intervals
    work: 20 s
    rounds: 4
    rest: {between_exercises: 10 s}
    items:
      - {exercise: chair-squat}
"""


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> BeautifulSoup:
    series = SeriesFolder(tmp_path_factory.mktemp("series"))
    series.write("episodes/02-second-go.yaml", PLAN)
    assert main(["filming", "2", "--content", str(series.root)]) == 0
    folder = series.root.parent / "filming"
    assert sorted(path.name for path in folder.iterdir()) == ["02-second-go.html", "02-second-go.pdf"]
    assert (folder / "02-second-go.pdf").read_bytes().startswith(b"%PDF-")
    return BeautifulSoup((folder / "02-second-go.html").read_text(), "html.parser")


def _shot(page: BeautifulSoup, name: str) -> str:
    [shot] = [one for one in page.select(".shot") if f"{name} in “" in one.h3.get_text()]
    return " ".join(shot.get_text(" ").split())


def test_a_shot_says_what_is_to_be_said_and_shown(page: BeautifulSoup) -> None:
    squat = _shot(page, "Chair squat")
    assert "“Chair squat, 8–12 reps, effort 8 of 10, 3 seconds down, up fast, hold 1”" in squat
    assert "Again as 4, in “Once more”: say “Chair squat, 20 s”" in squat
    assert "Knees fall inwards; mend it: Press them gently out over the toes" in squat
    assert "Seated knee press for Seated" in squat
    assert squat.count("Take") == 3
    assert "5 kg" in _shot(page, "Backpack row")


def test_every_form_is_filmed_once(page: BeautifulSoup) -> None:
    numbers = [int(one.get_text()) for one in page.select(".shot .number")]
    assert sorted(numbers) == [1, 2, 3]


def test_parts_are_handed_over_or_done_together(page: BeautifulSoup) -> None:
    said = [" ".join(part.get_text(" ").split()) for part in page.select(".parts li")]
    assert said == [
        "“Warm-up: Circuit, 1 round. We do this one together.” shots 1",
        "“First pair: Superset, 3 sets, rest 20 s between exercises, 60–90 s between sets. "
        "Pause the video here and do your sets.” shots 2–3",
        "“Once more: Intervals, 4 rounds, 20 s work, rest 10 s between exercises. "
        "We do this one together.” shots 4",
    ]
    assert "--plan content/episodes/02-second-go.yaml" in page.get_text()


def test_a_session_that_is_not_there_or_empty(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    series = SeriesFolder(tmp_path)
    series.write("episodes/02-second-go.yaml", "title: Second go\nnumber: 2\nblocks:\n")
    assert main(["filming", "7", "--content", str(series.root)]) == 2
    assert "there is no session 7\n    write its plan first: sitegen episode" in capsys.readouterr().err
    assert main(["filming", "2", "--no-pdf", "--content", str(series.root)]) == 2
    assert "session 2 has no exercise yet" in capsys.readouterr().err
    assert not (tmp_path / "filming").exists()
