"""The preview in a real browser: renewed on save, problems shown above the last good page."""

import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.conftest import PATIENCE_S
from tests.folders import SeriesFolder

EPISODE = "episodes/01-first-steps.yaml"


@pytest.fixture
def series(tmp_path: Path) -> SeriesFolder:
    return SeriesFolder(tmp_path)


@pytest.fixture
def address(series: SeriesFolder) -> Iterator[str]:
    """A running `sitegen preview`; gives its address."""
    words = [sys.executable, "-m", "sitegen", "preview", "--content", str(series.root), "--port", "0"]
    process = subprocess.Popen(words, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    first = process.stdout.readline()
    process.stdout.readline()  # the first build is done
    yield first.split()[0]
    process.terminate()
    process.wait(timeout=PATIENCE_S)
    process.stdout.close()


def save(series: SeriesFolder, file: str, old: str, new: str) -> None:
    """Save as careful editors do: a new file is put in the place of the old one."""
    path = series.root / file
    part = path.with_name(path.name + "~")
    part.write_text(path.read_text().replace(old, new))
    part.replace(path)


def test_a_save_renews_the_page(page: Page, address: str, series: SeriesFolder) -> None:
    """Nobody has to reload; `python -m tests.bench preview` measures how long it takes."""
    page.goto(address)
    expect(page.locator("h1")).to_have_text("My series")
    save(series, "series.yaml", "title: My series", "title: Kitchen strength")
    expect(page.locator("h1")).to_have_text("Kitchen strength")
    # The trainer's own page is a step away, and knows of the save too.
    page.get_by_role("link", name="The next session").click()
    expect(page.locator("h1")).to_contain_text("The next session: episode 2")
    expect(page.get_by_role("link", name="Kitchen strength")).to_be_visible()
    # Poses are written by looking: with the first ones there is a drawing, and a changed angle changes it.
    squat = "exercises/chair-squat.yaml"
    page.goto(f"{address}exercises/chair-squat/index.html")
    finish = page.locator(".movement svg").last
    save(series, squat, "pattern: squat", "pattern: squat\nposes: {start: {}, finish: {knees: 90, lean: 40}}")
    expect(finish).to_be_visible()
    deep = finish.inner_html()
    save(series, squat, "knees: 90", "knees: 30")
    expect(finish).not_to_have_js_property("innerHTML", deep)


def test_a_problem_is_shown_with_its_place_and_goes_when_it_is_mended(
    page: Page, address: str, series: SeriesFolder
) -> None:
    page.goto(f"{address}episodes/first-steps/index.html")
    save(series, EPISODE, "dose: 8-12", "dose: lots")
    problems = page.locator("#sitegen-problems")
    expect(problems).to_contain_text(re.compile(EPISODE + r":\d+:\d+"))
    expect(problems).to_contain_text("'lots' is not a dose")
    expect(page.locator("h1")).to_have_text("First steps")
    save(series, EPISODE, "dose: lots", "dose: 8-12")
    expect(problems).to_have_count(0)
    expect(page.locator("h1")).to_have_text("First steps")


def test_a_page_opened_while_there_is_a_problem_shows_it_too(
    page: Page, address: str, series: SeriesFolder
) -> None:
    save(series, EPISODE, "number: 1", "number: one")
    page.goto(address)
    expect(page.locator("#sitegen-problems")).to_contain_text(f"{EPISODE}:3:9")


def test_what_is_shown_lies_apart_from_the_site(address: str, series: SeriesFolder) -> None:
    """It has plans and what is not out yet: nobody shall take it for the site and copy it to the web."""
    assert (series.root.parent / ".preview/index.html").is_file(), address
    assert not (series.root.parent / "build").exists()
