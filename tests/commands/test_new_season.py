"""``sitegen begin --season-of``: the library of a series goes along into a new one."""

from datetime import date
from pathlib import Path

import pytest

from sitegen.cli import main
from sitegen.commands.new_season import season_text
from sitegen.reading.reader import read_content
from tests.conftest import DEMO
from tests.folders import SeriesFolder


def test_the_demo_goes_on_in_a_new_season(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["begin", str(tmp_path / "next"), "--season-of", str(DEMO)]) == 0
    content = tmp_path / "next" / "content"
    old, new = read_content(DEMO), read_content(content)
    assert new.problems == ()
    assert new.series is not None
    assert old.series is not None
    assert new.series.exercises == old.series.exercises
    for kept in ("kit", "needs", "bounds", "cautions", "demands", "trainer"):
        assert getattr(new.series.details, kept) == getattr(old.series.details, kept)
    assert new.series.sessions == ()
    assert sorted(path.name for path in (content / "routines").iterdir()) == sorted(
        path.name for path in (DEMO / "routines").iterdir()
    )
    # Nothing goes out in the place of the old season: its address and target are not taken over.
    assert new.series.details.publish == {}
    capsys.readouterr()
    assert main(["check", "--content", str(content)]) == 0
    said = capsys.readouterr().out
    assert [line.split()[2] for line in said.splitlines() if "placeholder" in line] == [
        "title",
        "summary",
        "address",
    ]
    assert f"version {old.library[:8]}" in (content / "series.yaml").read_text().splitlines()[0]


def test_a_series_with_problems_is_put_right_first(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    series = SeriesFolder(tmp_path)
    series.edit("exercises/chair-squat.yaml", "kit: [sturdy-chair]", "kit: [bench]")
    assert main(["begin", str(tmp_path / "next"), "--season-of", str(series.root)]) == 1
    assert "put these right first" in capsys.readouterr().err
    assert not (tmp_path / "next").exists()


OLD = """\
# Of the whole file.
title: Steps   # a good one
summary: >-
  Twelve
  sessions.
# Where it is.
address: https://steps.example/

schedule:
  start: 2026-01-05   # a Monday
  days: [monday]
# Not any more.
moved:
  old: new
units: metric
# Targets.
publish:
  home: {to: folder, path: out}
"""
NEW = """\
# Of the whole file.
title: My series
summary: Say in a sentence or two what the series is and whom it is for.
address: https://series.example/     # where the site will be published
schedule:
  start: 2026-03-02   # a Monday
  days: [monday]
units: metric
"""


def test_keys_of_the_old_season_go_with_their_comments() -> None:
    new = season_text(OLD, date(2026, 3, 2))
    assert new.splitlines()[1:] == NEW.splitlines()[1:]  # the comment above the title is the starter's
