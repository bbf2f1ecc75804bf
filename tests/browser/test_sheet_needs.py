"""A sheet for somebody's needs: the study's choice, said on the paper, and still one page."""

import itertools
import os
from collections.abc import Iterable, Iterator
from types import SimpleNamespace

import pytest
from playwright.sync_api import Browser, Page, expect

from sitegen.model import Episode, Series
from sitegen.pages.drawings import Drawings
from sitegen.pages.sheets.pages import SheetMaker
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.pages.views import Views
from sitegen.resources import themes_folder
from sitegen.study.forms import Form, Forms, forms_of
from sitegen.study.suitability import Suitability
from tests.browser.audit import LOOKS, unfold, violations_in
from tests.browser.printed import opened, overlapping, plain, read_pages, smallest_type
from tests.conftest import fresh_tab
from tests.sheet_views import coverage

NEED_STEP = int(os.environ.get("NEED_STEP", "5"))
BALLAST = "episodes/ballast/sheet/index.html"
PAGES = (
    BALLAST,
    "episodes/ballast/sheet/large/index.html",
    "episodes/ballast/sheet/weeks/index.html",
    "sheets/index.html",
)


@pytest.fixture(scope="session")
def forms(demo_series: Series) -> Forms:
    return forms_of(demo_series.exercises)


@pytest.fixture(scope="module")
def ballast_tab(chromium: Browser, demo_url: str) -> Iterator[Page]:
    """The tab of ``ballast``."""
    with fresh_tab(chromium) as page:
        yield opened(page, demo_url + BALLAST)


@pytest.fixture
def ballast(ballast_tab: Page) -> Page:
    """A sheet, opened once, on which no need is chosen."""
    choose(ballast_tab, [])
    return ballast_tab


def choose(page: Page, needs: list[str]) -> None:
    """Fit the opened sheet to these needs alone, as ticking them does."""
    page.evaluate("async needs => { Needs.set(needs); await document.fonts.ready; }", needs)


def names_on(page: Page) -> list[str]:
    """What the sheet asks for, item by item; empty for one that is to be left out."""
    script = "rows => rows.map(row => (row.querySelector('.name') || {textContent: ''}).textContent)"
    return list(page.locator("[data-item]").evaluate_all(script))


def drawn_on(page: Page) -> list[str]:
    """What the drawings of each item show, in words; empty for an item without one."""
    script = """async rows => {
      await Promise.all([...document.querySelectorAll('img.drawing')].map(one => one.decode()));
      return rows.map(row => row.querySelector('svg[role=img]')?.getAttribute('aria-label')
        || row.querySelector('img.key')?.alt || '');
    }"""
    return list(page.locator("[data-item]").evaluate_all(script))


def chosen(series: Series, forms: Forms, episode: Episode, needs: list[str]) -> list[Form | None]:
    session = Suitability(series.details, forms).session(episode, needs)
    return [version.form if version else None for block in session for version in block]


DRAWINGS = Drawings(Theme(themes_folder() / "tidewater", "en").strings.drawings)


def drawn(form: Form | None) -> str:
    """What the drawing of a form shows, in words."""
    drawing = DRAWINGS.of(form) if form else None
    return drawing.words if drawing else ""


NEEDS = [
    ["no-jumping"],
    ["seated"],
    ["arms-low", "no-floor"],
    ["weak-grip", "thin-bones"],
    ["no-floor", "weak-grip"],
]


@pytest.mark.parametrize(
    ("number", "kind", "every"),
    [
        pytest.param(1, "", NEEDS[::2], id="a sheet"),
        pytest.param(7, "", NEEDS[1::2], id="another session"),
        pytest.param(7, "large/", NEEDS[1:2], id="large print"),
        pytest.param(7, "weeks/", NEEDS[2:3], id="four weeks"),
        *(
            pytest.param(n, "", NEEDS, id=f"all needs, {n}", marks=pytest.mark.thorough)
            for n in range(0, 12, 3)
        ),
    ],
)
def test_every_sheet_shows_the_forms_that_the_study_chooses_and_their_kit(
    page: Page,
    demo_url: str,
    demo_series: Series,
    forms: Forms,
    number: int,
    kind: str,
    every: list[list[str]],
) -> None:
    """The three kinds of sheet have one script. The first needs come by the address."""
    episode = demo_series.episodes[number]
    opened(page, f"{demo_url}episodes/{episode.slug}/sheet/{kind}index.html?needs={','.join(every[0])}")
    for needs in every:
        if needs != every[0]:
            choose(page, needs)
        asked = chosen(demo_series, forms, episode, needs)
        assert names_on(page) == [form.name if form else "" for form in asked], needs
        if kind != "weeks/":  # those have no room for drawings
            assert drawn_on(page) == list(map(drawn, asked)), needs
        if not kind:
            used = {piece for form in asked if form for piece in form.kit}
            shown = page.locator(".sheet-kit .piece b").all_text_contents()
            named = {
                name.partition("×\N{NO-BREAK SPACE}")[2] or name for name in shown
            }  # with how many of it
            assert named == {demo_series.details.kit[piece].name for piece in used}, needs


