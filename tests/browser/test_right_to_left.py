"""A series in a language that is written from right to left, in a theme that has some words of it."""

import re
from pathlib import Path

from playwright.sync_api import Page

from sitegen.resources import themes_folder
from tests.browser.schedule_page import ROW, SCHEDULE, SQUAT, build
from tests.sessions import SessionFolder

NAV = "nav: {menu: תפריט, episodes: מפגשים, exercises: תרגילים, needs: צרכים, schedule: לוח, about: אודות}\n"
PAGES = ("index.html", SCHEDULE, "episodes/session-1/index.html", "exercises/backpack-row/index.html")

SIDES = """() => {
  const right = one => one.getBoundingClientRect().right;
  const [heading, words] = [document.querySelector("h1"), document.createRange()];
  words.selectNodeContents(heading);
  const rows = [".masthead li", ".session", ".month th"]
    .map(found => [...document.querySelectorAll(found)].slice(0, 2));
  const follows = ([one, next]) => one.left > next.left || one.bottom <= next.top;
  return {
    title: innerWidth - right(document.querySelector(".masthead-title")) < 60,
    heading: Math.abs(right(words) - right(heading)) < 2,
    rows: rows.filter(some => some.length > 1)
      .every(some => follows(some.map(one => one.getBoundingClientRect()))),
  };
}"""
"""Where the site's title, the page's heading, and the first two of a row stand."""


def test_pages_are_mirrored_and_nothing_runs_out_of_them(page: Page, tmp_path: Path) -> None:
    series = SessionFolder(tmp_path, schedule="schedule: {start: 2027-01-04, days: [monday, thursday]}\n")
    series.edit("series.yaml", "language: en", "language: he\ntheme: harbour")
    series.edit("series.yaml", "title: My series", "title: כוח מהמטבח")
    series.write("../themes/harbour/strings/he/site.yaml", NAV)
    for number, item in enumerate((ROW, SQUAT, ROW), 1):
        series.session(number, item)
    site = build(series)

    for address in PAGES:
        page.goto((site / address).as_uri())
        assert page.locator("html[lang=he][dir=rtl]").count() == 1
        for width in (360, 1280):
            page.set_viewport_size({"width": width, "height": 800})
            assert page.evaluate("document.documentElement.scrollWidth") == width, (address, width)
        assert page.evaluate(SIDES) == {"title": True, "heading": True, "rows": True}, address


def test_styles_name_the_start_and_the_end_of_a_line_not_its_sides() -> None:
    """But for what lies between both sides and the sign of playing, which points the same way everywhere."""
    side = re.compile(
        r"\b(?:margin|padding|border)-(?:left|right)\b|(?:text-align|float): *(?:left|right)"
        r"|(?<![-\w])(?:left|right):"
    )
    named = [
        line.strip()
        for file in sorted((themes_folder() / "tidewater").glob("**/*.css"))
        for line in file.read_text("utf-8").splitlines()
        if side.search(line) and "left: 0; right: 0" not in line and ".cover .act::before" not in line
    ]
    assert named == []
