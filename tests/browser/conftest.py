"""Pages opened once for all tests that ask something of them: the exercise index, sessions with a panel."""

from collections.abc import Iterator
from datetime import timedelta

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.episodes import Open, put_back
from tests.browser.finder import INDEX, fold_back, open_index
from tests.conftest import STANDS_AT, fresh_tab
from tests.tabs import SIZE


@pytest.fixture(scope="session")
def opened_index(chromium: Browser, demo_url: str) -> Iterator[Page]:
    """The tab of ``index``."""
    with fresh_tab(chromium, viewport={"width": 1280, "height": 900}) as page:
        yield page


@pytest.fixture
def index(opened_index: Page, demo_url: str) -> Page:
    """The demo's index as somebody has it open who asks for one thing after another.

    No filter is set and the page stands at its top. What another test typed may stand in the box: a test
    begins with ``search`` or ``ask``.
    """
    if opened_index.url.partition("?")[0] == demo_url + INDEX:
        fold_back(opened_index)
    else:
        open_index(opened_index, demo_url)
    return opened_index


@pytest.fixture(scope="session")
def turns_tab(chromium: Browser) -> Iterator[Page]:
    """The tab of ``at_session``: its clock stands still until a test moves it."""
    with fresh_tab(chromium, viewport=SIZE) as page:
        page.clock.install(time=STANDS_AT - timedelta(seconds=1))
        page.clock.pause_at(STANDS_AT)
        yield page


@pytest.fixture
def at_session(turns_tab: Page, demo_url: str) -> Iterator[Open]:
    """Call it with the address of a session to have its page as if it were opened anew.

    It stays open for the next test, so it is for tests that do nothing but use the panel. The clock goes on
    from where the last one left it, on the same evening.
    """

    def go(address: str) -> Page:
        if turns_tab.url != "about:blank":
            put_back(turns_tab)
        if turns_tab.url.partition("#")[0] != demo_url + address:
            turns_tab.goto(demo_url + address)
        turns_tab.set_viewport_size(SIZE)
        return turns_tab

    failures: list[str] = []

    def note(error: object) -> None:
        failures.append(str(error))

    turns_tab.on("pageerror", note)
    yield go
    turns_tab.remove_listener("pageerror", note)
    assert failures == []