def test_what_it_is_adapted_to_is_said_and_what_it_stands_for(page: Page, demo_url: str) -> None:
    opened(page, f"{demo_url}episodes/crosswind/sheet/index.html?needs=no-jumping")
    expect(page.locator("#sheet-adapted")).to_have_text("Adapted: No jumping")
    expect(page.locator(".sheet-others")).to_be_hidden()
    item = page.locator("[data-item]", has_text="Instead of Side hop")
    expect(item).to_have_count(1)
    expect(item.locator(".name")).not_to_have_text("Side hop")
    expect(item.locator(".cue")).to_be_visible()
    # Nothing of the exercise filmed stays beside it: neither its dose nor its vessels.
    expect(item.locator(".sheet-dose")).to_have_text("10 reps")
    expect(item.locator(".vessel")).to_have_count(0)


OFFERED = {
    "nothing chosen": ("", True),
    "a need": ("?needs=wheelchair", False),
    "a need that is not offered": ("?needs=wheelchairs", False),
}


@pytest.mark.parametrize(("asked", "offered"), OFFERED.values(), ids=OFFERED)
def test_files_printed_as_filmed_are_offered_to_nobody_with_a_need(
    asked: str, offered: bool, page: Page, demo_url: str, demo_series: Series
) -> None:
    """The demo of the tests is built without them, so its page is made again as with them."""
    site = Site(demo_series, {}, Theme(themes_folder() / "tidewater", "en"), "")
    [episode] = [one for one in demo_series.episodes if one.slug == "ballast"]
    numbers = coverage(site, episode)
    site.facts = SimpleNamespace(of=lambda *_: numbers)  # type: ignore[assignment]
    made = SheetMaker(site, Views(site), with_pdf=True).usual(episode)
    page.route(
        f"**/{BALLAST}*", lambda route: route.fulfill(body=made, content_type="text/html; charset=utf-8")
    )
    opened(page, f"{demo_url}{BALLAST}{asked}")
    files = page.locator(".sheet-forms a[href$='.pdf']")
    expect(files).to_have_count(3)
    for place in range(3):
        expect(files.nth(place)).to_be_visible(visible=offered)
    expect(page.locator(".sheet-forms a:visible")).to_have_count(6 if offered else 3)


def test_without_needs_the_page_is_as_it_was_built(page: Page, demo_url: str) -> None:
    opened(page, demo_url + BALLAST)
    before = page.locator(".sheet").inner_html()
    expect(page.locator("#sheet-adapted")).to_be_hidden()
    page.locator(".sheet-needs summary").click()
    page.get_by_label("Whole session seated").check()
    expect(page.locator("#sheet-adapted")).to_be_visible()
    page.get_by_label("Whole session seated").uncheck()
    expect(page.locator("#sheet-adapted")).to_be_hidden()
    after = page.locator(".sheet").inner_html()
    assert after.replace('<p class="sheet-adapted" id="sheet-adapted" hidden=""></p>', "") == before.replace(
        '<p class="sheet-adapted" id="sheet-adapted" hidden=""></p>', ""
    )


def test_a_choice_made_on_the_episodes_page_carries_over(page: Page, demo_url: str) -> None:
    page.goto(f"{demo_url}episodes/ballast/index.html?needs=seated")
    page.get_by_role("link", name="Sheet to print").first.click()
    expect(page.locator("#sheet-adapted")).to_have_text("Adapted: Whole session seated")


def test_a_plan_for_uneven_loads_goes_with_the_loads(ballast: Page) -> None:
    carry = ballast.locator("[data-item]", has_text="Two-hand carry with uneven loads")
    expect(carry.locator(".plan")).to_have_text(
        "Heavier load set 1 left · set 2 right · set 3 left 20, then right 20"
    )
    choose(ballast, ["weak-grip"])
    assert "Heavier load" not in ballast.locator(".sheet").inner_text()
    assert "5 litres of water in one hand" not in ballast.locator(".sheet").inner_text()


