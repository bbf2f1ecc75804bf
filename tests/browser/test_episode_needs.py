"""Needs on the page: the fitting version first, what changed and why, gaps, limits, links, other pages."""

from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from sitegen.building.build import Builder
from sitegen.reading.reader import read_series
from sitegen.study.adapted import adapted, split_to_fit
from sitegen.study.forms import forms_of
from sitegen.study.suitability import Suitability
from tests.browser.episodes import BALLAST, STEADY_PULL, choose_needs, part, start_turn
from tests.folders import SeriesFolder


def test_a_need_puts_the_fitting_version_first_and_says_why(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)
    choose_needs(page, ["arms-low"])
    press = page.locator("#tin-press")

    expect(press.locator(".for-you h4")).to_contain_text("Low tin press")
    expect(press.locator(".for-you .why")).to_contain_text("In the video it is Tin press.")
    expect(press.locator(".for-you .why")).to_contain_text("This version avoids")
    expect(press.locator(".for-you .why")).to_contain_text("Robin Vale's choice for this need.")
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

    expect(part(page, "name")).to_have_text("Cushion press, sitting or upright")
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


@pytest.mark.parametrize("needs", [["short"], ["short", "seated"], ["short", "calm"]], ids=" and ".join)
def test_a_session_that_is_too_long_comes_in_sittings(
    page: Page, short_site: Path, serve_folder, needs: list[str]
) -> None:
    series = read_series(short_site.parent / "content")
    forms = forms_of(series.exercises)
    suitability = Suitability(series.details, forms)
    done = adapted(series.details, forms, suitability, series.episodes[0], needs)
    shared = split_to_fit(series.details, forms, done, 240)
    assert len(shared) > 1

    page.goto(f"{serve_folder(short_site)}episodes/first-steps/index.html?needs={','.join(needs)}")
    note = page.locator(".needs-note")
    expect(note).to_contain_text("Your longest session is 4 min. This one takes up to")
    for number, blocks in enumerate(shared, start=1):
        names = ", ".join(done.blocks[index].name for index in blocks)
        expect(note).to_contain_text(f"Sitting {number}: {names}.")
    expect(note).not_to_contain_text(f"Sitting {len(shared) + 1}:")


def test_what_to_fetch_follows_the_versions(page: Page, demo_url: str) -> None:
    page.goto(demo_url + BALLAST)
    before = page.locator(".kit-list").inner_html()
    choose_needs(page, ["wheelchair"])

    names = page.locator(".kit-list strong").all_inner_texts()
    assert "Stairs or a step" not in names
    assert "Bath towel" in names
    expect(page.locator(".kit-list li.for-version").first).to_contain_text("For your version:")
    expect(page.locator(".kit-uneven")).not_to_contain_text("Carrier deadlift")
    page.get_by_label("From a wheelchair, without the legs").uncheck()
    expect(page.locator(".kit-list li.for-version")).to_have_count(0)
    assert page.locator(".kit-list").inner_html() == before


def test_limits_show_on_the_page_and_in_the_panel(page: Page, demo_url: str) -> None:
    page.goto(demo_url + BALLAST)
    choose_needs(page, ["no-straining"])
    deadlift = page.locator("#carrier-deadlift .for-you")

    expect(deadlift.locator(".item-facts")).to_contain_text("Hold 2 × 2.5 l of water (2.5 kg each)")
    expect(deadlift.locator(".item-facts")).to_contain_text("at least 4 in reserve")
    expect(deadlift.locator("h4")).to_contain_text("Deadlift from a chair seat")
    step_up = page.locator("#step-up")
    expect(step_up.locator(".why")).to_have_text("The same exercise as in the video, adjusted for you.")
    assert step_up.locator(".for-you .cues li").all_inner_texts()
    expect(deadlift.locator(".lost")).to_contain_text("Against the video:")
    expect(deadlift.locator(".lost")).to_contain_text("a lighter load")
    expect(deadlift.locator(".caution")).to_contain_text("Take care:")
    expect(page.locator("#up-and-over .part-for-you")).to_contain_text("go at your own pace")
    expect(page.locator(".kit-list")).to_contain_text("2 × 2.5 l of water")
    expect(page.locator(".kit-list")).not_to_contain_text("5 l of water and 3 l of water")

    start_turn(page, "uneven-cargo")
    expect(part(page, "load")).to_have_text("2 × 2.5 l")
    expect(part(page, "weights")).to_have_text("2 × 2.5 l of water (2.5 kg each)")
    expect(part(page, "how")).to_contain_text("at least 4 in reserve")
    expect(part(page, "care")).to_contain_text("Take care:")
    expect(part(page, "why")).to_contain_text("Carrier deadlift")


def test_the_session_is_told_for_the_needs_that_are_chosen(page: Page, demo_url: str) -> None:
    """Advice before all, the course without the clock, and only the cautions that concern the forms shown."""
    page.goto(demo_url + BALLAST)
    how = page.locator("#up-and-over .how")
    advice, caution = page.locator(".needs-advice"), page.locator(".care [data-about=straining]")
    expect(advice).to_be_hidden()
    expect(how).to_contain_text("As many rounds as possible")
    expect(caution).to_be_visible()

    choose_needs(page, ["wheelchair"])
    expect(advice).to_contain_text("Lock both brakes")
    expect(advice.get_by_role("link")).to_have_attribute("href", "../../needs/wheelchair/index.html")
    expect(advice.locator("[data-need=thin-bones]")).to_be_hidden()
    expect(caution).to_be_hidden()
    expect(page.locator(".kit-list")).not_to_contain_text("Sturdy chair")

    page.locator("input[name=need][value=steady-feet]").check()
    expect(how).to_contain_text("Circuit")
    expect(how).not_to_contain_text("As many rounds as possible")
    expect(page.locator("#up-and-over .block-note")).to_contain_text("In the video:")


@pytest.fixture(scope="module")
def short_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The starter's series with a need for short sessions and one that shuns the clock."""
    folder = tmp_path_factory.mktemp("short")
    series = SeriesFolder(folder)
    needs = (
        "needs:\n  short: {name: Short, limits: {session: 4 min}}\n  calm: {name: Calm, limits: {speed: no}}"
    )
    series.edit("series.yaml", "needs:", needs)
    Builder(series.root, folder / "build", jobs=1).build()
    return folder / "build"


@pytest.fixture
def gap_site(tmp_path: Path) -> Path:
    """A series in which one exercise has no version for somebody who sits."""
    series = SeriesFolder(tmp_path)
    series.write(
        "exercises/hop.yaml",
        "name: Hop\npattern: locomotion\nmuscles: {prime: [calves]}\ndemands: [jumping, standing]\n",
    )
    series.edit("episodes/01-first-steps.yaml", "exercise: jumping-jack", "exercise: hop")
    Builder(series.root, tmp_path / "build", jobs=1).build()
    return tmp_path / "build"
