"""Home, free pages and the not-found page for everybody: axe-core and reflow."""

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.audit import LOOKS, seen, unfold, violations

PAGES = {
    "home": "index.html",
    "a page in the trainer's words": "when-to-stop/index.html",
    "not found": "404.html",
}


@pytest.mark.parametrize(("width", "scheme"), LOOKS.values(), ids=LOOKS)
def test_axe_finds_nothing(chromium: Browser, demo_url: str, width: int, scheme: str) -> None:
    found = {}
    with seen(chromium, width, scheme) as page:
        for name, address in PAGES.items():
            page.goto(demo_url + address)
            unfold(page)
            found[name] = violations(page)
    assert found == {name: [] for name in PAGES}


@pytest.mark.parametrize("name", PAGES)
def test_nothing_needs_scrolling_sideways_at_320_px(page: Page, demo_url: str, name: str) -> None:
    page.set_viewport_size({"width": 320, "height": 568})
    page.goto(demo_url + PAGES[name])
    assert page.evaluate("document.documentElement.scrollWidth") <= 320


def test_the_menu_opens_by_keyboard_on_a_phone(page: Page, demo_url: str) -> None:
    page.set_viewport_size({"width": 390, "height": 800})
    page.goto(demo_url)
    link = page.get_by_role("link", name="Exercises", exact=True)
    assert not link.is_visible()
    for _ in range(3):  # skip link, title, menu
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    link.wait_for(state="visible")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.wait_for_url("**/exercises/index.html")


def test_on_a_wide_screen_the_menu_is_simply_there(page: Page, demo_url: str) -> None:
    page.goto(demo_url)
    assert page.get_by_role("link", name="Exercises", exact=True).is_visible()
