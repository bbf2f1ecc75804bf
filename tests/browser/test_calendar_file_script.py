"""The browser's calendar files mean the same as the Python ones: both re-read by icalendar."""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from random import Random
from typing import Any

import pytest
from icalendar import Calendar, Component
from playwright.sync_api import Browser, Page

from sitegen.pages.calendar_file import CalendarEvent, calendar_file
from sitegen.pages.time_zone import zone_text

SCRIPT = Path(__file__).parents[2] / "themes" / "tidewater" / "scripts" / "calendar-file.js"
MAKE_JS = "([events, how]) => CalendarFile.make(events, how)"
ZONES = (None, "UTC", "Europe/Lisbon", "America/St_Johns", "Australia/Lord_Howe")
WORDS = (
    "Steady pull",
    "Fetch: towel, chair; step\\stool",
    "one\ntwo\r\nthree",
    "Übungen – 🧺 " * 12,
    "é" * 31 + "🧺" + "a" * 90,
)


def events_from(random: Random) -> list[CalendarEvent]:
    first = date(2026, 3, 20) + timedelta(days=random.randrange(0, 600))
    return [
        CalendarEvent(
            uid=f"{number}-1@movement.example",
            summary=random.choice(WORDS),
            description=random.choice(("", *WORDS)),
            date=first + timedelta(days=number),
            minutes=random.choice([None, 0, 90, 1110, 1110, 1439]),
            duration=random.choice([None, 40, 125]),
            url=random.choice(["", f"https://movement.example/galley/episodes/{number}/"]),
            sequence=random.randrange(4),
            stamp=datetime(2026, 9, 1, 6, 30, random.randrange(60), tzinfo=UTC),
            alarm=random.choice([None, *WORDS]),
        )
        for number in range(random.choice([0, 1, 2, 12]))
    ]


def as_script_events(events: list[CalendarEvent]) -> list[dict[str, Any]]:
    names = ("uid", "summary", "description", "minutes", "duration", "url", "sequence", "alarm")
    return [
        {name: getattr(event, name) for name in names}
        | {"date": event.date.isoformat(), "stamp": event.stamp.isoformat()}
        for event in events
    ]


def script_file(page: Page, events: list[CalendarEvent], name: str, zone: str | None) -> str:
    days = [event.date for event in events if event.minutes is not None]
    needs_zone = days and zone not in (None, "UTC")
    text = zone_text(zone, date(min(days).year, 1, 1), max(days)) if needs_zone and zone else ""
    how = {"name": name, "zone": zone, "zoneText": text}
    written: str = page.evaluate(MAKE_JS, [as_script_events(events), how])
    return written


def meaning(component: Component) -> Any:
    """Name, properties in any order as icalendar decodes them, parts in order."""
    properties = sorted(
        (name, str(value.params.get("TZID")), repr(getattr(value, "dt", None) or value.to_ical()))
        for name, value in component.property_items(recursive=False, sorted=True)
        if name not in ("BEGIN", "END")
    )
    return component.name, component.errors, properties, [meaning(part) for part in component.subcomponents]


@pytest.fixture
def script_page(page: Page) -> Page:
    page.add_script_tag(path=SCRIPT)
    return page


@pytest.mark.parametrize("count", [12, pytest.param(40, marks=pytest.mark.thorough)])
@pytest.mark.parametrize("zone", ZONES)
def test_the_same_meaning_as_the_python_file(script_page: Page, zone: str | None, count: int) -> None:
    random = Random(f"{zone}")
    for _ in range(count):
        events = events_from(random)
        name = random.choice(["", "Galley Strength, autumn"])
        written = script_file(script_page, events, name, zone)
        expected = calendar_file(events, name=name, time_zone=zone)
        assert meaning(Calendar.from_ical(written)) == meaning(Calendar.from_ical(expected))


CHANGES = [
    ("Europe/Lisbon", date(2026, 3, 29)),
    ("Europe/Lisbon", date(2026, 10, 25)),
    ("America/St_Johns", date(2026, 3, 8)),
    ("America/St_Johns", date(2026, 11, 1)),
    ("Australia/Lord_Howe", date(2026, 4, 5)),
    ("Australia/Lord_Howe", date(2026, 10, 4)),
]


@pytest.mark.parametrize(("zone", "day"), CHANGES)
def test_hours_that_come_twice_or_not_at_all(script_page: Page, zone: str, day: date) -> None:
    """RFC 5545, section 3.3.5: the first of two; where there is none, as before the change."""
    stamp = datetime(2026, 9, 1, tzinfo=UTC)
    night = [
        CalendarEvent(
            uid=f"{m}@movement.example", summary="", date=day, minutes=m, stamp=stamp, alarm="towel"
        )
        for m in range(0, 240, 15)
    ]
    written, expected = script_file(script_page, night, "", zone), calendar_file(night, time_zone=zone)
    assert meaning(Calendar.from_ical(written)) == meaning(Calendar.from_ical(expected))


def test_lines_are_folded_at_75_octets_and_end_in_crlf(script_page: Page) -> None:
    """RFC 5545, section 3.1."""
    random = Random(7)
    for _ in range(20):
        raw = script_file(script_page, events_from(random), "Galley", None).encode()
        assert max(map(len, raw.split(b"\r\n"))) <= 75
        assert raw.count(b"\n") == raw.count(b"\r\n") == raw.count(b"\r")


@pytest.mark.parametrize(
    "reader_zone", ["Pacific/Kiritimati", pytest.param("America/Los_Angeles", marks=pytest.mark.thorough)]
)
def test_where_the_reader_is_changes_nothing(chromium: Browser, reader_zone: str) -> None:
    page = chromium.new_context(timezone_id=reader_zone).new_page()
    page.add_script_tag(path=SCRIPT)
    sunday_of_change = CalendarEvent(
        uid="4-1@movement.example",
        summary="Steady pull",
        date=date(2026, 10, 25),
        minutes=18 * 60 + 30,
        stamp=datetime(2026, 9, 1, tzinfo=UTC),
        alarm="towel",
    )
    for zone in ZONES:
        written = script_file(page, [sunday_of_change], "", zone)
        expected = calendar_file([sunday_of_change], time_zone=zone)
        assert meaning(Calendar.from_ical(written)) == meaning(Calendar.from_ical(expected))
    page.context.close()


def test_the_script_leaves_only_its_own_name(page: Page) -> None:
    before = page.evaluate("Object.keys(window)")
    page.add_script_tag(path=SCRIPT)
    assert set(page.evaluate("Object.keys(window)")) - set(before) == {"CalendarFile"}
