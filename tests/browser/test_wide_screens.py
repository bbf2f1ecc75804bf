"""What a tablet and a wide screen have room for is there without scrolling, and nothing is broken."""

from playwright.sync_api import Page

from tests.browser.episodes import BALLAST

ROOM = """() => {
  const table = document.querySelector(".coverage-region");
  return [table.scrollWidth - table.clientWidth, document.documentElement.scrollWidth - innerWidth];
}"""
"""By how much the table of needs is wider than its place, and the page than its window."""


BROKEN = """() => [...document.querySelectorAll(".session .number")].filter(one => {
  const figures = document.createRange();
  figures.selectNodeContents(one);
  const lines = figures.getClientRects();
  return lines.length !== 1 || lines[0].width > one.clientWidth;
}).map(one => one.textContent)"""
"""Numbers that take more than a line, or more room than they have."""


def test_every_need_is_seen_at_once_or_the_table_alone_scrolls(page: Page, demo_url: str) -> None:
    page.goto(demo_url + "needs/index.html")
    assert page.evaluate(ROOM) == [0, 0]
    page.set_viewport_size({"width": 800, "height": 900})
    within, outside = page.evaluate(ROOM)
    assert within > 0 >= outside


def test_a_number_of_two_figures_is_one_line_on_every_screen(page: Page, demo_url: str) -> None:
    """A column too narrow for it would set the one above the other."""
    page.goto(demo_url)
    for width in (360, 600, 768, 1000, 1280):
        page.set_viewport_size({"width": width, "height": 900})
        broken = page.evaluate(BROKEN)
        assert broken == [], width


def test_names_on_the_cards_of_a_session_begin_at_one_edge(page: Page, demo_url: str) -> None:
    page.goto(demo_url + BALLAST)
    edges = page.locator(".filmed > h4 > a").evaluate_all(
        "all => all.map(one => Math.round(one.getBoundingClientRect().left"
        " - one.closest('.item').getBoundingClientRect().left))"
    )
    assert len(edges) > 5
    assert len(set(edges)) == 1
