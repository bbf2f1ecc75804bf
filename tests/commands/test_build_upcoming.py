"""Episodes that are not out yet: left out of the site until their day, or until they are asked for."""

from datetime import date
from pathlib import Path

import pytest

from sitegen.cli import main
from sitegen.reading.reader import read_series
from tests.building.scratch import made_from_scratch
from tests.demo_copy import copy_demo, leave_out_unused, shorten
from tests.trees import let_settle, tree


@pytest.fixture
def content(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The first four episodes of the demo: out on 7, 9, 11 and 14 September 2026."""
    monkeypatch.chdir(tmp_path)
    content = copy_demo(tmp_path, episodes=4)
    shorten(content)
    leave_out_unused(content)
    return content


def build(content: Path, *words: str) -> Path:
    out = content.parent / "site"
    assert (
        main(["build", "--content", str(content), "--out", str(out), "--pages-only", "--jobs", "1", *words])
        == 0
    )
    return out


def episodes(site: Path) -> list[str]:
    return sorted(path.name for path in (site / "episodes").iterdir())


@pytest.mark.parametrize(
    ("today", "count"), [("2026-09-06", 0), ("2026-09-10", 2), ("2026-09-11", 3), ("2030-01-01", 4)]
)
def test_what_is_out_on_a_day(content: Path, today: str, count: int) -> None:
    series = read_series(content).as_of(date.fromisoformat(today))

    assert len(series.episodes) == count
    assert [e.number for e in series.sessions] == [1, 2, 3, 4]
    assert [e.number for e in series.upcoming] == [1, 2, 3, 4][count:]


def test_an_episode_without_a_release_date_is_out(content: Path) -> None:
    path = content / "episodes" / "04-rising-tide.yaml"
    path.write_text(path.read_text().replace("released: 2026-09-14\n", ""))

    assert [e.number for e in read_series(content).as_of(date(2026, 9, 7)).episodes] == [1, 4]


def test_nothing_of_an_upcoming_episode_is_in_the_site_but_its_line_in_the_schedule(content: Path) -> None:
    site = build(content, "--today", "2026-09-10")
    text = {str(p.relative_to(site)): p.read_bytes() for p in site.rglob("*") if p.is_file()}

    assert episodes(site) == ["cast-off", "fair-lead"]
    assert {a for a, data in text.items() if b"rising-tide" in data} == {
        "schedule/index.html",
        "schedule.ics",
    }
    assert {a for a, data in text.items() if b"Rising tide" in data} == {
        "schedule/index.html",
        "schedule.ics",
    }
    assert b"video 04.webm" not in text.values()
    assert b"video 02.webm" in text.values()


def test_asked_for_all_are_in(content: Path) -> None:
    assert episodes(build(content, "--include-upcoming", "--today", "2026-09-10"))[-1] == "steady-pull"


@pytest.mark.thorough
def test_a_build_as_on_a_day_is_the_build_of_that_day(content: Path) -> None:
    """Whatever was built before: the same bytes as from nothing."""
    for day in ("2026-09-14", "2026-09-09", "2026-09-12"):
        site = build(content, "--today", day)

    assert tree(site) == made_from_scratch(content, today=date(2026, 9, 12))


def test_only_the_day_on_which_an_episode_comes_out_is_a_change(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    def said(*words: str) -> str:
        build(content, *words)
        return capsys.readouterr().out.splitlines()[-1]

    let_settle(content)
    assert "files written" in said("--today", "2026-09-09")
    assert "nothing has changed" in said("--today", "2026-09-09")
    assert "nothing has changed" in said("--today", "2026-09-10")
    assert "files written" in said("--today", "2026-09-11")
    assert "files written" in said("--today", "2026-09-10")
    assert "files written" in said("--include-upcoming")
    assert "nothing has changed" in said("--include-upcoming", "--today", "2026-09-01")


def test_the_number_left_out_is_told(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    build(content, "--today", "2026-09-10")

    assert (
        "2 episodes, 17 exercises; 2 not out yet (--include-upcoming takes them in)"
        in capsys.readouterr().out
    )


def test_a_day_that_is_none(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as exit_:
        build(content, "--today", "tomorrow")

    assert exit_.value.code == 2
    assert "--today" in capsys.readouterr().err
