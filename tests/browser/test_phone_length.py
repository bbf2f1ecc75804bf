"""How long pages are on a phone: half of what they were before exercises were folded away, or less.

Measured on the demo at 360 pixels of width before: a session 10,859 to 12,881 pixels, the index 18,241.
"""

from playwright.sync_api import Browser, Page, expect

from tests.browser.episodes import STEADY_PULL
from tests.conftest import fresh_tab

HEIGHT = "document.documentElement.scrollHeight"


def test_a_session_is_looked_over_on_a_phone_and_opens_where_one_goes(page: Page, demo_url: str) -> None:
    page.set_viewport_size({"width": 360, "height": 780})
    page.goto(demo_url + STEADY_PULL)
    blocks = page.locator(".block-more")
    folded = page.locator(".block-more:not([open])")
    expect(folded).to_have_count(blocks.count())
    assert page.evaluate(HEIGHT) <= 5_500

    item = page.locator(".block-more .item").nth(1)
    expect(item).not_to_be_visible()
    page.evaluate("hash => { location.hash = hash; }", item.get_attribute("id"))
    expect(item).to_be_in_viewport()
    expect(folded).to_have_count(blocks.count() - 1)
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    expect(folded).to_have_count(0)

    page.goto(f"{demo_url}exercises/index.html")
    assert page.evaluate(HEIGHT) <= 10_000


def test_wide_screens_and_pages_without_scripts_show_every_exercise(
    page: Page, chromium: Browser, demo_url: str
) -> None:
    page.goto(demo_url + STEADY_PULL)
    expect(page.locator(".block-more[open]")).to_have_count(page.locator(".block-more").count())
    expect(page.locator(".block-more > summary:visible")).to_have_count(0)
    with fresh_tab(chromium, java_script_enabled=False, viewport={"width": 360, "height": 780}) as bare:
        bare.goto(demo_url + STEADY_PULL)
        expect(bare.locator(".item").first).to_be_visible()
