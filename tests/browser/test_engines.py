"""The main things in the other two engines. Not in the usual run: ``python -m pytest -m engines``."""

from collections.abc import Iterator

import pytest

from tests.browser.engines import MISSING, Engine, engine, is_there
from tests.browser.episodes import BALLAST, STEADY_PULL

pytestmark = pytest.mark.engines


@pytest.fixture(scope="module", params=["firefox", "webkit"])
def browser(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Engine]:
    if not is_there(request.param):
        pytest.skip(MISSING[request.param])
    with engine(request.param, tmp_path_factory.mktemp(request.param)) as one:
        yield one


def test_the_film_plays_and_stops_at_your_turn_and_the_panel_opens(browser: Engine, demo_url: str) -> None:
    browser.open(demo_url + STEADY_PULL)
    browser.until("document.getElementById('video').readyState >= 1")
    assert browser.run("document.getElementById('no-play').hidden") is True
    browser.run("(document.getElementById('video').currentTime = 190.5)")
    browser.run("(document.getElementById('video').play(), 1)")

    browser.until("document.getElementById('turn-panel').open")
    assert browser.run("document.getElementById('video').paused") is True
    assert abs(float(browser.run("document.getElementById('video').currentTime")) - 192) < 0.3


def test_a_session_is_kept_and_shown_without_a_network(browser: Engine, demo_url: str) -> None:
    browser.open(demo_url + BALLAST)
    browser.until("!document.getElementById('keep').hidden")
    browser.click("#keep summary")
    browser.until("!document.querySelector('#keep [data-part=keep]').disabled")
    browser.click("#keep [data-part=keep]")

    browser.until("document.querySelector('#keep summary').textContent === 'Kept on this device'")
    browser.open(f"{demo_url}kept/index.html")
    browser.until("document.querySelector('#kept-list a')")
    browser.click("#kept-list button")
    browser.until("!document.getElementById('kept-none').hidden")


def test_pages_do_not_scroll_sideways_and_scripts_do_not_fail(browser: Engine, demo_url: str) -> None:
    for address in (
        "index.html",
        STEADY_PULL,
        "exercises/index.html",
        "schedule/index.html",
        "balance/index.html",
        "needs/index.html",
    ):
        browser.open(demo_url + address)
        wide = browser.run("document.documentElement.scrollWidth - innerWidth")
        assert wide <= 0, (address, wide)


def test_needs_choose_other_versions(browser: Engine, demo_url: str) -> None:
    browser.open(f"{demo_url}{STEADY_PULL}?needs=no-jumping")
    browser.until("document.querySelector('.needs-line span').textContent.includes('No jumping')")


def test_the_search_answers(browser: Engine, demo_url: str) -> None:
    browser.open(f"{demo_url}exercises/index.html?q=row")
    browser.until("document.querySelector('#content').innerText.includes('Towel row')")