def test_the_name_is_a_blank_line_and_nothing_of_it_is_stored(ballast: Page) -> None:
    choose(ballast, ["seated"])
    assert ballast.locator(".sheet input, .sheet textarea, .sheet [contenteditable]").count() == 0
    stored = ballast.evaluate("Object.keys(localStorage)")
    assert len(stored) == 1
    assert stored[0].endswith("needs")


def test_every_personal_sheet_is_one_legible_page(
    chromium: Browser, demo_url: str, demo_series: Series
) -> None:
    """A session for some of the needs, from a telephone: what is measured is the paper, not the screen.

    ``python -m tests.bench choice`` takes every need.
    """
    with fresh_tab(chromium, viewport={"width": 390, "height": 800}) as page:
        for episode in demo_series.episodes[5:6]:
            opened(page, f"{demo_url}episodes/{episode.slug}/sheet/index.html")
            for need, paper in zip(
                [*demo_series.details.needs][::NEED_STEP], itertools.cycle(("Letter", "A4")), strict=False
            ):
                choose(page, [need])
                pages = read_pages(page.pdf(format=paper))
                assert len(pages) == 1, (episode.slug, need)
                assert smallest_type(pages[0]) >= 8.98
                assert overlapping(pages[0]) == []
                assert plain("Adapted:") in pages[0].text


@pytest.mark.parametrize(
    "some",
    [
        pytest.param(slice(5, 6), id="a session"),
        pytest.param(slice(None, None, 5), id="some", marks=pytest.mark.thorough),
    ],
)
def test_where_the_font_does_not_arrive_the_page_measures_and_still_fits(
    page: Page, demo_url: str, demo_series: Series, some: slice
) -> None:
    page.route("**/*.woff2", lambda route: route.abort())
    for episode in demo_series.episodes[some]:
        opened(page, f"{demo_url}episodes/{episode.slug}/sheet/index.html")
        pages = read_pages(page.pdf(format="Letter"))
        assert len(pages) == 1 or page.locator(".sheet-many").count() == 1
        # Other fonts tuck a letter under the bar of a T, or a comma under an r further than the sheet's own.
        tucked = {("a", "T"), ("T", "a"), ("e", "T"), ("T", "e"), (",", "r")}
        assert all(set(overlapping(one)) <= tucked for one in pages)


@pytest.mark.parametrize(
    "looks",
    [
        # Large print differs from the sheet in its measures alone; the colours are the same for all.
        pytest.param(
            dict(zip(PAGES, (["phone, light"], [], ["desktop, dark"], ["phone, light"]), strict=True)),
            id="a look each",
        ),
        pytest.param(dict.fromkeys(PAGES, LOOKS), id="all looks", marks=pytest.mark.thorough),
    ],
)
def test_the_pages_are_open_to_everybody(page: Page, demo_url: str, looks: dict[str, Iterable[str]]) -> None:
    found = {}
    for address in filter(looks.get, looks):
        opened(page, demo_url + address)
        unfold(page)
        found[address] = violations_in(looks[address], page)
    assert not any(found.values()), found


def test_the_print_button_prints(ballast: Page) -> None:
    ballast.evaluate("window.print = () => { document.body.dataset.printed = 'yes'; }")
    ballast.get_by_role("button", name="Print this sheet").click()
    expect(ballast.locator("body")).to_have_attribute("data-printed", "yes")


def test_what_several_limits_change_is_told_together(page: Page, demo_url: str) -> None:
    """Session 7 films a squat with a quick lift and two in reserve; the need changes both."""
    for kind in ("", "large/"):
        opened(page, f"{demo_url}episodes/night-watch/sheet/{kind}index.html?needs=no-straining")
        squat = page.locator("[data-item]", has_text="Squat with a hugged backpack")
        expect(squat.locator(".pace")).to_have_text("tempo 3-1-2-0 · at most effort 6 of 10")


@pytest.mark.parametrize("kind", ["", "weeks/"], ids=["sheet", "four weeks"])
def test_rounds_without_the_clock_have_their_number_and_as_many_boxes(
    page: Page, demo_url: str, kind: str
) -> None:
    opened(page, f"{demo_url}episodes/home-berth/sheet/{kind}index.html?needs=steady-feet")
    head = page.locator(".sheet-how, th[scope=rowgroup]", has_text="without the clock")
    expect(head.first).to_contain_text("Circuit · 5 rounds")
    expect(page.locator("body")).not_to_contain_text("As many rounds")
    if not kind:
        expect(page.locator(".round")).to_have_count(5)
        page.locator(".sheet-needs summary").click()
        page.locator("input[name=need][value=steady-feet]").uncheck()
        expect(page.locator(".round")).to_have_count(10)
        expect(page.locator("body")).to_contain_text("As many rounds")
