"""Loads drawn as vessels: in the list of what to fetch and in the panel, never at another load's mark."""

from playwright.sync_api import Page, expect

from tests.browser.episodes import BALLAST

FULL, THREE_FIFTHS = "20.0", "44.0"
"""Marks of 5 and of 3 litres in a carrier of 5, counted downwards from 20 (full) to 80 (empty)."""


def marks(page: Page, place: str) -> list[str]:
    """Where the levels of the vessels in a place stand."""
    drawn: list[str] = page.locator(f"{place} .vessel .mark").evaluate_all(
        "paths => paths.map(path => Number(/M5 ([\\d.]+)/.exec(path.getAttribute('d'))[1]).toFixed(1))"
    )
    return drawn


def test_the_list_to_fetch_and_the_panel(page: Page, demo_url: str) -> None:
    page.goto(demo_url + BALLAST)
    carrier = ".kit-list [data-kit=water-carrier]"
    assert marks(page, f"{carrier} .kit-load:nth-of-type(1)") == [FULL, THREE_FIFTHS]

    page.locator("button[data-turn=uneven-cargo]").click()
    loads = page.locator("#turn-panel .panel-one-load")
    expect(loads).to_have_text(["left 5 litres water, 5 kg ", "right 3 litres water, 3 kg "])
    assert marks(page, "#turn-panel .panel-load") == [FULL, THREE_FIFTHS]
    expect(page.locator("#turn-panel .vessel").first).to_have_attribute("aria-hidden", "true")


def test_a_load_that_a_need_changes_is_told_in_words_only(page: Page, demo_url: str) -> None:
    page.goto(f"{demo_url}{BALLAST}?needs=thin-bones")
    held = page.locator(".kit-list .kit-load")
    expect(held).to_have_text(["2 × 2.5 litres of water (2.5 kg each)", "3 litres of water (3 kg)"])
    expect(held.first.locator(".vessel")).to_have_count(0)
    expect(held.last.locator(".vessel")).to_have_count(1)  # as in the video

    page.locator("button[data-turn=uneven-cargo]").click()
    expect(page.locator("#turn-panel .panel-one-load")).to_have_text(["2 × 2.5 litres water, 2.5 kg each "])
    expect(page.locator("#turn-panel .vessel")).to_have_count(0)
