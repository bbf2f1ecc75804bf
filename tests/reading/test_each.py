"""A bare ``each`` of a dose: each side of what is known to be one-sided, else asked about and never guessed."""

from pathlib import Path

import pytest

from sitegen.cli import main
from sitegen.model import Item
from sitegen.reading.reader import read_series
from tests.folders import SeriesFolder

EPISODE = "episodes/01-first-steps.yaml"
ASKED = "'dose': each of what? Nothing says that 'Chair squat' is done one side at a time"


@pytest.fixture
def series(tmp_path: Path) -> SeriesFolder:
    return SeriesFolder(tmp_path)


def _squat(series: SeriesFolder, more: str) -> None:
    """Say more of the chair squat of the starter series."""
    for old, new in [line.split(" -> ") for line in more.split("; ") if line]:
        series.edit("exercises/chair-squat.yaml", old, new)


def _first_of_pair(series: SeriesFolder) -> Item:
    [episode] = read_series(series.root).sessions
    return episode.blocks[2].items[0]


@pytest.mark.parametrize(
    ("dose", "once", "each"),
    [
        ("10 each", "10", "10 each side"),
        ("10 ea", "10", "10 each side"),
        ("3x10 each", "10", "10 each side"),
        ("8-12 each", "8-12", "8-12 each side"),
        ("30 s each", "30 s", "30 s each side"),
    ],
)
def test_what_is_not_known_to_be_one_sided_is_asked_about(
    series: SeriesFolder, dose: str, once: str, each: str
) -> None:
    place = series.spoil(EPISODE, "dose: 8-12", f"dose: ¦{dose}")
    [problem] = series.problems()

    assert (problem.message, (problem.line, problem.column)) == (ASKED, place)
    assert problem.advice == (
        f"write {once} for {once} in a set, or {each} for as many with the left and with the right"
    )


@pytest.mark.parametrize(
    ("more", "known"),
    [
        ("pattern: squat -> pattern: lunge", True),
        ("pattern: squat -> pattern: step", True),
        ("demands: [standing, deep knee bend]\n -> demands: [standing, balance on one leg]\n", True),
        ("name: Chair squat\nalso -> name: Single-leg chair squat\nalso", True),
        ("sit to stand -> one-leg squat", True),
        ("Stand up from a chair -> Stand up on one leg from a chair", True),
        ("Stand up from a chair -> Stand up, one hand on a chair,", False),
        ("note: For knees that need help out of the chair -> dose: both sides", True),
        ("note: For knees that need help out of the chair -> dose: half", False),
        ("cues:\n  - Push -> poses: {start: {base: seated}, finish: {knees: {right: 30}}}\ncues:\n  - Push", True),
        ("cues:\n  - Push -> poses: {start: {base: seated}, finish: {knees: 30}}\ncues:\n  - Push", False),
    ],
    ids=[
        "a lunge", "a step-up", "on one leg", "its name", "its other name", "its summary", "one hand held on",
        "a form for both sides", "a smaller form", "uneven poses", "even poses",
    ],
)  # fmt: skip
def test_what_is_known_of_an_exercise(series: SeriesFolder, more: str, known: bool) -> None:
    _squat(series, more)
    series.edit(EPISODE, "dose: 8-12", "dose: 3x10 each")

    assert [problem.check for problem in series.problems()] == ([] if known else ["each-of-what"])
    if known:
        assert str(_first_of_pair(series).dose) == "10 each side"


@pytest.mark.parametrize(
    ("dose", "tidy"),
    [("3x10 each", "10 each"), ("10 ea", "10 each"), ("10 L/R", "10 each side"), ("10each", "10 each")],
)
def test_tidying_writes_no_guess(series: SeriesFolder, dose: str, tidy: str) -> None:
    series.edit(EPISODE, "dose: 8-12", f"dose: {dose}")
    main(["check", "--tidy", "--content", str(series.root)])

    assert f"dose: {tidy}, tempo" in (series.root / EPISODE).read_text()


def test_a_shared_block_is_asked_about_once(series: SeriesFolder) -> None:
    series.edit("routines/short-warm-up.yaml", "dose: 30 s", "dose: 30 s each")
    series.write("episodes/02-again.yaml", "title: Again\nnumber: 2\nblocks:\n  - {routine: short-warm-up}\n")

    assert [problem.file for problem in series.problems()] == ["routines/short-warm-up.yaml"]


@pytest.mark.parametrize(
    ("dose", "more", "asked"),
    [
        ("10 each", "", True),
        ("10 each side", "", False),
        ("10 each", "pattern: squat -> pattern: lunge", False),
    ],
)
def test_a_variant_that_gives_a_dose_is_asked_too(
    series: SeriesFolder, dose: str, more: str, asked: bool
) -> None:
    _squat(series, more)
    note = "note: For knees that need help out of the chair"
    series.edit("exercises/chair-squat.yaml", note, f"dose: {dose}\n    {note}")

    assert [problem.check for problem in series.problems()] == (["each-of-what"] if asked else [])
    if asked:
        [problem] = series.problems()
        assert (problem.file, problem.line) == (
            "exercises/chair-squat.yaml",
            next(
                number
                for number, line in enumerate((series.root / problem.file).read_text().splitlines(), start=1)
                if "dose: 10 each" in line
            ),
        )
