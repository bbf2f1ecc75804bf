"""An episode put right beside its film, with keys alone, in a real browser."""

import shutil
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from sitegen.preview.ahead import Ahead
from sitegen.preview.beside_film import FilmPages
from sitegen.preview.handler import handler_for
from sitegen.preview.server import SiteServer
from sitegen.preview.state import PreviewState
from tests.conftest import DEMO

DRAFT = """\
# A draft.
title: Lee shore
number: 13
video: {file: media/01.webm}
blocks:
  - name: First superset    # mine
    kind: strength
    format: superset
    at: "0:20"
    # QUESTION (1:30): does she hand over here? Then: your_turn: "1:30"
    items:
      - exercise: bent-over-row    # 0.93, named at 0:24
        at: "0:22"
        dose: "8"    # 0.88, said at 0:40
      - exercise: arm-circles    # 0.41, described, not named
        at: "0:55"
        dose: "1"    # QUESTION (1:02): is the dose 10 each side? (0.42) 1 only keeps the place
        # QUESTION (0:55): is arm-circles shown here?
"""

MENDED = """\
# A draft.
title: Lee shore
number: 13
video: {file: media/01.webm}
blocks:
  - name: First superset    # mine
    kind: strength
    format: superset
    at: "0:20"
    your_turn: "1:30"
    items:
      - exercise: bent-over-row    # 0.93, named at 0:24
        at: "0:23"
        dose: "12"    # 0.88, said at 0:40
      - exercise: ankle-rocks
        at: "0:58"
        dose: "10 each side"
"""


@pytest.fixture
def content(tmp_path: Path) -> Path:
    root = tmp_path / "content"
    shutil.copytree(DEMO / "exercises", root / "exercises")
    for folder in ("episodes", "media"):
        (root / folder).mkdir()
    (root / "episodes" / "13-lee-shore.yaml").write_text(DRAFT)
    for film in ("01.webm", "02.webm"):
        shutil.copy(DEMO / "media" / film, root / "media" / film)
    return root


@pytest.fixture
def address(content: Path, tmp_path: Path) -> Iterator[str]:
    (tmp_path / "site").mkdir()
    handler = handler_for(PreviewState(), Ahead(), FilmPages(content))
    server = SiteServer(tmp_path / "site", 0, handler)
    threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True).start()
    yield f"{server.address}-/film/"
    server.shutdown()
    server.server_close()


def film_at(page: Page, second: float) -> None:
    page.evaluate(
        "second => { const film = document.getElementById('film'); film.currentTime = second;"
        " return new Promise(done => film.addEventListener('seeked', done, {once: true})); }",
        second,
    )


def test_a_draft_is_mended_with_keys(page: Page, address: str, content: Path) -> None:
    file = content / "episodes" / "13-lee-shore.yaml"
    page.goto(f"{address}13-lee-shore")
    rows = page.locator("#rows li")
    chosen = page.locator("#rows [aria-selected=true]")
    expect(page.locator("#left")).to_have_text("2 lines are open")
    expect(chosen).to_contain_text("0:55")
    page.wait_for_function("document.getElementById('film').readyState >= 2")
    # The exercise is another one and begins later; its dose is the one that is offered.
    page.keyboard.press("e")
    page.locator("#value").fill("Ankle rocks")
    page.keyboard.press("Enter")
    expect(chosen).to_contain_text("Ankle rocks")
    film_at(page, 58.4)
    page.keyboard.press("Shift+ArrowUp")
    page.keyboard.press("Shift+ArrowDown")
    page.keyboard.press("h")
    expect(rows.nth(2)).to_contain_text("0:58")
    expect(chosen).to_contain_text("your turn")
    page.keyboard.press("y")
    expect(rows.nth(3)).to_contain_text("1:30")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("y")
    expect(rows.nth(2)).to_contain_text("10 each side")
    expect(page.locator("#left")).to_have_text("No line is open")
    # A second later, and another dose.
    rows.nth(1).click()
    page.keyboard.press("+")
    expect(rows.nth(1)).to_contain_text("0:23")
    page.keyboard.press("d")
    page.locator("#value").fill("12")
    page.keyboard.press("Enter")
    expect(rows.nth(1)).to_contain_text("12")
    assert file.read_text() == MENDED
    assert (content / "episodes" / "13-lee-shore.yaml.old").read_text() == DRAFT
    # What cannot be is refused in words, and every change can be taken back.
    film_at(page, 70)
    page.keyboard.press("h")
    expect(page.locator("#said")).to_contain_text("1:10 is behind ankle-rocks at 0:58; move that one first")
    for _ in range(6):
        page.keyboard.press("z")
    expect(rows.nth(2)).to_contain_text("Arm circles")
    expect(page.locator("#left")).to_have_text("2 lines are open")
    assert file.read_text() == DRAFT


def test_a_film_without_captions_becomes_an_episode(page: Page, address: str, content: Path) -> None:
    """Moments are marked while it runs and named afterwards; a mark outlives the page."""
    page.goto(address)
    page.get_by_role("link", name="media/02.webm").click()
    page.wait_for_function("document.getElementById('film').readyState >= 2")
    film_at(page, 31)
    page.keyboard.press("m")
    page.reload()
    expect(page.locator("#marks li")).to_have_count(1)
    page.get_by_role("button", name="0:31: name the exercise").click()
    page.locator("#value").fill("bent-over-row")
    page.keyboard.press("Enter")
    expect(page.locator("#rows li")).to_have_count(3)
    page.wait_for_function("document.getElementById('film').readyState >= 2")
    film_at(page, 50)
    page.keyboard.press("n")
    page.locator("#value").fill("arm circles")
    page.keyboard.press("Enter")
    expect(page.locator("#rows li").nth(2)).to_contain_text("0:50")
    page.keyboard.press("b")
    text = (content / "episodes" / "14-session.yaml").read_text()
    assert 'exercise: arm-circles\n        at: "0:50"' in text
