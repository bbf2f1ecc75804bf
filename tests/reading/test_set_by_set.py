"""Doses and loads of each set in an episode's file: how many there are, and what may not be mixed."""

from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from sitegen.building.build import Builder
from sitegen.notation import Count
from sitegen.reading.reader import read_series
from tests.folders import SeriesFolder
from tests.spaces import spaced

EPISODE = "episodes/01-first-steps.yaml"


@pytest.fixture
def series(tmp_path: Path) -> SeriesFolder:
    return SeriesFolder(tmp_path)


def row(series: SeriesFolder, words: str) -> None:
    series.edit(
        EPISODE,
        'exercise: backpack-row, at: "3:05", dose: 8 each side,',
        f'exercise: backpack-row, at: "3:05", {words},',
    )


def test_doses_and_loads_are_read_set_by_set(series: SeriesFolder) -> None:
    row(series, "dose: [10 each side, 8 each side, 6 each side], load: [4 kg, 6 kg, 8 kg]")
    assert series.problems() == []
    block = read_series(series.root).episodes[0].blocks[2]
    _, item = block.items
    assert item.dose is not None
    assert item.load is not None
    assert [str(dose) for dose in item.dose.sets] == ["10 each side", "8 each side", "6 each side"]
    assert [[(part.quantity.amount, part.piece) for part in load.parts] for load in item.load.sets] == [
        [(4, "backpack")],
        [(6, "backpack")],
        [(8, "backpack")],
    ]


def test_a_list_says_how_many_sets_there_are(series: SeriesFolder) -> None:
    series.edit(EPISODE, '    your_turn: "4:00"\n    sets: 3\n', '    your_turn: "4:00"\n')
    row(series, "dose: [10, 8, 6, 4]")
    assert read_series(series.root).episodes[0].blocks[2].sets == Count(4, 4)


def test_one_dose_for_all_sets_is_one_dose(series: SeriesFolder) -> None:
    row(series, "dose: 3x10")
    dose = read_series(series.root).episodes[0].blocks[2].items[1].dose
    assert str(dose) == "10"


REFUSED = {
    "dose: [10, 8]": ("item 2 (backpack-row) has the doses of 2 sets, the block has 3", "write 3 doses, or sets: 2"),
    "dose: 8, load: [4 kg, 6 kg]": ("item 2 (backpack-row) has the loads of 2 sets, the block has 3", "write 3 loads, or sets: 2"),
    "dose: [10, 30 s, 8]": ("'dose': the doses of the sets measure different things", "write each as a count, a time or a distance, all of them each side or none"),
    "dose: 8, load: [4 kg, 2 kg + 3 kg, 5 kg]": ("'load': loads set by set are the same in both hands", "write for example [2 x 4 kg, 2 x 5 kg]"),
    "dose: 8, load: [4 kg, 6 kg, 20 kg]": ("20 kg is more than 'Backpack with books' (backpack) holds: 15 kg", "write a smaller load, or correct holds: in series.yaml"),
}  # fmt: skip


@pytest.mark.parametrize(("words", "said"), REFUSED.items(), ids=REFUSED)
def test_what_does_not_go_together_is_refused(
    series: SeriesFolder, words: str, said: tuple[str, str]
) -> None:
    row(series, words)
    assert (said[0], said[1]) in [(p.message, p.advice) for p in series.problems()]


def test_rounds_that_nobody_counts_have_no_sets(series: SeriesFolder) -> None:
    series.edit(
        EPISODE, "    format: superset\n", "    format: as many rounds as possible\n    time: 8 min\n"
    )
    row(series, "dose: [10, 8, 6]")
    assert [p.message for p in series.problems()] == [
        "doses set by set need counted sets, and a block of as many rounds as possible has none"
    ]


def test_pages_and_sheets_say_it(series: SeriesFolder, tmp_path: Path) -> None:
    row(series, "dose: [10 each side, 8 each side, 6 each side], load: [4 kg, 6 kg, 8 kg]")
    Builder(series.root, tmp_path / "site").build()
    folder = tmp_path / "site/episodes/first-steps"
    page = BeautifulSoup((folder / "index.html").read_text(), "html.parser")
    item = page.select_one("#backpack-row")
    assert item is not None
    assert "10, then 8, then 6 reps each side" in spaced(item.get_text(" ", strip=True))
    assert "4 kg, then 6 kg, then 8 kg" in item.get_text(" ", strip=True)
    fetch = page.select_one(".kit")
    assert fetch is not None
    assert [load.get_text(strip=True) for load in fetch.select(".kit-load")] == ["4 kg", "6 kg", "8 kg"]
    sheet = BeautifulSoup((folder / "sheet/index.html").read_text(), "html.parser").get_text(" ", strip=True)
    assert "10, then 8, then 6 reps each side" in spaced(sheet)
    assert "4 kg, then 6 kg, then 8 kg" in sheet
