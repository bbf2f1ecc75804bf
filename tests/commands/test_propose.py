"""`sitegen propose`: the next session in the terminal, and as a plan that `check` accepts."""

from pathlib import Path

import pytest
import yaml

from sitegen.cli import main
from tests.folders import check_content
from tests.sessions import SessionFolder

ROW = "backpack-row, dose: 8 each side, effort: 2 in reserve"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    """Two sessions of the starter's exercises, on Monday and Thursday."""
    folder = SessionFolder(tmp_path)
    folder.session(1, ROW, "chair-squat, dose: 10")
    folder.session(2, ROW, "chair-squat, dose: 11, effort: 2 in reserve")
    return folder.root


def test_a_proposal_is_written_as_a_plan_that_check_accepts(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before, warned = set(content.rglob("*")), {problem.check for problem in check_content(content)}
    assert main(["propose", "--content", str(content), "--write", "--title", "Sea legs"]) == 0
    shown = capsys.readouterr().out
    [path] = set(content.rglob("*")) - before
    text = path.read_text()
    [block] = yaml.safe_load(text)["blocks"]

    assert path.name == "03-sea-legs.yaml"
    assert shown.startswith("Proposals for episode 3\n1. ")
    assert "03-sea-legs.yaml: proposal 1, ready to edit" in shown
    assert (block["kind"], block["format"], block["sets"]) == ("strength", "straight sets", 4)
    assert {one["exercise"]: one["dose"] for one in block["items"]} == {
        "backpack-row": "10 each side",
        "chair-squat": "12",
    }
    for why in ("also in the session before", "episode 2: 11; now 12, on the way to 15"):
        assert f"# {why}" in text or why in text
    assert {problem.check for problem in check_content(content)} <= {*warned, "released-late"}


def test_a_plan_is_never_written_over(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["propose", "--content", str(content), "--count", "1", "--write", "--title", "Session 2"]
    assert main(words) == 2
    assert "an episode with the address 'session-2' is there already" in capsys.readouterr().err


def test_all_that_is_wrong_with_the_wishes_is_told_at_once(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = [
        "--kit",
        "bakpack",
        "--without",
        "backpack-rows",
        "--more",
        "latz",
        "--minutes",
        "0",
        "--write",
        "4",
    ]
    assert main(["propose", "--content", str(content), *words, "--blocks", "strength"]) == 2
    assert capsys.readouterr().err.splitlines() == [
        "sitegen: there is no kit 'bakpack'; do you mean 'backpack'?",
        "sitegen: there is no exercise 'backpack-rows'; do you mean 'backpack-row'?",
        "sitegen: there is no muscle or pattern 'latz'; do you mean 'lats'?",
        "sitegen: --minutes 0 is too little; write 1 or more",
        "sitegen: --blocks: 'strength' is no block; write for example: "
        "conditioning circuit 2, 3 rounds; strength superset, 3 sets",
        "sitegen: --write 4 is more than the 3 proposals of --count",
    ]


def test_conflicts_and_what_helps_are_shown(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["propose", "--content", str(content), "--minutes", "3", "--count", "1"]) == 0
    assert "not kept: it takes up to" in capsys.readouterr().out
