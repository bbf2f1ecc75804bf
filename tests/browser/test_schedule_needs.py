"""The calendar file that somebody with needs takes along: it never names kit that is not hers."""

from playwright.sync_api import Page

FILE = """() => {
  const data = ScheduleData.read(document.getElementById("schedule-data").textContent);
  const plan = { placements: [{ session: 5, repeat: 1, date: "2026-09-16" }] };
  return ScheduleCalendar.file(data, plan, 0, "2026-09-01T00:00:00Z").replaceAll("\\r\\n ", "");
}"""


def test_the_entry_leads_to_the_version(page: Page, demo_url: str) -> None:
    page.goto(f"{demo_url}schedule/index.html?needs=seated")
    text = page.evaluate(FILE)

    assert "Fetch first" not in text
    assert "For you: Whole session seated. What to fetch\\, and every dose and load" in text
    assert "URL:https://movement.example/galley/episodes/ballast/?needs=seated" in text
    assert "what to fetch for your version is on its page" in text


def test_without_needs_it_says_what_to_fetch(page: Page, demo_url: str) -> None:
    page.goto(f"{demo_url}schedule/index.html")
    text = page.evaluate(FILE)

    assert "Fetch first: Sturdy chair" in text
    assert "URL:https://movement.example/galley/episodes/ballast/\r\n" in text
