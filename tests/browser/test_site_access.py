"""Home, free pages and the not-found page for everybody: axe-core and reflow."""

from playwright.sync_api import Page

from tests.browser.audit import LOOKS, unfold, violations_in

PAGES = {
    "home": "index.html",
    "a page in the trainer's words": "when-to-stop/index.html",
    "not found": "404.html",
}


def test_axe_finds_nothing_and_nothing_sticks_out(page: Page, demo_url: str) -> None:
    found = {}
    for name, address in PAGES.items():
        page.goto(demo_url + address)
        unfold(page)
        found[name] = violations_in(LOOKS, page)
    assert found == {name: {} for name in PAGES}


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
