"""Needs on the page: the fitting version first, what changed and why, gaps, limits, links, other pages."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from sitegen.building.build import Builder
from sitegen.reading.reader import read_series
from sitegen.study.adapted import adapted, split_to_fit
from sitegen.study.forms import forms_of
from sitegen.study.suitability import Suitability
from tests.browser.episodes import BALLAST, STEADY_PULL, choose_needs, part, start_turn
from tests.conftest import fresh_tab
from tests.folders import SeriesFolder
from tests.tabs import SIZE


@pytest.fixture(scope="module")
def ballast_tab(chromium: Browser, demo_url: str) -> Iterator[Page]:
    """The tab of ``ballast``."""
    with fresh_tab(chromium, viewport=SIZE) as page:
        page.goto(demo_url + BALLAST, wait_until="domcontentloaded")
        yield page


@pytest.fixture
def ballast(ballast_tab: Page) -> Page:
    """An episode's page, opened once: no need is chosen, the panel is shut and the choice of needs folded."""
    if part(ballast_tab, "close").is_visible():
        part(ballast_tab, "close").click()
    ballast_tab.evaluate(
        "() => { Needs.set([]); localStorage.clear(); document.getElementById('needs').open = false; }"
    )
    return ballast_tab


def test_a_need_puts_the_fitting_version_first_and_says_why_and_the_filmed_form_comes_back_when_it_goes(
    page: Page, demo_url: str
) -> None:
    page.goto(demo_url + STEADY_PULL)
    before = page.locator("#tin-press").inner_html()
    choose_needs(page, ["arms-low"])
    press = page.locator("#tin-press")

    expect(press.locator(".for-you h4")).to_contain_text("Low tin press")
    expect(press.locator(".for-you .why")).to_contain_text("In the video it is Tin press.")
    expect(press.locator(".for-you .why")).to_contain_text("This version avoids")
    expect(press.locator(".for-you .why")).to_contain_text("Robin Vale's choice for this need.")
    expect(press.locator(".as-filmed > summary")).to_have_text("As in the video: Tin press")
    expect(page.locator("#reverse-lunge .for-you")).to_have_count(0)
    expect(page.locator("#needs > summary")).to_have_text("For you: Sore shoulder")

    page.get_by_label("Sore shoulder").uncheck()
    assert page.locator("#tin-press").inner_html() == before


def test_the_panel_leads_through_the_version(ballast: Page) -> None:
    choose_needs(ballast, ["arms-low"])
    start_turn(ballast, "press-and-prop")

    expect(part(ballast, "name")).to_have_text("Cushion press, sitting or upright")
    expect(part(ballast, "why")).to_have_text("instead of Floor press")


def test_the_choice_is_kept_and_follows_to_the_sheet_and_to_other_sessions(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL, wait_until="domcontentloaded")
    choose_needs(page, ["no-jumping", "arms-low"])
    page.get_by_role("link", name="Sheet to print").click()

    page.wait_for_url("**/sheet/index.html*")
    expect(page.get_by_text("Low tin press").first).to_be_visible()
    assert page.evaluate("Needs.chosen()") == ["arms-low", "no-jumping"]

    page.goto(demo_url + BALLAST, wait_until="domcontentloaded")
    expect(page.locator("#squat-thrust .for-you h4")).to_be_attached()
    assert page.evaluate("Needs.chosen()") == ["arms-low", "no-jumping"]


def test_a_link_carries_the_choice_and_after_it_ones_own_change_holds(page: Page, demo_url: str) -> None:
    page.goto(f"{demo_url}{STEADY_PULL}?needs=seated,arms-low", wait_until="domcontentloaded")
    assert page.evaluate("Needs.chosen()") == ["arms-low", "seated"]

    choose_needs(page, ["no-jumping"])
    assert page.url.endswith("?needs=arms-low,no-jumping,seated")
    page.reload(wait_until="domcontentloaded")
    assert page.evaluate("Needs.chosen()") == ["arms-low", "no-jumping", "seated"]
    page.goto(demo_url + BALLAST, wait_until="domcontentloaded")
    assert page.evaluate("Needs.chosen()") == ["arms-low", "no-jumping", "seated"]


def test_another_tab_follows_and_the_version_is_sent_as_a_link_to_the_published_page(
    context: BrowserContext, demo_url: str
) -> None:
    context.grant_permissions(["clipboard-read", "clipboard-write"])
    other, one = context.new_page(), context.new_page()
    for page in (other, one):
        page.goto(demo_url + STEADY_PULL, wait_until="domcontentloaded")
    choose_needs(one, ["no-jumping", "arms-low"])

    expect(other.locator("#tin-press .for-you")).to_be_attached()
    expect(other.locator("input[name=need][value=arms-low]")).to_be_checked()

    one.get_by_role("button", name="Copy a link to this version").click()
    expect(one.locator(".needs-share output")).to_contain_text("Copied.")
    copied = one.evaluate("navigator.clipboard.readText()")
    assert copied == "https://movement.example/galley/episodes/steady-pull/?needs=arms-low,no-jumping"


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


