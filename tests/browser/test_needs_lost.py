"""A page says for which needs it is shown; a need that the series does not offer is never dropped unsaid."""

import json
from collections.abc import Callable, Iterable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from sitegen.building.build import Builder
from tests.browser.episodes import BALLAST, STEADY_PULL, start_turn
from tests.folders import SeriesFolder

SHEET = "episodes/ballast/sheet/index.html"
ALL_NEEDS = "needs/index.html"
LINE = ".needs-line[data-needs-chosen]"
ALARM = ".needs-line-lost"


def expect_for_whom(page: Page) -> None:
    line = page.locator(LINE)
    expect(line).to_have_text("Shown for: Whole session seated, Weak grip. Change")
    expect(line).to_be_in_viewport(ratio=1)


@pytest.mark.parametrize("address", [STEADY_PULL, SHEET])
def test_a_shared_link_says_above_the_fold_for_whom_the_page_is_shown(
    page: Page, demo_url: str, address: str
) -> None:
    """On a desktop and on a telephone."""
    page.goto(f"{demo_url}{address}?needs=seated,weak-grip", wait_until="domcontentloaded")
    expect_for_whom(page)
    page.set_viewport_size({"width": 390, "height": 844})
    expect_for_whom(page)

    page.locator(LINE).get_by_role("link", name="Change").click()
    expect(page.get_by_label("Weak grip")).to_be_visible()
    page.get_by_label("Weak grip").uncheck()
    expect(page.locator(LINE)).to_have_text("Shown for: Whole session seated. Change")


def test_pages_that_lead_to_sessions_say_for_whom_these_open(page: Page, demo_url: str) -> None:
    line = page.locator(LINE)
    for query, address in {"?needs=seated": "index.html", "": "schedule/index.html"}.items():
        page.goto(f"{demo_url}{address}{query}")
        expect(line).to_contain_text("Sessions open for: Whole session seated.")
        expect(line).to_be_in_viewport(ratio=1)
    page.goto(demo_url + STEADY_PULL, wait_until="domcontentloaded")
    expect(line).to_contain_text("Shown for: Whole session seated.")


def test_without_needs_nothing_is_said(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)

    expect(page.locator("#needs")).to_be_visible()
    for hidden in (LINE, ALARM, "[data-needs-lost] >> nth=0"):
        expect(page.locator(hidden)).to_be_hidden()


PAGES = {
    "a need": "needs/seated/index.html",
    "large sheet": "episodes/ballast/sheet/large/index.html",
    "four weeks": "episodes/ballast/sheet/weeks/index.html",
    "all needs": ALL_NEEDS,
    "exercises": "exercises/index.html",
    "home": "index.html",
    "calendar": "schedule/index.html",
}
"""The sheet and the episode are in the tests below."""
ALIKE = ("four weeks", "all needs", "calendar")
"""Made like the large sheet, the page of a need and the home page."""


def expect_alarm(page: Page) -> None:
    alarm = page.get_by_role("alert")
    expect(alarm).to_contain_text("You asked for “sore-knee”.")
    expect(alarm).to_be_in_viewport()
    expect(alarm.get_by_role("link", name="Choose again")).to_be_visible()


@pytest.mark.parametrize(
    "address",
    [
        pytest.param(address, id=name, marks=pytest.mark.thorough if name in ALIKE else ())
        for name, address in PAGES.items()
    ],
)
def test_every_page_that_follows_needs_tells_of_a_lost_one(page: Page, demo_url: str, address: str) -> None:
    page.goto(f"{demo_url}{address}?needs=sore-knee,seated", wait_until="domcontentloaded")
    expect_alarm(page)


KEPT = {
    "a need that is gone": json.dumps(["sore-knee"]),
    "beside one that is there": json.dumps(["seated", "sore-knee"]),
    "damaged": "[sore-knee",
    "of another kind": json.dumps({"sore-knee": True}),
    "a name of the language": json.dumps(["__proto__", "sore-knee"]),
}


