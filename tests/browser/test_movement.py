"""The button that sets a drawn movement going."""

import pytest
from playwright.sync_api import Locator, Page, expect

ALL_OF_IT_MS = 3 * 2 * 1600
"""Three times there and back."""


@pytest.fixture
def button(standing: Page, demo_url: str) -> Locator:
    """The button of a movement; the page's clock stands still until the test moves it."""
    standing.goto(f"{demo_url}exercises/chair-squat/index.html")
    return standing.get_by_role("button", name="Show the movement")


def test_the_first_picture_moves_and_comes_to_rest_where_it_was(standing: Page, button: Locator):
    head = standing.locator("ol.movement svg").first.locator(".d-head")
    before = head.get_attribute("cy")

    button.click()
    standing.clock.run_for(ALL_OF_IT_MS / 2 - 800)

    expect(button).to_be_disabled()
    expect(head).not_to_have_attribute("cy", before)
    standing.clock.run_for(ALL_OF_IT_MS / 2 + 900)
    expect(button).to_be_enabled()
    assert float(head.get_attribute("cy")) == float(before)


def test_without_motion_only_the_two_poses_are_shown(standing: Page, button: Locator):
    standing.emulate_media(reduced_motion="reduce")
    standing.evaluate(
        """() => {
            const head = document.querySelector('ol.movement svg .d-head');
            window.seen = new Set();
            const note = () => seen.add(Number(head.getAttribute('cy')));
            new MutationObserver(note).observe(head, {attributes: true});
        }"""
    )

    button.click()
    # Every picture is looked at by the observer, which is told after each step of the clock.
    for _ in range(20):
        standing.clock.run_for(ALL_OF_IT_MS / 20 + 10)

    expect(button).to_be_enabled()
    assert standing.evaluate("seen.size") == 2


def test_a_form_that_is_held_has_no_button(page: Page, demo_url: str):
    page.goto(f"{demo_url}exercises/wall-sit/index.html")

    expect(page.locator("ol.movement svg.drawing")).to_have_count(1)
    expect(page.get_by_role("button", name="Show the movement")).to_have_count(0)
