"""Needs on the page: the fitting version first, what changed and why, gaps, links, other pages."""

import itertools
import json
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.pages.views import Views
from sitegen.reading.reader import read_content
from tests.browser.episodes import BALLAST, STEADY_PULL, choose_needs, part, start_turn
from tests.conftest import DEMO, ROOT


def test_a_need_puts_the_fitting_version_first_and_says_why(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)
    choose_needs(page, ["arms-low"])
    press = page.locator("#tin-press")

    expect(press.locator(".for-you h4")).to_contain_text("Low tin press")
    expect(press.locator(".for-you .why")).to_contain_text("In the video it is Tin press.")
    expect(press.locator(".for-you .why")).to_contain_text("This version spares you")
    expect(press.locator(".for-you .why")).to_contain_text("Robin Vale chose this version for you.")
    expect(press.locator(".as-filmed > summary")).to_have_text("As in the video: Tin press")
    expect(page.locator("#reverse-lunge .for-you")).to_have_count(0)
    expect(page.locator("#needs > summary")).to_have_text("For you: Arms below the shoulder")


def test_the_filmed_form_comes_back_when_the_need_goes(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)
    before = page.locator("#tin-press").inner_html()
    choose_needs(page, ["arms-low"])
    page.get_by_label("Arms below the shoulder").uncheck()

    assert page.locator("#tin-press").inner_html() == before


def test_the_panel_leads_through_the_version(page: Page, demo_url: str) -> None:
    page.goto(demo_url + BALLAST)
    choose_needs(page, ["arms-low"])
    start_turn(page, "press-and-prop")

    expect(part(page, "name")).to_have_text("Floor press with pressed palms")
    expect(part(page, "why")).to_have_text("instead of Floor press")


def test_the_choice_is_kept_and_follows_to_other_pages(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)
    choose_needs(page, ["no-jumping", "arms-low"])
    page.reload()
    expect(page.locator("#tin-press .for-you")).to_be_visible()

    page.goto(demo_url + BALLAST)
    expect(page.locator("#squat-thrust .for-you h4")).to_be_attached()
    assert page.evaluate("Needs.chosen()") == ["arms-low", "no-jumping"]


def test_it_follows_to_the_sheet(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)
    choose_needs(page, ["arms-low"])

    page.get_by_role("link", name="Sheet to print").click()

    page.wait_for_url("**/sheet/index.html*")
    expect(page.get_by_text("Low tin press").first).to_be_visible()
    assert page.evaluate("Needs.chosen()") == ["arms-low"]


def test_a_link_carries_the_choice(page: Page, demo_url: str) -> None:
    page.goto(f"{demo_url}{STEADY_PULL}?needs=seated,arms-low,no-such-need")

    assert page.evaluate("Needs.chosen()") == ["arms-low", "seated"]
    page.goto(demo_url + BALLAST)
    assert page.evaluate("Needs.chosen()") == ["arms-low", "seated"]


def test_after_a_link_ones_own_change_holds(page: Page, demo_url: str) -> None:
    page.goto(f"{demo_url}{STEADY_PULL}?needs=arms-low")
    choose_needs(page, ["no-jumping"])
    assert page.url.endswith("?needs=arms-low,no-jumping")
    page.reload()
    assert page.evaluate("Needs.chosen()") == ["arms-low", "no-jumping"]


def test_the_version_is_sent_as_a_link_to_the_published_page(context: BrowserContext, demo_url: str) -> None:
    context.grant_permissions(["clipboard-read", "clipboard-write"])
    page = context.new_page()
    page.goto(demo_url + STEADY_PULL)
    choose_needs(page, ["no-jumping", "arms-low"])
    page.get_by_role("button", name="Copy a link to this version").click()

    expect(page.locator(".needs-share output")).to_contain_text("Copied.")
    copied = page.evaluate("navigator.clipboard.readText()")
    assert copied == "https://movement.example/galley/episodes/steady-pull/?needs=arms-low,no-jumping"


def test_another_tab_follows(context: BrowserContext, demo_url: str) -> None:
    one, other = context.new_page(), context.new_page()
    one.goto(demo_url + STEADY_PULL)
    other.goto(demo_url + STEADY_PULL)

    choose_needs(one, ["arms-low"])

    expect(other.locator("#tin-press .for-you")).to_be_attached()
    expect(other.get_by_label("Arms below the shoulder")).to_be_checked()


def test_a_gap_is_said_honestly(page: Page, gap_site: Path, serve_folder) -> None:
    page.goto(serve_folder(gap_site) + "episodes/first-steps/index.html")
    choose_needs(page, ["seated"])
    gap = page.locator("#hop .for-you")

    expect(gap).to_have_text(
        "No version in this series without jumping, standing. Leave it out, or ask Your name."
    )
    start_turn(page, "get-warm")
    expect(part(page, "name")).to_have_text(
        "Nothing in this part fits what you leave out. Carry on with the video, or ask Your name."
    )


def test_scripts_choose_the_same_forms_as_the_study(page: Page, demo_url: str) -> None:
    """Items of the demo, for every need and every pair of needs."""
    content = read_content(DEMO)
    assert content.series is not None
    site = Site(content.series, content.cues, Theme(ROOT / "themes/tidewater", "en"), "")
    adaptation = Views(site).adaptation
    needs = list(content.series.details.needs)
    wanted = [*([need] for need in needs), *(list(pair) for pair in itertools.combinations(needs, 2))]
    page.goto(demo_url + STEADY_PULL)
    chosen = (
        "([item, needs]) => needs.map(ids => { Needs.set(ids); const form = Needs.choose(item).form;"
        " return form && [form.name, form.dose]; })"
    )
    for episode in content.series.episodes[::3]:
        kit = adaptation.suitability.kit_at_hand(episode)
        for block in episode.blocks:
            for item in block.items:
                data = json.loads(json.dumps(adaptation.item_data(block, item, kit)))
                versions = [adaptation.suitability.version(item, ids, kit) for ids in wanted]
                expected = [
                    one and [one.form.name, site.phrases.dose(one.dose) or site.phrases.duration(block.work)]
                    for one in versions
                ]
                assert page.evaluate(chosen, [data, wanted]) == expected, (episode.slug, item.exercise)


@pytest.fixture
def gap_site(tmp_path: Path) -> Path:
    """A series in which one exercise has no version for somebody who sits."""
    from sitegen.building.build import Builder
    from tests.folders import SeriesFolder

    series = SeriesFolder(tmp_path)
    series.write(
        "exercises/hop.yaml",
        "name: Hop\npattern: locomotion\nmuscles: {prime: [calves]}\ndemands: [jumping, standing]\n",
    )
    series.edit("episodes/01-first-steps.yaml", "exercise: jumping-jack", "exercise: hop")
    Builder(series.root, tmp_path / "build", jobs=1).build()
    return tmp_path / "build"
