"""The exercise index, opened once for all tests that look for something in it."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.finder import INDEX, fold_back, open_index
from tests.conftest import fresh_tab


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
