"""A session that is written before it is filmed: checked, counted, shown in the preview, announced."""

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
import yaml
from bs4 import BeautifulSoup

from sitegen.building.build import Builder
from sitegen.commands.next_episode import next_episode, next_release
from sitegen.model import DateRange, ScheduleWishes, Series
from sitegen.reading.reader import read_series
from sitegen.study.forms import forms_of
from sitegen.study.timing import session_time
from tests.demo_copy import copy_demo
from tests.folders import SeriesFolder

EPISODE = "episodes/01-first-steps.yaml"
PLAN = "episodes/02-planned-pull.yaml"


@pytest.fixture
def series(tmp_path: Path) -> SeriesFolder:
    """The starter series with a plan: its episode again, without times."""
    folder = SeriesFolder(tmp_path)
    text = (folder.root / EPISODE).read_text()
    text = re.sub(r"\n *(at|your_turn): .*", "", text)
    text = re.sub(r'at: "[^"]*", ', "", text)
    text = text.replace("title: First steps", "title: Planned pull").replace("number: 1", "number: 2")
    folder.write(PLAN, text)
    return folder


def test_a_plan_has_no_problems(series: SeriesFolder) -> None:
    assert series.problems() == []
    assert [episode.planned for episode in read_series(series.root).episodes] == [False, True]


def test_a_plan_is_checked_like_any_episode(series: SeriesFolder) -> None:
    place = series.spoil(PLAN, "exercise: chair-squat", "exercise: ¦chair-sqat")
    [problem] = series.problems()
    assert (problem.check, (problem.line, problem.column)) == ("unknown-exercise", place)


def test_a_video_makes_the_missing_times_a_problem(series: SeriesFolder) -> None:
    series.write("media/02.webm", b"film")
    series.edit(
        PLAN, '# video: {file: media/01.webm, length: "8:30"}', 'video: {file: media/02.webm, length: "8:30"}'
    )
    assert {p.message for p in series.problems()} == {
        f"the video is there, but {name!r} has no time in it"
        for name in ("Warm-up", "Get warm", "First pair")
    }


def test_the_time_of_a_plan_is_that_of_doing_it(series: SeriesFolder) -> None:
    read = read_series(series.root)
    filmed, plan = (session_time(read.details, forms_of(read.exercises), e) for e in read.episodes)
    assert plan.seconds is None
    assert plan.your_turn.low == sum(block.seconds.low for block in plan.blocks)
    assert (
        plan.your_turn.low > filmed.your_turn.low
    )  # which leaves out the warm-up, done along with the video


def test_a_plan_that_takes_too_long_is_told_before_it_is_filmed(series: SeriesFolder) -> None:
    series.edit(PLAN, "number: 2", "number: 2\nlasts: 5 min")
    [warning] = [p for p in series.problems("warning") if p.check == "session-time"]
    assert "longer than the 5 min it announces" in warning.message


def test_the_published_site_announces_a_plan_and_has_no_page_of_it(
    series: SeriesFolder, tmp_path: Path
) -> None:
    for include_upcoming in (date(2027, 1, 10), None):
        out = tmp_path / f"site-{include_upcoming}"
        built = Builder(series.root, out, today=include_upcoming).build()
        assert [e.slug for e in built.series.upcoming] == ["planned-pull"]
        assert not (out / "episodes/planned-pull").exists()
        schedule = BeautifulSoup((out / "schedule/index.html").read_text(), "html.parser")
        assert "Planned pull" in schedule.main.get_text()
        assert not schedule.select('a[href*="planned-pull"]')


def test_the_preview_shows_a_plan_and_its_sheet(series: SeriesFolder, tmp_path: Path) -> None:
    out = tmp_path / "site"
    Builder(series.root, out, plans=True).build()
    page = BeautifulSoup((out / "episodes/planned-pull/index.html").read_text(), "html.parser")
    assert "This session is a plan." in page.main.get_text()
    assert not page.select(".clock, .chapters li, a[href*='#t=']")
    assert len(page.select("button[data-turn]")) == 3
    sheet = BeautifulSoup((out / "episodes/planned-pull/sheet/index.html").read_text(), "html.parser")
    heads = [head.get_text(" ", strip=True) for head in sheet.select(".sheet-head")]
    assert len(heads) == 3
    assert not any("video" in head or "turn" in head for head in heads)
    assert "#t=" not in (out / "exercises/chair-squat/index.html").read_text().split("planned-pull", 1)[1]


