"""Moves that a check refuses: from a live page, to nowhere, in a circle."""

from pathlib import Path

import pytest

from sitegen.building.build import Builder
from sitegen.checks.moved import live_places
from sitegen.model import Series
from tests.conftest import DEMO
from tests.folders import SeriesFolder

CASES = {
    # id: (lines with ¦ where the place must point, part of the message, of the advice)
    "live episode": (
        "  episodes/first-steps: ¦exercises\n",
        "'episodes/first-steps' is said to have moved, but there is a page",
        "remove the line",
    ),
    "live page": ("  safety: ¦exercises\n", "'safety' is said to have moved", "remove the line"),
    "to nowhere": (
        "  episodes/old: ¦episodes/nothing\n",
        "'episodes/old' leads to 'episodes/nothing', and there is nothing",
        "as it is now",
    ),
    "to a missing exercise": ("  exercises/a: ¦exercises/b\n", "and there is nothing", "as it is now"),
    "to itself": ("  episodes/a: ¦episodes/a\n", "'episodes/a' leads in a circle", "where the page is now"),
    "in a circle": (
        "  episodes/a: ¦episodes/b\n  episodes/b: episodes/a\n",
        "'episodes/a' leads in a circle",
        "where the page is now",
    ),
    "from a part of a page": ('  "exercises/x#y": ¦exercises\n', "servers are never told", "leave out"),
}  # fmt: skip


@pytest.mark.parametrize(("lines", "message", "advice"), CASES.values(), ids=CASES.keys())
def test_refused(lines: str, message: str, advice: str, tmp_path: Path) -> None:
    series = SeriesFolder(tmp_path)
    text = (series.root / "series.yaml").read_text() + "\nmoved:\n" + lines
    before, _, after = text.partition("¦")
    series.write("series.yaml", before + after)
    found = [p for p in series.problems() if p.check == "moved"]
    assert message in found[0].message
    assert advice in found[0].advice
    assert (found[0].line, found[0].column) == (before.count("\n") + 1, len(before) - before.rfind("\n"))


GOOD = {
    "to an episode": "  episodes/old: episodes/first-steps\n",
    "to a sheet": "  old-sheet: episodes/first-steps/sheet\n",
    "to a part of an exercise": "  exercises/old: exercises/chair-squat#cues\n",
    "to a need": "  needs/sitting: needs/seated\n",
    "to the home page": "  old: /\n",
    "over two moves": "  a: b\n  b: safety\n",
}


@pytest.mark.parametrize("lines", GOOD.values(), ids=GOOD.keys())
def test_right(lines: str, tmp_path: Path) -> None:
    series = SeriesFolder(tmp_path)
    series.write("series.yaml", (series.root / "series.yaml").read_text() + "\nmoved:\n" + lines)
    assert series.problems() == []


def test_every_page_of_the_demo_is_a_place_that_the_check_knows(demo_series: Series, tmp_path: Path) -> None:
    """So that no move to a real page is refused, whatever kinds of pages are added."""
    builder = Builder(DEMO, tmp_path / "build", jobs=1)
    known = live_places(demo_series)
    for page in builder.plan(builder.read()):
        place = page.address.removesuffix("index.html").rstrip("/")
        if page.address.endswith("/index.html") and not place.isdecimal():
            parts = place.split("/")
            assert place in known or "/".join(parts[:2]) in known or place.startswith("exercises/by"), place
