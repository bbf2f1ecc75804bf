"""The schedule's page in a real browser, for its tests."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import Any

from playwright.sync_api import Page

from sitegen.building.build import Builder
from tests.conftest import serve
from tests.sessions import SessionFolder

SCHEDULE = "schedule/index.html"
ROW = "backpack-row, dose: 8 each side, effort: 2 in reserve"
JACK = "jumping-jack, dose: 30 s"
SQUAT = "chair-squat, dose: 10, effort: 2 in reserve"

PARTS = ("plan-lead", "conflicts", "month-tables", "list-weeks")
"""Ids of what a plan is shown in."""

SHOW_ANEW = """() => {
  const data = ScheduleData.read(document.getElementById("schedule-data").textContent);
  const titles = Object.fromEntries(data.sessions.map(one => [one.number, one.title]));
  const say = ScheduleWords.of(data.words, titles);
  const planned = data.request.start ? Schedule.place(data.request) : {placements: [], conflicts: []};
  ScheduleView.of(data, say).show(planned, data.request);
}"""
"""Make the plan that the page was made with once more, in the browser."""

SHOW_SOME = """share => {
  const data = ScheduleData.read(document.getElementById("schedule-data").textContent);
  const titles = Object.fromEntries(data.sessions.map(one => [one.number, one.title]));
  const sessions = data.request.sessions.slice(0, data.request.sessions.length * share);
  const planned = Schedule.place({...data.request, sessions});
  ScheduleView.of(data, ScheduleWords.of(data.words, titles)).show(planned, data.request);
}"""
"""Plan and show the first part of the sessions, as a share of 1."""

TIDY = """id => {
  const copy = document.getElementById(id).cloneNode(true);
  copy.querySelectorAll(".log").forEach(one => one.remove());
  copy.querySelectorAll("[aria-current]").forEach(one => one.removeAttribute("aria-current"));
  for (const one of copy.querySelectorAll("[class]")) one.classList.remove("is-done");
  copy.querySelectorAll("[class='']").forEach(one => one.removeAttribute("class"));
  copy.normalize();
  const walk = node => node.nodeType === 3 ? node.data.replace(/\\s+/g, " ").trim()
    : [node.tagName, [...node.attributes].map(a => [a.name, a.value]).sort(),
       [...node.childNodes].filter(n => n.nodeType !== 8).map(walk).filter(part => part !== "")];
  return walk(copy);
}"""
"""Names, attributes and text below an element, without what the progress scripts add."""


def parts_of(page: Page) -> dict[str, Any]:
    """What a plan is shown in, as nested lists."""
    return {part: page.evaluate(TIDY, part) for part in PARTS}


def build(series: SessionFolder, today: date | None = None) -> Path:
    """The series' site."""
    out = series.root.parent / "site"
    Builder(series.root, out, jobs=1, today=today).build()
    return out


@contextmanager
def served(series: SessionFolder, today: date | None = None) -> Iterator[str]:
    """Address of the served site."""
    server = serve(build(series, today))
    yield next(server)
    next(server, None)


def choose(page: Page, start: str, *days: str) -> None:
    """Choose own days as a client does."""
    for box in page.locator("#own-days input[name=day]").all():
        box.set_checked(box.get_attribute("value") in days)
    page.locator("#own-days input[name=start]").fill(start)
    page.locator("#own-days input[name=start]").dispatch_event("change")


def days_shown(page: Page) -> list[str]:
    """Days of the list, in order."""
    return page.locator("#list-weeks .occurrence").evaluate_all("rows => rows.map(row => row.dataset.date)")
