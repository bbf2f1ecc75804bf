"""Schedule and balance for everybody: axe-core, reflow, targets, no scripts, nothing from outside."""

from datetime import date
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser.audit import LOOKS, unfold, violations_in
from tests.browser.schedule_page import JACK, ROW, choose, served
from tests.sessions import SessionFolder

PAGES = ("schedule/index.html", "balance/index.html")

SMALL_TARGETS = """() => [...document.querySelectorAll("main a[href], main button, main input, main summary")]
  .filter(one => one.checkVisibility() && !one.closest("p, li, td, th, label"))
  .map(one => [one.outerHTML.slice(0, 60), one.getBoundingClientRect()])
  .filter(([, box]) => box.width < 24 || box.height < 24).map(([html]) => html)"""


@pytest.mark.parametrize(
    ("address", "looks"),
    [
        (PAGES[0], ["desktop, dark"]),
        (PAGES[1], ["phone, light"]),  # full of links, which on a phone stand close
        *(pytest.param(address, list(LOOKS), marks=pytest.mark.thorough) for address in PAGES),
    ],
    ids=[
        "the schedule on a phone",
        "the balance in the dark",
        "the schedule in all looks",
        "the balance, too",
    ],
)
def test_a_page_passes_every_audit(page: Page, demo_url: str, address: str, looks: list[str]) -> None:
    asked: list[str] = []
    errors: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.on("console", lambda message: errors.append(message.text) if message.type == "error" else None)
    page.set_viewport_size({"width": 320, "height": 568})
    page.goto(demo_url + address)
    unfold(page)

    # WCAG 2.2, 2.5.8: 24 by 24 CSS pixels; links in lines of text are exempt.
    assert page.evaluate(SMALL_TARGETS) == []
    assert violations_in(looks, page) == {}
    assert page.evaluate(SMALL_TARGETS) == []
    assert [url for url in asked if not url.startswith(demo_url)] == []
    assert errors == []


def test_axe_finds_nothing_where_days_gave_way_and_sessions_are_coming(page: Page, tmp_path: Path) -> None:
    series = SessionFolder(tmp_path, schedule="schedule: {start: 2027-01-04, days: [monday, thursday]}\n")
    for number in range(1, 9):
        series.session(number, ROW if number < 7 else JACK, head=f"released: 2027-02-{3 * number:02d}")
    with served(series, date(2027, 2, 7)) as address:
        page.goto(address + PAGES[0])
        choose(page, "2027-01-04", "monday", "tuesday", "thursday")
        unfold(page)
        assert page.locator("#conflicts").is_visible()
        assert page.locator(".occurrence-early").count() > 0
        assert violations_in(["phone, light"], page) == {}


@pytest.mark.parametrize("address", PAGES)
def test_opened_as_a_file_it_works(page: Page, demo_site: Path, address: str) -> None:
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.goto((demo_site / address).as_uri())

    assert errors == []
    if "schedule" in address:
        choose(page, "2026-11-03", "tuesday", "thursday")
        assert page.locator("#plan-lead").inner_text().startswith("12 sessions from 3 November 2026")


def test_without_scripts_the_schedule_is_complete(scriptless: Page, demo_url: str) -> None:
    page = scriptless
    page.goto(demo_url + PAGES[0])

    assert page.locator("#list-weeks .occurrence a[data-slot=page]").count() == 12
    assert page.locator("#month-tables td a").count() == 12
    assert page.locator("#calendar-file").is_visible()
    assert [page.locator(f"#{name}").is_visible() for name in ("own", "print-months", "progress")] == [
        False
    ] * 3


def test_charts_take_the_colours_of_the_dark(page: Page, demo_url: str) -> None:
    """Contrast of bars and lines against their ground: 3 to 1 (WCAG 2.2, 1.4.11), light and dark."""
    page.goto(demo_url + PAGES[1])
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        bar, limit, ground = page.evaluate(
            """() => [
              getComputedStyle(document.querySelector(".chart .solid")).fill,
              getComputedStyle(document.querySelector(".chart .limit")).stroke,
              getComputedStyle(document.querySelector(".chart")).backgroundColor,
            ]"""
        )
        assert min(contrast(bar, ground), contrast(limit, ground)) >= 3, scheme


def contrast(one: str, other: str) -> float:
    """Of two colours such as ``rgb(1, 2, 3)`` (WCAG 2.2, contrast ratio)."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def luminance(colour: str) -> float:
    channels = [int(part) / 255 for part in colour.removeprefix("rgb(").removesuffix(")").split(",")]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_contrast_of_known_pairs() -> None:
    """Published pairs: black on white 21, #767676 on white 4.54 (WebAIM and WCAG techniques)."""
    white = "rgb(255, 255, 255)"

    assert contrast("rgb(0, 0, 0)", white) == pytest.approx(21)
    assert contrast("rgb(118, 118, 118)", white) == pytest.approx(4.54, abs=0.005)
