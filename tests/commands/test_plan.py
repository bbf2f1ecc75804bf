"""``sitegen plan``: whole weeks of sessions as plans, each built on those before."""

from pathlib import Path

import pytest
import yaml

from sitegen.cli import main
from sitegen.reading.reader import read_series
from sitegen.study.forms import forms_of
from sitegen.study.suitability import Suitability
from tests.conftest import DEMO


@pytest.fixture(scope="module")
def season(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two weeks of a new season of the demo, for those who train sitting."""
    folder = tmp_path_factory.mktemp("series") / "next"
    assert main(["begin", str(folder), "--season-of", str(DEMO)]) == 0
    assert (
        main(["plan", "2", "--minutes", "45", "--for", "seated", "--content", str(folder / "content")]) == 0
    )
    return folder / "content"


def test_each_training_day_of_the_weeks_has_its_plan(season: Path) -> None:
    series = read_series(season)
    assert [episode.number for episode in series.sessions] == [1, 2, 3, 4, 5, 6]
    assert all(episode.planned for episode in series.sessions)
    days = [episode.released for episode in series.sessions]
    assert days == sorted(set(days))
    kinds = [[block.kind for block in episode.blocks] for episode in series.sessions]
    assert all(some[0] == "warm-up" and some[-1] == "cool-down" for some in kinds)


def test_later_sessions_build_on_earlier_ones(season: Path) -> None:
    """No session brings more new exercises than may be learned at once, and nothing is done every time."""
    known: set[str] = set()
    for number, episode in enumerate(read_series(season).sessions):
        own = {item.exercise for block in episode.blocks if not block.routine for item in block.items}
        if number:
            assert len(own - known) <= 3
        known |= own
    assert len(known) > 12


def test_whoever_the_series_is_for_has_a_form_of_everything(season: Path) -> None:
    series = read_series(season)
    suitability = Suitability(series.details, forms_of(series.exercises))
    for episode in series.sessions:
        assert suitability.coverage(episode, ("seated",)).gaps == 0


def test_questions_stand_where_a_dose_was_never_shown(season: Path) -> None:
    text = (season / "episodes/01-session-1.yaml").read_text()
    assert "# QUESTION: new to the series: is the dose right" in text
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
