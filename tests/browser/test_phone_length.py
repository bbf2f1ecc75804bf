"""How long pages are on a phone: half of what they were before things were folded away, or less.

Measured on the demo at 360 pixels of width before: a session 10,859 to 12,881 pixels, the home page 10,627
with eighteen sessions, the index 18,241, the balance 20,583, the page of a need 8,155 to 69,501.
"""

import re

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.episodes import CROSSWIND, STEADY_PULL
from tests.conftest import fresh_tab

HEIGHT = "document.documentElement.scrollHeight"
SESSION = 12_881 // 2
HOME, ROW = 10_627 // 2, 67
"""Of eighteen sessions, and how much of it one more is: tests know twelve."""


def test_a_session_is_looked_over_on_a_phone_and_opens_where_one_goes(page: Page, demo_url: str) -> None:
    page.set_viewport_size({"width": 360, "height": 780})
    page.goto(demo_url + STEADY_PULL)
    blocks = page.locator(".block-more")
    folded = page.locator(".block-more:not([open])")
    expect(folded).to_have_count(blocks.count())
    assert page.evaluate(HEIGHT) <= SESSION
    # What the folded part holds is named with its cautions, and follows the viewer's needs.
    first = blocks.nth(2).locator(".in-short")
    expect(first.nth(1)).to_have_text(re.compile(r"^Backpack row 8\sreps · Hold 6 kg.*upright towel row"))
    page.evaluate("Needs.set(['thin-bones'])")
    expect(first.nth(1)).to_have_text(re.compile("^Upright towel row instead of the backpack"))
    page.evaluate("Needs.set([])")

    item = page.locator(".block-more .item").nth(1)
    expect(item).not_to_be_visible()
    page.evaluate("hash => { location.hash = hash; }", item.get_attribute("id"))
    expect(item).to_be_in_viewport()
    expect(folded).to_have_count(blocks.count() - 1)
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    expect(folded).to_have_count(0)

    page.goto(f"{demo_url}exercises/index.html")
    assert page.evaluate(HEIGHT) <= 10_000
    page.goto(f"{demo_url}balance/index.html")
    assert page.evaluate(HEIGHT) <= 20_583 / 2


def test_the_film_begins_within_a_screen_and_a_half_and_the_cautions_before_it_are_in_view(
    page: Page, demo_url: str
) -> None:
    """On the demo's session with the longest list of what to fetch, the most cautions and most to read."""
    page.set_viewport_size({"width": 360, "height": 640})
    page.goto(demo_url + CROSSWIND)
    assert page.evaluate(HEIGHT) <= SESSION
    assert page.evaluate("document.getElementById('video').getBoundingClientRect().top") <= 1.5 * 640
    short = page.locator(".care:not(.needs-advice) summary")
    expect(short.first).to_have_text(re.compile("towel press-down. Others: to upper arm level.$"))
    whole = page.locator(".care:not(.needs-advice) .folds[open]")
    expect(whole).to_have_count(0)
    short.first.click()
    expect(whole).to_contain_text("Everybody else stops where the upper arm is level")
    short.first.click()
    page.evaluate("Needs.set(['steady-feet'])")
    assert page.evaluate("document.getElementById('video').getBoundingClientRect().top") <= 1.5 * 640
    expect(page.locator(".needs-advice summary:visible")).to_contain_text("Both feet share the floor")


def test_a_need_s_page_lists_the_sessions_and_a_link_to_one_opens_it(page: Page, demo_url: str) -> None:
    page.set_viewport_size({"width": 360, "height": 640})
    page.goto(f"{demo_url}needs/seated/index.html#ballast")
    expect(page.locator(".folds[open]")).to_have_count(1)
    expect(page.locator("#ballast .changes").first).to_be_in_viewport()
    assert page.evaluate(HEIGHT) <= 10_000


@pytest.mark.parametrize(
    ("address", "most"), [("index.html", HOME - 6 * ROW), ("exercises/towel-row/index.html", 11_000)]
)
def test_a_word_longer_than_the_line_makes_no_page_wider_and_with_its_own_words_it_is_short(
    page: Page, demo_url: str, address: str, most: int
) -> None:
    page.set_viewport_size({"width": 360, "height": 640})
    page.goto(demo_url + address)
    assert page.evaluate(HEIGHT) <= most
    page.evaluate(
        "word => { for (const one of document.querySelectorAll('main :is(h1, h3, h4 a, td a, li a, .label)'))"
        " one.textContent = word; }",
        "Donaudampfschifffahrtsgesellschaftskapitänskniebeuge",
    )
    for width in (360, 768):
        page.set_viewport_size({"width": width, "height": 640})
        assert page.evaluate("document.documentElement.scrollWidth") == width


def test_wide_screens_and_pages_without_scripts_show_every_exercise(
    page: Page, chromium: Browser, demo_url: str
) -> None:
    page.goto(demo_url + STEADY_PULL)
    expect(page.locator(".block-more[open]")).to_have_count(page.locator(".block-more").count())
    expect(page.locator(".block-more > summary:visible")).to_have_count(0)
    with fresh_tab(chromium, java_script_enabled=False, viewport={"width": 360, "height": 780}) as bare:
        bare.goto(demo_url + STEADY_PULL)
        expect(bare.locator(".item").first).to_be_visible()