def test_a_session_that_is_too_long_comes_in_sittings(page: Page, short_site: Path, serve_folder) -> None:
    series = read_series(short_site.parent / "content")
    forms = forms_of(series.exercises)
    suitability = Suitability(series.details, forms)
    page.goto(f"{serve_folder(short_site)}episodes/first-steps/index.html?needs=short")
    note = page.locator(".needs-note")

    for needs in (["short"], ["short", "seated"], ["short", "calm"]):
        done = adapted(series.details, forms, suitability, series.episodes[0], needs)
        shared = split_to_fit(series.details, forms, done, 240)
        assert len(shared) > 1

        page.evaluate("needs => Needs.set(needs)", needs)
        expect(note).to_contain_text("Your longest session is 4 min. This one takes up to")
        for number, blocks in enumerate(shared, start=1):
            names = ", ".join(done.blocks[index].name for index in blocks)
            expect(note).to_contain_text(f"Sitting {number}: {names}.")
        expect(note).not_to_contain_text(f"Sitting {len(shared) + 1}:")


def test_what_to_fetch_follows_the_versions(ballast: Page) -> None:
    before = ballast.locator(".kit-list").inner_html()
    choose_needs(ballast, ["wheelchair"])

    names = ballast.locator(".kit-list strong").all_inner_texts()
    assert "Stairs or a step" not in names
    assert "Bath towel" in names
    expect(ballast.locator(".kit-list li.for-version").first).to_contain_text("For your version:")
    expect(ballast.locator(".kit-uneven")).not_to_contain_text("Carrier deadlift")
    ballast.get_by_label("From a wheelchair, without the legs").uncheck()
    expect(ballast.locator(".kit-list li.for-version")).to_have_count(0)
    assert ballast.locator(".kit-list").inner_html() == before


def test_limits_show_on_the_page_and_in_the_panel(ballast: Page) -> None:
    choose_needs(ballast, ["no-straining"])
    deadlift = ballast.locator("#carrier-deadlift .for-you")

    expect(deadlift.locator(".item-facts")).to_contain_text("Hold 2 × 2.5 litres of water (2.5 kg each)")
    expect(deadlift.locator(".item-facts")).to_contain_text("at most effort 6 of 10")
    expect(deadlift.locator("h4")).to_contain_text("Deadlift from a chair seat")
    step_up = ballast.locator("#step-up")
    expect(step_up.locator(".why")).to_have_text("The same exercise as in the video, adjusted for you.")
    assert step_up.locator(".for-you .cues li").all_inner_texts()
    expect(deadlift.locator(".lost")).to_contain_text("Changed from the usual:")
    expect(deadlift.locator(".lost")).to_contain_text("a lighter load")
    expect(deadlift.locator(".caution")).to_contain_text("Take care:")
    expect(ballast.locator("#up-and-over .part-for-you")).to_contain_text("go at your own pace")
    expect(ballast.locator(".kit-list")).to_contain_text("2 × 2.5 litres of water")
    expect(ballast.locator(".kit-list")).not_to_contain_text("in the other")

    start_turn(ballast, "uneven-cargo")
    expect(part(ballast, "load")).to_have_text("2 × 2.5 litres water, 2.5 kg each")
    expect(part(ballast, "how")).to_contain_text("at most effort 6 of 10")
    expect(part(ballast, "care")).to_contain_text("Take care:")
    expect(part(ballast, "why")).to_contain_text("Carrier deadlift")


def test_the_session_is_told_for_the_needs_that_are_chosen(ballast: Page) -> None:
    """Advice before all, the course without the clock, and only the cautions that concern the forms shown."""
    how = ballast.locator("#up-and-over .how")
    advice, caution = ballast.locator(".needs-advice"), ballast.locator(".care [data-about=straining]")
    expect(advice).to_be_hidden()
    expect(how).to_contain_text("As many rounds as possible")
    expect(caution).to_be_visible()

    choose_needs(ballast, ["wheelchair"])
    expect(advice).to_contain_text("Lock both brakes")
    expect(advice.get_by_role("link")).to_have_attribute("href", "../../needs/wheelchair/index.html")
    expect(advice.locator("[data-need=thin-bones]")).to_be_hidden()
    expect(caution).to_be_hidden()
    expect(ballast.locator(".kit-list")).not_to_contain_text("Sturdy chair")

    ballast.locator("input[name=need][value=steady-feet]").check()
    expect(how).to_contain_text("Circuit")
    expect(how).not_to_contain_text("As many rounds as possible")
    expect(ballast.locator("#up-and-over .block-note")).to_contain_text("In the video:")


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
