"""The browser's scheduler answers every request as the Python one does, reasons included; advice that only
a trainer can follow is not in it."""

import json
from collections import Counter
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from sitegen.model import DateRange
from sitegen.study.schedule import ScheduleRequest, SessionToPlace, as_data, place
from tests.work import BlockCounter

SCRIPT = Path(__file__).parents[2] / "themes" / "tidewater" / "scripts" / "schedule-solver.js"
WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
MUSCLES = ("quadriceps", "hamstrings", "calves", "chest", "lats", "upper back", "épaules")
CASES = 300
ADVICE_FOR_TRAINERS = {
    "recovery": ("swaps",),
    "finish-by": ("without", "train_days", "repeats", "start"),
}
"""By kind of conflict."""
LOAD_JS = "requests => requests.map(request => Schedule.place(request))"


def request_from(random: Random) -> ScheduleRequest:
    """A request that is as often awkward as not: crowded weeks, closed ones, ends too near."""
    start = date(2026, 1, 1) + timedelta(days=random.randrange(1500))
    sessions = tuple(
        SessionToPlace(number=number, muscles=tuple(random.sample(MUSCLES, random.choice([0, 1, 1, 2, 3]))))
        for number in random.sample(range(1, 60), random.choice([0, 1, 2, 5, 8, 12, 30]))
    )
    holidays = []
    for _ in range(random.choice([0, 0, 1, 3])):
        first = start + timedelta(days=random.randrange(-10, 90))
        holidays.append(DateRange(first=first, last=first + timedelta(days=random.choice([0, 0, 6, 20]))))
    return ScheduleRequest(
        sessions=sessions,
        start=start,
        days=tuple(random.sample(WEEKDAYS, random.choice([0, 1, 2, 2, 3, 3, 4, 5, 7]))),
        repeats=random.choice([1, 1, 1, 2, 3]),
        per_week=random.choice([None, None, None, 1, 2, 3, 6]),
        keep_pace=random.choice([True, True, True, False]),
        recovery_hours=random.choice([0, 24, 36, 48, 48, 72, 96, 500]),
        deload_every=random.choice([None, None, None, 1, 2, 4, 5]),
        holidays=tuple(holidays),
        finish_by=random.choice([None, start + timedelta(days=random.randrange(-20, 200))]),
        horizon_days=random.choice([0, 10, 40, 200, 1096, 1096]),
    )


@pytest.fixture(scope="module")
def requests() -> list[ScheduleRequest]:
    random = Random(20260907)
    return [request_from(random) for _ in range(CASES)]


def answers(page: Page, requests: list[ScheduleRequest]) -> list[Any]:
    page.add_script_tag(path=SCRIPT)
    answered: list[Any] = page.evaluate(LOAD_JS, [as_data(request) for request in requests])
    return answered


@pytest.fixture(scope="module")
def plans(requests: list[ScheduleRequest]) -> list[Any]:
    """What Python answers."""
    return expected(requests)


def expected(requests: list[ScheduleRequest]) -> list[Any]:
    plans: list[Any] = json.loads(json.dumps([as_data(place(request)) for request in requests]))
    for plan in plans:
        for conflict in plan["conflicts"]:
            for way in ADVICE_FOR_TRAINERS.get(conflict["kind"], ()):
                del conflict[way]
    return plans


def test_the_cases_hold_every_kind_of_answer(plans: list[Any]) -> None:
    conflicts = [conflict for plan in plans for conflict in plan["conflicts"]]
    kinds = Counter(conflict["kind"] for conflict in conflicts)
    waits = Counter(wait["kind"] for plan in plans for p in plan["placements"] for wait in p["waits"])
    recoveries = [conflict for conflict in conflicts if conflict["kind"] == "recovery"]
    late = [conflict for conflict in conflicts if conflict["kind"] == "finish-by"]
    assert min(kinds[kind] for kind in ("recovery", "no-days", "horizon", "finish-by")) >= 15
    assert min(waits[kind] for kind in ("holiday", "deload", "week-full", "recovery")) >= 25
    assert sum(bool(conflict["allow_days"]) for conflict in recoveries) >= 50
    assert sum(c["earliest"] is None for c in late) >= 2
    assert sum(c["earliest"] is not None for c in late) >= 2
    assert sum(plan["kept"] and len(plan["placements"]) > 1 for plan in plans) >= 25


def test_the_same_plan_and_the_same_reasons(
    page: Page, requests: list[ScheduleRequest], plans: list[Any]
) -> None:
    answered = answers(page, requests)
    assert len(answered) == CASES
    different = [n for n in range(CASES) if answered[n] != plans[n]]
    assert different == []


@pytest.mark.parametrize(
    "zone",
    [
        "America/Los_Angeles",
        "Europe/Lisbon",
        pytest.param("Pacific/Kiritimati", marks=pytest.mark.thorough),
    ],
)
def test_the_reader_s_time_zone_changes_nothing(
    chromium: Browser, requests: list[ScheduleRequest], zone: str
) -> None:
    page = chromium.new_context(timezone_id=zone).new_page()
    some = [replace(request, start=date(2026, 10, 23)) for request in requests[:40]]
    assert answers(page, some) == expected(some)
    page.context.close()


def test_the_last_days_of_the_calendar(page: Page) -> None:
    sessions = tuple(SessionToPlace(number=number) for number in (1, 2, 3))
    last = ScheduleRequest(sessions=sessions, start=date(9999, 12, 29), days=WEEKDAYS[::2])
    assert answers(page, [last]) == expected([last])


def test_the_script_leaves_only_its_own_name(page: Page) -> None:
    before = page.evaluate("Object.keys(window)")
    page.add_script_tag(path=SCRIPT)
    assert set(page.evaluate("Object.keys(window)")) - set(before) == {"Schedule"}


def long_request(count: int, finish_by: date | None) -> ScheduleRequest:
    """A series of so many sessions, a third of which wait for the one before."""
    random = Random(1)
    return ScheduleRequest(
        sessions=tuple(
            SessionToPlace(number=n, muscles=tuple(random.sample(MUSCLES, 2))) for n in range(1, count + 1)
        ),
        start=date(2026, 9, 7),
        days=WEEKDAYS[:4],
        recovery_hours=72,
        finish_by=finish_by,
        horizon_days=10_000,
    )


@pytest.mark.parametrize(
    "finish_by",
    [
        pytest.param(None, id="no end is wanted", marks=pytest.mark.thorough),
        pytest.param(date(2027, 1, 1), id="it cannot end in time"),
    ],
)
def test_twice_the_sessions_are_about_twice_the_work(page: Page, finish_by: date | None) -> None:
    """Whoever picks a day waits for the answer; `python -m tests.bench schedule` measures how long."""
    counter = BlockCounter(page)
    page.add_script_tag(path=SCRIPT)
    few, many = (
        counter.blocks_in("request => Schedule.place(request)", as_data(long_request(count, finish_by)))
        for count in (400, 800)
    )
    assert many < 2.5 * few
