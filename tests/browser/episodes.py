"""The demo's episode pages in a browser: what the tests of that page share."""

import time
from collections.abc import Callable, Sequence
from typing import Any

from playwright.sync_api import Page, expect

from tests.conftest import PATIENCE_S

STEADY_PULL = "episodes/steady-pull/index.html"
"""Chapters at 0:22, 2:24, 3:22 ...; your turn at 3:12, 4:50, 5:58."""
BALLAST = "episodes/ballast/index.html"
"""Uneven loads; as many rounds as possible."""
FAIR_LEAD = "episodes/fair-lead/index.html"
"""Every minute on the minute."""
CROSSWIND = "episodes/crosswind/index.html"
"""Two cautions, and much to fetch."""
CAST_OFF = "episodes/cast-off/index.html"
"""Intervals."""

Open = Callable[..., Page]


def video_time(page: Page) -> float:
    """Where the video stands, in seconds."""
    time: float = page.evaluate("document.getElementById('video').currentTime")
    return time


def until(page: Page, condition: str) -> None:
    """Wait until a condition in JavaScript holds; ``video`` is the page's video.

    Playwright's own way to wait evaluates text inside the page, which the page's policy forbids, and a
    timer of the page may be one that the test moves: so the condition is asked again from here.
    """
    asked = f"() => {{ const video = document.getElementById('video'); return Boolean({condition}); }}"
    limit = time.monotonic() + PATIENCE_S
    while not page.evaluate(asked):
        if time.monotonic() > limit:
            raise AssertionError(f"{condition} did not come true within {PATIENCE_S} s")
        page.wait_for_timeout(20)


def wait_for_video(page: Page) -> None:
    """Until the video can be sought."""
    until(page, "video.readyState >= 2")


def seek(page: Page, second: float) -> None:
    """Seek as a viewer does in the player; the video stands if it stood."""
    wait_for_video(page)
    page.evaluate(
        "second => { const video = document.getElementById('video'); video.currentTime = second;"
        " return new Promise(done => video.addEventListener('seeked', done, {once: true})); }",
        second,
    )


def play(page: Page) -> None:
    """Play from where the video stands."""
    page.evaluate("document.getElementById('video').play()")


def play_from(page: Page, second: float) -> None:
    """Seek, then play."""
    seek(page, second)
    play(page)


def note_seeks(page: Page) -> None:
    """From now on keep where the video goes each time it seeks, before it plays on.

    HTML standard, media elements, seeking: when ``seeking`` is fired the position is the new one. At
    ``seeked`` a busy machine may have played on already.
    """
    wait_for_video(page)
    page.evaluate(
        "() => { const video = document.getElementById('video'); window.sought = [];"
        " video.addEventListener('seeking', () => sought.push(video.currentTime)); }"
    )


def last_seek(page: Page) -> float:
    """Where the video was after the last seek."""
    until(page, "sought.length")
    second: float = page.evaluate("sought.at(-1)")
    return second


def part(page: Page, name: str) -> Any:
    """An element of the panel."""
    return page.locator(f"#turn-panel [data-part={name}]")


def start_turn(page: Page, anchor: str) -> None:
    """Open the panel of a block by its button; its script may have to be loaded first."""
    page.locator(f"button[data-turn={anchor}]").click()
    expect(page.locator("#turn-panel[open]")).to_have_count(1)


def leave(page: Page) -> None:
    """Back from the panel to the page.

    A dialog tells its page a moment after it is hidden that it was closed (HTML standard, closing a dialog),
    and only then the page keeps the sets: storage that is cleared sooner would hold them for the next test.
    """
    part(page, "close").click()
    expect(page.locator("#turn-panel")).to_be_hidden()
    expect(page.locator("html.panel-open")).to_have_count(0)


def put_back(page: Page) -> None:
    """Bring an opened page back to what it was, as far as the panel changes it: closed, with nothing kept.

    It costs a twentieth of opening the page. What a script set in the page, or the video, stays.
    """
    if part(page, "close").is_visible():
        leave(page)
    page.evaluate(
        "() => { localStorage.clear(); sessionStorage.clear(); scrollTo(0, 0); document.activeElement.blur();"
        " document.documentElement.removeAttribute('style');"
        " document.dispatchEvent(new CustomEvent('turn-changed')); }"
    )


def press(page: Page, name: str = "main", times: int = 1) -> None:
    """Press a button of the panel, later than half a second after the last: sooner counts as the same press.

    For pages whose clock stands still until the test moves it.
    """
    for _ in range(times):
        page.clock.run_for(600)
        part(page, name).click()


def choose_needs(page: Page, needs: Sequence[str]) -> None:
    """Tick needs as a viewer does."""
    page.locator("#needs > summary").click()
    for need in needs:
        page.locator(f"input[name=need][value={need}]").check()
