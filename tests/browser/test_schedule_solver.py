"""The browser's scheduler answers every request as the Python one does, reasons included."""

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
from sitegen.study.schedule import ScheduleRequest, Session, as_data, place

SCRIPT = Path(__file__).parents[2] / "themes" / "tidewater" / "scripts" / "schedule-solver.js"
WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
MUSCLES = ("quadriceps", "hamstrings", "calves", "chest", "lats", "upper back", "épaules")
CASES = 600
LOAD_JS = "requests => requests.map(request => Schedule.place(request))"


def request_from(random: Random) -> ScheduleRequest:
    """A request that is as often awkward as not: crowded weeks, closed ones, ends too near."""
    start = date(2026, 1, 1) + timedelta(days=random.randrange(1500))
    sessions = tuple(
        Session(number=number, muscles=tuple(random.sample(MUSCLES, random.choice([0, 1, 1, 2, 3]))))
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
    return plans


def test_the_cases_hold_every_kind_of_answer(plans: list[Any]) -> None:
    conflicts = [conflict for plan in plans for conflict in plan["conflicts"]]
    kinds = Counter(conflict["kind"] for conflict in conflicts)
    waits = Counter(wait["kind"] for plan in plans for p in plan["placements"] for wait in p["waits"])
    recoveries = [conflict for conflict in conflicts if conflict["kind"] == "recovery"]
    late = [conflict for conflict in conflicts if conflict["kind"] == "finish-by"]
    assert min(kinds[kind] for kind in ("recovery", "no-days", "horizon", "finish-by")) >= 30
    assert min(waits[kind] for kind in ("holiday", "deload", "week-full", "recovery")) >= 50
    assert sum(bool(conflict["swaps"]) for conflict in recoveries) >= 100
    assert sum(bool(conflict["allow_days"]) for conflict in recoveries) >= 100
    assert all(sum(bool(c[way]) for c in late) >= 5 for way in ("without", "train_days", "repeats", "start"))
    assert sum(plan["kept"] and len(plan["placements"]) > 1 for plan in plans) >= 50


def test_the_same_plan_and_the_same_reasons(
    page: Page, requests: list[ScheduleRequest], plans: list[Any]
) -> None:
    answered = answers(page, requests)
    assert len(answered) == CASES
    different = [n for n in range(CASES) if answered[n] != plans[n]]
    assert different == []


@pytest.mark.parametrize("zone", ["Pacific/Kiritimati", "America/Los_Angeles", "Europe/Lisbon"])
def test_the_reader_s_time_zone_changes_nothing(
    chromium: Browser, requests: list[ScheduleRequest], zone: str
) -> None:
    page = chromium.new_context(timezone_id=zone).new_page()
    some = [replace(request, start=date(2026, 10, 23)) for request in requests[:40]]
    assert answers(page, some) == expected(some)
    page.context.close()


def test_the_last_days_of_the_calendar(page: Page) -> None:
    sessions = tuple(Session(number=number) for number in (1, 2, 3))
    last = ScheduleRequest(sessions=sessions, start=date(9999, 12, 29), days=WEEKDAYS[::2])
    assert answers(page, [last]) == expected([last])


def test_an_earlier_start_is_looked_for_just_as_far(page: Page) -> None:
    """A year back for a short series, fewer days for a long one."""
    one = ScheduleRequest(sessions=(Session(number=1),), start=date(2027, 9, 7), days=WEEKDAYS)
    many = replace(
        one, sessions=tuple(Session(number=number) for number in range(10_000)), horizon_days=20_000
    )
    late = [replace(one, finish_by=one.start - timedelta(days=days)) for days in (366, 367)]
    late += [replace(many, finish_by=one.start + timedelta(days=10_000 - days)) for days in (7, 8)]
    assert answers(page, late) == expected(late)


def test_the_script_leaves_only_its_own_name(page: Page) -> None:
    before = page.evaluate("Object.keys(window)")
    page.add_script_tag(path=SCRIPT)
    assert set(page.evaluate("Object.keys(window)")) - set(before) == {"Schedule"}


def test_two_hundred_sessions_are_planned_at_once(page: Page) -> None:
    """Whoever picks a day waits for the answer. 200 ms: web.dev, Interaction to Next Paint, "good"."""
    random = Random(1)
    sessions = tuple(Session(number=n, muscles=tuple(random.sample(MUSCLES, 2))) for n in range(1, 201))
    long = ScheduleRequest(
        sessions=sessions,
        start=date(2026, 9, 7),
        days=WEEKDAYS[:4],
        recovery_hours=72,
        finish_by=date(2027, 1, 1),
    )
    page.add_script_tag(path=SCRIPT)
    took_ms = page.evaluate(
        "request => { const t = performance.now(); Schedule.place(request); return performance.now() - t; }",
        as_data(long),
    )
    assert took_ms < 200