def test_a_plan_without_blocks_is_built_too(series: SeriesFolder, tmp_path: Path) -> None:
    series.write(PLAN, "title: An idea\nnumber: 2\nblocks:\n")
    assert series.problems() == []
    Builder(series.root, tmp_path / "preview", plans=True).build()
    Builder(series.root, tmp_path / "published").build()
    assert "An idea" in (tmp_path / "preview/index.html").read_text()


# --- the next episode's file --------------------------------------------------------------------


def _next(content: Path, title: str = "Lucky", today: date = date(2026, 9, 10)) -> tuple[str, str]:
    return next_episode(read_series(content), {}, title, today)


@pytest.mark.parametrize(
    ("episodes", "blocks"),
    [(3, ["harbour-warm-up", "slack-tide-cool-down"]), (1, ["harbour-warm-up", "slack-tide-cool-down"])],
)
def test_the_shared_blocks_of_the_last_episode_are_taken_over(
    tmp_path: Path, episodes: int, blocks: list[str]
) -> None:
    written = yaml.safe_load(_next(copy_demo(tmp_path, episodes))[1])
    assert [block["routine"] for block in written["blocks"]] == blocks


def test_a_series_without_episodes_begins_with_its_warm_up(tmp_path: Path) -> None:
    folder = SeriesFolder(tmp_path)
    (folder.root / EPISODE).unlink()
    kinds = {"long-stretch": "cool-down", "march": "warm-up", "shake": "warm-up"}
    name, text = next_episode(read_series(folder.root), kinds, "Begin", date(2026, 1, 1))
    written = yaml.safe_load(text)
    assert (name, written["number"]) == ("01-begin.yaml", 1)
    assert [block["routine"] for block in written["blocks"]] == ["march", "long-stretch"]


def test_nothing_is_invented(tmp_path: Path) -> None:
    content = copy_demo(tmp_path, 3)
    name, text = _next(content)
    (content / "episodes" / name).write_text(text)
    written = yaml.safe_load(text)
    assert set(written) == {"title", "number", "released", "blocks"}
    assert all(set(block) == {"routine"} for block in written["blocks"])
    assert read_series(content).episodes[-1].planned


def _series(content: Path, **wishes: object) -> Series:
    series = read_series(content)
    plan = ScheduleWishes(start=date(2026, 9, 7), days=("monday", "wednesday", "friday"), **wishes)  # type: ignore[arg-type]
    return replace(series, details=replace(series.details, schedule=plan))


RELEASES = {
    # The third episode of the demo comes out on Friday 11 September 2026.
    "the next training day": ({}, date(2026, 9, 1), date(2026, 9, 14)),
    "not a holiday": ({"holidays": (DateRange(first=date(2026, 9, 14), last=date(2026, 9, 15)),)}, date(2026, 9, 1), date(2026, 9, 16)),
    "not in a week kept free": ({"deload_every": 2}, date(2026, 9, 1), date(2026, 9, 21)),
    "not in the past": ({}, date(2026, 10, 1), date(2026, 10, 2)),
}  # fmt: skip


@pytest.mark.parametrize(("wishes", "today", "expected"), RELEASES.values(), ids=RELEASES)
def test_the_day_of_the_next_release(
    tmp_path: Path, wishes: dict[str, object], today: date, expected: date
) -> None:
    assert next_release(_series(copy_demo(tmp_path, 3), **wishes), today) == expected


def test_a_day_on_which_a_session_without_a_release_stands_in_the_calendar_is_taken(tmp_path: Path) -> None:
    series = _series(copy_demo(tmp_path, 3))
    series = replace(series, episodes=tuple(replace(one, released=None) for one in series.episodes))

    assert next_release(series, date(2026, 9, 1)) == date(2026, 9, 14)


def test_without_training_days_no_release_day_is_made_up(tmp_path: Path) -> None:
    series = read_series(copy_demo(tmp_path, 1))
    series = replace(series, details=replace(series.details, schedule=None))
    assert "released" not in yaml.safe_load(next_episode(series, {}, "Lucky", date(2026, 9, 1))[1])
