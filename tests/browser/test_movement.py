"""The button that sets a drawn movement going."""

from playwright.sync_api import Page, expect


def test_the_first_picture_moves_and_comes_to_rest_where_it_was(page: Page, demo_url: str):
    page.goto(f"{demo_url}exercises/chair-squat/index.html")
    button = page.get_by_role("button", name="Show the movement")
    trunk = page.locator("ol.movement svg").first.locator(".d-head")
    before = trunk.get_attribute("cy")

    button.click()

    expect(button).to_be_disabled()
    expect(trunk).not_to_have_attribute("cy", before)
    expect(button).to_be_enabled(timeout=20_000)
    assert float(trunk.get_attribute("cy")) == float(before)


def test_without_motion_only_the_two_poses_are_shown(context, demo_url: str):
    page = context.new_page()
    page.emulate_media(reduced_motion="reduce")
    page.goto(f"{demo_url}exercises/chair-squat/index.html")
    seen = page.evaluate(
        """() => new Promise((done) => {
            const head = document.querySelector('ol.movement svg .d-head');
            const button = document.querySelector('.movement-play');
            const seen = new Set();
            const watch = (node, act) => new MutationObserver(act).observe(node, {attributes: true});
            watch(head, () => seen.add(Number(head.getAttribute('cy'))));
            watch(button, () => { if (!button.disabled) done([...seen]); });
            button.click();
        })"""
    )

    assert len(seen) == 2


def test_a_form_that_is_held_has_no_button(page: Page, demo_url: str):
    page.goto(f"{demo_url}exercises/wall-sit/index.html")

    expect(page.locator("ol.movement svg.drawing")).to_have_count(1)
    expect(page.get_by_role("button", name="Show the movement")).to_have_count(0)
