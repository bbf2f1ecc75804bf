"""The moment at which an exercise is shown, played on the exercise's own page.

W3C, *Media Fragments URI 1.0*, 4.2.1: ``t=10,20`` is played from 10 to 20 s.
"""

import re

from playwright.sync_api import Page, expect

from tests.browser.episodes import until

TOWEL_ROW = "exercises/towel-row/index.html"
CLIP = "document.querySelector('#clip video')"


def test_it_plays_in_place_and_ends_with_the_moment(page: Page, demo_url: str) -> None:
    page.goto(demo_url + TOWEL_ROW)
    button = page.get_by_role("button", name=re.compile("Watch it here, from session"))
    start = int(str(button.get_attribute("data-at")))

    button.click()
    until(page, f"{CLIP} && {CLIP}.readyState >= 2 && {CLIP}.currentTime >= {start}")
    source = str(page.locator("#clip source").first.get_attribute("src"))
    end = int(source.rpartition(",")[2])
    assert re.search(rf"\.mp4#t={start},{end}$", source)
    assert start < end < start + 120
    expect(page.locator("#clip track[kind=captions]")).to_have_count(1)
    page.evaluate(f"{CLIP}.currentTime = {end - 0.6}")
    until(page, f"{CLIP}.paused && Math.abs({CLIP}.currentTime - {end}) < 0.4")
    expect(button).to_be_hidden()


def test_without_the_session_the_viewer_is_led_there(page: Page, demo_url: str) -> None:
    page.goto(demo_url + TOWEL_ROW)
    page.route("**/episodes/*/index.html", lambda route: route.abort(), times=1)
    page.get_by_role("button", name=re.compile("Watch it here")).click()

    expect(page).to_have_url(re.compile(r"episodes/[a-z-]+/index\.html#t=\d+$"))