@pytest.mark.parametrize(
    ("cases", "addresses"),
    [
        # The scripts that read what was stored are the same on every page: a page of little else will do.
        pytest.param(KEPT, [ALL_NEEDS], id="on one page"),
        pytest.param(["a need that is gone"], [SHEET, BALLAST], id="from page to page"),
        pytest.param(KEPT, [SHEET, BALLAST], id="all of it", marks=pytest.mark.thorough),
    ],
)
def test_what_was_stored_is_not_forgotten(
    page: Page, demo_url: str, cases: Iterable[str], addresses: list[str]
) -> None:
    page.goto(demo_url + ALL_NEEDS)
    for case in cases:
        page.evaluate("kept => Needs.keep('needs', kept)", KEPT[case])
        for address in addresses:
            page.goto(demo_url + address, wait_until="domcontentloaded")
            expect(page.locator(ALARM)).to_contain_text("sore-knee")


def test_nothing_as_filmed_stands_unmarked(page: Page, demo_url: str) -> None:
    page.goto(f"{demo_url}{BALLAST}?needs=sore-knee")
    expect_alarm(page)
    parts = page.locator(".block")

    assert parts.count() > 2
    for part in parts.all():
        expect(part.locator(".needs-lost")).to_contain_text("Not fitted to “sore-knee”")
    start_turn(page, "press-and-prop")
    expect(page.locator("#turn-panel .needs-lost")).to_contain_text("Not fitted to “sore-knee”")
    expect(page.locator("#turn-panel .needs-lost")).to_be_in_viewport()


def test_the_sheet_says_so_too_and_its_paper(page: Page, demo_url: str) -> None:
    page.goto(f"{demo_url}{SHEET}?needs=sore-knee", wait_until="domcontentloaded")
    expect_alarm(page)
    page.emulate_media(media="print")

    expect(page.locator(".paper .needs-lost")).to_contain_text("Not fitted to “sore-knee”")


def test_choosing_again_is_acknowledged_only_by_oneself(page: Page, demo_url: str) -> None:
    page.goto(f"{demo_url}{STEADY_PULL}?needs=sore-knee")
    page.get_by_role("link", name="Choose again").click()
    page.get_by_label("Sore knees").check()
    expect(page.locator(ALARM)).to_be_visible()  # it may have been one of two

    page.get_by_role("button", name="Go on without it").click()
    expect(page.locator(ALARM)).to_be_hidden()
    expect(page.locator(".block .needs-lost").first).to_be_hidden()
    page.reload()
    expect(page.locator(LINE)).to_contain_text("Sore knees")
    expect(page.locator(ALARM)).to_be_hidden()


def test_a_link_sent_on_tells_the_next_reader(page: Page, demo_url: str) -> None:
    page.goto(f"{demo_url}{ALL_NEEDS}?needs=sore+knee,seated")
    sent = page.evaluate("Needs.link(location.href)")

    page.evaluate("localStorage.clear()")
    page.goto(sent)
    expect(page.locator(ALARM)).to_contain_text("“sore knee”")
    assert page.evaluate("Needs.chosen()") == ["seated"]


def test_a_link_is_text_and_its_length_is_bounded(page: Page, demo_url: str) -> None:
    junk = ",".join(f"<img src=x onerror=alert({n})>{'x' * 200}" for n in range(50))
    page.goto(f"{demo_url}{ALL_NEEDS}?needs={junk}")

    expect(page.locator(ALARM)).to_contain_text("<img src=x")
    assert page.locator(f"{ALARM} img").count() == 0
    assert len(page.locator(ALARM).inner_text()) < 1000


def test_a_need_that_was_renamed_goes_on(
    page: Page, tmp_path: Path, serve_folder: Callable[[Path], str]
) -> None:
    """Its page is said to have moved."""
    series, out = SeriesFolder(tmp_path), tmp_path / "site"
    details = (series.root / "series.yaml").read_text()
    series.write("series.yaml", details + "\nmoved:\n  needs/in-a-chair: needs/seated\n")
    Builder(series.root, out, jobs=1).build()
    page.goto(f"{serve_folder(out)}episodes/first-steps/index.html?needs=in-a-chair")

    expect(page.locator(LINE)).to_contain_text("Shown for: Seated.")
    expect(page.locator(ALARM)).to_be_hidden()
    assert page.evaluate("Needs.chosen()") == ["seated"]
