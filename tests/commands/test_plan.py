"""``sitegen plan``: whole weeks of sessions as plans, each built on those before; ``--again`` renews what is
the program's own and keeps what the trainer changed."""

import shutil
from pathlib import Path

import pytest
import yaml

from sitegen.cli import main
from sitegen.composing.session_shape import WORKING_KINDS
from sitegen.reading.reader import read_series
from sitegen.study.forms import forms_of
from sitegen.study.suitability import Suitability
from tests.conftest import DEMO
from tests.shared_builds import made_once

ASKED = ("--minutes", "45", "--for", "seated")
FIRST, SECOND = "episodes/01-session-1.yaml", "episodes/02-session-2.yaml"


@pytest.fixture(
    scope="module",
    params=[
        pytest.param(1, id="a week"),
        pytest.param(2, id="two weeks", marks=pytest.mark.thorough),
    ],
)
def weeks(request: pytest.FixtureRequest) -> int:
    """For how many weeks sessions are planned."""
    return int(request.param)


@pytest.fixture(scope="module")
def season(weeks: int, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A new season of the demo, for those who train sitting."""

    def plan(made: Path) -> None:
        assert main(["begin", str(made / "next"), "--season-of", str(DEMO)]) == 0
        assert main(["plan", str(weeks), *ASKED, "--content", str(made / "next/content")]) == 0

    return made_once(tmp_path_factory, f"season-{weeks}", plan) / "next/content"


def test_each_training_day_of_the_weeks_has_its_plan(season: Path, weeks: int) -> None:
    series = read_series(season)
    assert [episode.number for episode in series.sessions] == list(range(1, 3 * weeks + 1))
    assert all(episode.planned for episode in series.sessions)
    days = [episode.released for episode in series.sessions]
    assert days == sorted(set(days))
    kinds = [[block.kind for block in episode.blocks] for episode in series.sessions]
    assert all(some[0] == "warm-up" and some[-1] == "cool-down" for some in kinds)


def test_later_sessions_build_on_earlier_ones(season: Path, weeks: int) -> None:
    """No session brings more new exercises than may be learned at once, and nothing is done every time."""
    known: set[str] = set()
    for number, episode in enumerate(read_series(season).sessions):
        own = {
            item.exercise for block in episode.blocks if block.kind in WORKING_KINDS for item in block.items
        }
        if number:
            assert len(own - known) <= 3
        known |= own
    assert len(known) > 6 * weeks


def test_whoever_the_series_is_for_has_a_form_of_everything(season: Path) -> None:
    series = read_series(season)
    suitability = Suitability(series.details, forms_of(series.exercises))
    for episode in series.sessions:
        assert suitability.coverage(episode, ("seated",)).gaps == 0


def test_questions_stand_where_a_dose_was_never_shown(season: Path) -> None:
    text = (season / "episodes/01-session-1.yaml").read_text()
    assert "# QUESTION: new to the series: are dose and effort right" in text
    items = [item for block in yaml.safe_load(text)["blocks"] for item in block.get("items", ())]
    assert all(item.get("effort") for item in items if "dose" in item)


def test_what_cannot_be_planned_is_told_at_once(season: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["plan", "0", "--for", "seatd", "--new", "-1", "--content", str(season)]
    assert main(words) == 2
    assert capsys.readouterr().err.splitlines() == [
        "sitegen: there is no need 'seatd'; do you mean 'seated'?",
        "sitegen: 0 weeks cannot be planned; write 1 to 52",
        "sitegen: --new -1 is too little; write 0 or more",
    ]


@pytest.fixture
def content(season: Path, tmp_path: Path) -> Path:
    """The first two plans, to be changed."""
    folder = shutil.copytree(season, tmp_path / "content")
    for plan in sorted(folder.glob("episodes/*"))[2:]:
        plan.unlink()
    return folder


def items(content: Path, file: str) -> list[dict[str, str]]:
    """The exercises of a file's own blocks, in order."""
    blocks = yaml.safe_load((content / file).read_text())["blocks"]
    return [item for block in blocks for item in block.get("items", ())]


def edit(content: Path, file: str, *changes: tuple[str, str]) -> None:
    text = (content / file).read_text()
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    (content / file).write_text(text)


def test_what_the_trainer_changed_stays_and_the_rest_is_chosen_anew(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    first = items(content, FIRST)
    kept, gone = first[1]["exercise"], first[-1]["exercise"]
    edit(
        content,
        FIRST,
        ('title: "Session 1"', 'title: "Sea legs"   # from Anna'),
        (f"exercise: {kept}", f"exercise: {kept}   # everybody knows it"),
        ("dose:", "dose:  "),
        ("sets: 3\n", "sets: 2   # enough for the first day\n"),
        ("  - routine: mooring-cool-down", "  # Wave.\n  - routine: mooring-cool-down"),
    )
    before = (content / FIRST).read_text()
    words = ["propose", "--again", "1", "--without", gone, *ASKED, "--content", str(content)]

    assert main(words) == 0
    assert "stays as you wrote it" in capsys.readouterr().out
    assert (content / FIRST).read_text() == before  # shown, not written

    assert main([*words, "--write"]) == 0
    said, now = capsys.readouterr(), items(content, FIRST)
    text = (content / FIRST).read_text()
    assert now[0] == first[0]  # its dose was moved: a change like any other
    assert now[1] == first[1]
    assert gone not in [one["exercise"] for one in now]
    assert len(now) == len(first)
    for words_of_hers in (
        "Sea legs",
        "# from Anna",
        "# everybody knows it",
        "# enough for the first",
        "# Wave.",
    ):
        assert words_of_hers in text
    assert (content / f"{FIRST}.old").read_text() == before
    assert f"{FIRST}.old: the file as it was" in said.err
    assert f"{FIRST}: composed again; of {len(first) - 2} proposed exercises " in said.out
    line = next(n for n, one in enumerate(text.split("\n"), 1) if "everybody knows" in one)
    assert f"{FIRST}:{line}: {kept} stays as you wrote it" in said.out
    for told in said.out.splitlines():
        if ": not kept: " in told:
            place, _, what = told.partition(": not kept: ")
            start = text.split("\n")[int(place.rpartition(":")[2]) - 1]
            assert start.strip().startswith(f"# NOT KEPT: {what[:10]}")


@pytest.mark.thorough
def test_weeks_composed_again_rest_on_each_other_and_settle(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The same wishes and nothing changed: every file stays as it is, byte for byte."""
    words = ["plan", "--again", *ASKED, "--content", str(content)]
    before = {path: path.read_bytes() for path in content.glob("episodes/*")}
    assert main(words) == 0
    assert {path: path.read_bytes() for path in content.glob("episodes/*")} == before
    assert capsys.readouterr().out.count("nothing changes") == 2

    mine = items(content, SECOND)[2]["exercise"]
    edit(content, SECOND, (f"- exercise: {mine}", f"# Leave this.\n      - exercise: {mine}"))
    assert main([*words, "--without", mine]) == 0
    assert items(content, SECOND)[2]["exercise"] == mine
    assert mine not in [one["exercise"] for one in items(content, FIRST)]
    assert main(["check", "--content", str(content)]) == 0


def test_what_cannot_be_composed_again_is_told_with_what_to_do(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = ["--content", str(content)]
    assert main(["propose", "--again", "7", *asked]) == 1
    assert "there is no episode 7 to compose again" in capsys.readouterr().err
    assert main(["propose", "--again", "1", "--title", "Sea legs", *asked]) == 2
    assert "--title is for a new plan" in capsys.readouterr().err
    assert main(["plan", "1", "--again", *asked]) == 2
    assert main(["plan", *asked]) == 2
    assert capsys.readouterr().err.splitlines() == [
        "sitegen: WEEKS is for new plans; with --again the files say it",
        "sitegen: say for how many weeks, such as: sitegen plan 2",
    ]
    for file in content.glob("episodes/*.yaml"):
        file.write_text(file.read_text().replace("# proposed", "# chosen"))
    assert main(["propose", "--again", "1", *asked]) == 1
    assert main(["plan", "--again", *asked]) == 1
    shown = capsys.readouterr().err
    assert "all of it stays as it is" in shown
    assert "no plan has an exercise that stands there as it was proposed" in shown
    assert main(["propose", "--again", "12", "--content", str(DEMO)]) == 1
    assert "episode 12 is filmed; only plans are composed again" in capsys.readouterr().err
