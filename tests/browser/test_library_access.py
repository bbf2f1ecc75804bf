"""Exercise and need pages for everybody: axe-core, reflow, targets, no scripts, nothing from outside."""

from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest
from bs4 import BeautifulSoup
from playwright.sync_api import Browser, Page, expect

from sitegen.model import Series
from tests.browser.audit import LOOKS, unfold, violations_in
from tests.browser.finder import INDEX, open_index
from tests.conftest import fresh_tab

PAGES = {
    "index": INDEX,
    "search": f"{INDEX}?q=row",
    "filters": f"{INDEX}?need=arms-low,seated&home=sturdy-chair:a-bench-fixed-to-the-wall&week=2",
    "nothing found": f"{INDEX}?q=qqqq",
    "exercise": "exercises/counter-push-up/index.html",
    "exercise without progress": "exercises/slow-breathing/index.html",
    "list by movement": "exercises/by/pattern/squat/index.html",
    "list by need": "exercises/by/need/seated/index.html",
    "who can do what": "needs/index.html",
    "a need": "needs/seated/index.html",
}


IN_EVERY_RUN = {
    "filters": "phone, light",
    "exercise": "desktop, dark",
    "list by need": "desktop, dark",
    "a need": "phone, light",
}
"""A page of each kind in one look; the other pages, and all looks, are behind the mark.

The index is looked at with its filters and results; the list that these hide is one like that by need.
"""


def open_all(page: Page) -> None:
    """Open what is folded away, so that it is looked at as well."""
    unfold(page)
    if page.locator("#finder").count():
        expect(page.locator("#finder")).not_to_have_attribute("aria-busy", "true")


class Visit(NamedTuple):
    """A page that was opened on a phone."""

    page: Page
    name: str
    """Of the page, as in ``PAGES``."""
    asked: list[str]
    """Addresses that the page asked for."""
    complaints: list[str]
    """What the browser had to say against it."""


@pytest.fixture(scope="module")
def phone(chromium: Browser) -> Iterator[Page]:
    """The tab of ``visit``."""
    with fresh_tab(chromium) as tab:
        yield tab


@pytest.fixture(
    scope="module",
    params=[
        pytest.param(name, id=name, marks=() if name in IN_EVERY_RUN else pytest.mark.thorough)
        for name in PAGES
    ],
)
def visit(phone: Page, demo_url: str, request: pytest.FixtureRequest) -> Iterator[Visit]:
    visit = Visit(phone, request.param, [], [])
    notes = {
        "request": lambda request: visit.asked.append(request.url),
        "pageerror": lambda error: visit.complaints.append(str(error)),
        "console": lambda said: visit.complaints.append(said.text) if said.type == "error" else None,
    }
    phone.set_viewport_size({"width": 320, "height": 568})
    phone.emulate_media(color_scheme="null")
    for event, note in notes.items():
        phone.on(event, note)
    phone.goto(demo_url + PAGES[visit.name])
    open_all(phone)
    yield visit
    for event, note in notes.items():
        phone.remove_listener(event, note)


def test_every_control_is_large_enough(visit: Visit) -> None:
    """WCAG 2.2, 2.5.8: 24 px, a tick with its words; links inside sentences are exempt."""
    small = visit.page.evaluate(
        """() => [...document.querySelectorAll('main button, main input, main select, main summary,'
          + ' main nav a, .coverage a, .choices th a, .showings a, .list-links a')]
        .filter(e => e.checkVisibility())
        .map(e => [(e.closest('label') || e).getBoundingClientRect(), e.outerHTML])
        .filter(([box]) => Math.min(box.width, box.height) < 24).map(([, html]) => html.slice(0, 90))"""
    )

    assert small == []


def test_axe_finds_nothing_and_nothing_sticks_out(visit: Visit) -> None:
    assert violations_in([IN_EVERY_RUN.get(visit.name, "phone, light")], visit.page) == {}


@pytest.mark.thorough
def test_axe_finds_nothing_in_any_look(visit: Visit) -> None:
    assert violations_in(LOOKS, visit.page) == {}


def test_pages_ask_nothing_of_others_and_break_no_policy(visit: Visit, demo_url: str) -> None:
    assert [url for url in visit.asked if not url.startswith(demo_url)] == []
    assert visit.complaints == []


def test_opening_the_index_with_a_search_shifts_little(first_visit: Page, demo_url: str) -> None:
    """Cumulative layout shift (good: 0.1 or less), on a phone."""
    first_visit.set_viewport_size({"width": 390, "height": 844})
    open_index(first_visit, demo_url)
    shift = first_visit.evaluate(
        """async () => {
        const pictures = new PerformanceObserver(() => {});
        pictures.observe({type: 'layout-shift', buffered: true});
        for (let n = 0; n < 3; n++) await new Promise(requestAnimationFrame);
        return pictures.takeRecords().reduce((sum, entry) => sum + entry.value, 0); }"""
    )

    assert shift <= 0.1


def test_the_coverage_table_says_in_words_what_its_colours_say(page: Page, demo_url: str) -> None:
    page.goto(demo_url + "needs/index.html")
    words = page.locator(".coverage td.fully, .coverage td.changed, .coverage td.gap").evaluate_all(
        "cells => Object.fromEntries(cells.map(cell => [cell.className, cell.innerText]))"
    )

    assert words["fully"] == "nothing to change"
    assert "change" in words["changed"]
    # Those words are unseen, and make no screen wider that the table is too wide for.
    page.set_viewport_size({"width": 768, "height": 800})
    assert page.evaluate("document.documentElement.scrollWidth") == 768


def test_the_choice_of_a_need_is_said_and_kept(page: Page, demo_url: str) -> None:
    page.goto(demo_url + "needs/arms-low/index.html")
    page.get_by_role("button", name="Show every session this way").click()
    expect(page.locator(".need-choose [role=status]")).to_contain_text(
        "Every session now shows the versions for this."
    )
    page.goto(demo_url + "episodes/steady-pull/index.html")

    assert page.evaluate("Needs.chosen()") == ["arms-low"]


# --- without scripts ------------------------------------------------------------------------


def links(page: Path, within: str) -> list[str]:
    """Targets of the links in a part of the page, without scripts to add any."""
    soup = BeautifulSoup(page.read_bytes(), "html5lib")
    return [str(a["href"]) for a in soup.select(f"{within} a")]


def test_every_exercise_is_listed_from_a_to_z(demo_site: Path, demo_series: Series) -> None:
    assert set(links(demo_site / INDEX, "#every-exercise .index")) == {
        f"{e}/index.html" for e in demo_series.exercises
    }


def test_a_list_by_kit_names_the_versions_that_need_it(demo_site: Path) -> None:
    listed = links(demo_site / "exercises/by/kit/counter/index.html", ".index")

    assert "../../../../exercises/front-plank/index.html#counter-plank" in listed
