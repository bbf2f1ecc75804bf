"""The schedule on paper: a month is one landscape page of A4 or Letter, the list goes with its notes."""

import re
from collections.abc import Iterable
from datetime import date, timedelta
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser.printed import PrintedPage, read_pages
from tests.browser.schedule_page import SCHEDULE, choose, served
from tests.sessions import SessionFolder

# ISO 216 A4 and US Letter in points.
PAPERS = {"A4": (595, 842), "Letter": (612, 792)}


def print_as(page: Page, what: str, paper: str) -> list[PrintedPage]:
    """Print as the page's buttons do, without the browser's own dialog."""
    page.evaluate("window.print = () => {}")
    page.locator(f"#print-{what}").click()
    return read_pages(page.pdf(format=paper))


def says(pages: Iterable[PrintedPage], words: str) -> bool:
    """Whether words are on one of the pages; what is printed has no spaces to an independent reader."""
    return any(words.replace(" ", "") in one.text for one in pages)


def landscape(pages: list[PrintedPage]) -> list[bool]:
    return [one.width > one.height for one in pages]


@pytest.mark.parametrize(("paper", "size"), PAPERS.items())
def test_each_month_is_one_landscape_page(
    page: Page, demo_url: str, paper: str, size: tuple[int, int]
) -> None:
    page.goto(demo_url + SCHEDULE)
    pages = print_as(page, "months", paper)

    assert [(round(one.height), round(one.width)) for one in pages] == [pytest.approx(size, abs=2)] * 2
    assert [says(pages[:1], "September 2026"), says(pages[1:], "October 2026")] == [True, True]
    assert says(pages[:1], "Sturdy chair, Bath towel, ")
    assert "…" not in pages[0].text  # no word is cut
    assert says(pages[:1], "Kitchen counter and 2 more")
    assert all(says([one], "What your doctor or physiotherapist says comes first.") for one in pages)


@pytest.mark.parametrize("paper", PAPERS)
def test_a_month_of_six_weeks_full_of_long_names_stays_on_its_page(
    page: Page, tmp_path: Path, paper: str
) -> None:
    """August 2027 touches six weeks; every day has a session with a long name and a long list to fetch."""
    kit = ", ".join(f"piece-{n}" for n in range(8))
    pieces = "".join(f"  piece-{n}: {{name: A piece of kit with a long name {n}}}\n" for n in range(8))
    schedule = (
        "schedule: {start: 2027-08-01, recovery: 24 h, days: [monday, tuesday, wednesday, thursday, friday, "
        "saturday, sunday]}\n"
    )
    series = SessionFolder(tmp_path, schedule=schedule)
    series.edit("series.yaml", "kit:\n", f"kit:\n{pieces}")
    series.write(
        "exercises/heap.yaml", f"name: Heap\npattern: carry\nmuscles: {{prime: [glutes]}}\nkit: [{kit}]\n"
    )
    for number in range(1, 32):
        file = series.session(number, "heap, dose: 8")
        series.edit(
            file, f"title: Session {number}", f"title: A session with quite a long name, number {number}"
        )
    with served(series) as address:
        page.goto(address + SCHEDULE)
        pages = print_as(page, "months", paper)

    assert landscape(pages) == [True]
    assert len(re.findall(r"\d\.Asessionwithquitealongname,number\d", pages[0].text)) == 31
    assert (
        len(
            re.findall(
                r"longname0,Apieceofkitwithalongname1,Apieceofkitwithalongname2and5more", pages[0].text
            )
        )
        == 31
    )


def test_the_last_day_of_each_month_is_inside_the_margins(page: Page, demo_url: str) -> None:
    page.goto(demo_url + SCHEDULE)
    for printed in print_as(page, "months", "Letter"):
        assert min(glyph.bottom for glyph in printed.glyphs) > 20
        assert max(glyph.right for glyph in printed.glyphs) < printed.width - 20


def test_the_list_is_upright_and_holds_the_notes(page: Page, demo_url: str) -> None:
    page.goto(demo_url + SCHEDULE)
    first = page.locator("#list-weeks .occurrence").first
    first.locator("summary").click()
    first.get_by_label("Load for Towel row").fill("a big bag")
    first.get_by_label("Load for Towel row").blur()
    page.reload()
    pages = print_as(page, "list", "A4")

    assert not any(landscape(pages))
    assert says(pages, "a big bag")
    assert says(pages, "12. Home berth")
    assert not says(pages, "September 2026 Galley Strength")
    assert says(pages, "stop, and call 112")


def test_own_days_are_printed(page: Page, demo_url: str) -> None:
    page.goto(demo_url + SCHEDULE)
    choose(page, "2027-02-02", "tuesday", "thursday")

    assert says(print_as(page, "months", "A4")[:1], "February 2027")


def test_after_printing_the_page_is_as_before(page: Page, demo_url: str) -> None:
    page.goto(demo_url + SCHEDULE)
    print_as(page, "months", "A4")
    page.evaluate("window.dispatchEvent(new Event('afterprint'))")

    assert page.evaluate("document.documentElement.dataset.print") is None


def test_without_scripts_months_and_list_print_one_after_the_other(scriptless: Page, demo_url: str) -> None:
    scriptless.goto(demo_url + SCHEDULE)
    pages = read_pages(scriptless.pdf(format="A4"))

    assert landscape(pages)[:3] == [True, True, False]
    assert not any(landscape(pages)[2:])


def test_months_of_the_test_are_what_they_are_said_to_be() -> None:
    """August 2027 begins on a Sunday and touches six weeks."""
    first = date(2027, 8, 1)
    weeks = {(first + timedelta(days=n)).isocalendar()[:2] for n in range(31)}

    assert (first.isoweekday(), len(weeks)) == (7, 6)
