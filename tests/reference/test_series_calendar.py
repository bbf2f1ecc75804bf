"""The demo's calendar file against RFC 5545 (2009), read by vobject and dateutil, which share no code with
its writer; and the counts of its changes against the rules for SEQUENCE (section 3.8.7.4)."""

from datetime import UTC, datetime, timedelta
from functools import cache
from io import StringIO
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest
import vobject
from dateutil.tz import tzical

from sitegen.cli import main
from sitegen.pages.all_pages import facts_of
from sitegen.pages.fact_store import FactStore
from sitegen.pages.inputs import Inputs
from sitegen.pages.schedule.events import make_calendar
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.reading.reader import read_series
from tests.conftest import ROOT
from tests.demo_copy import copy_demo, replace

LISBON = ZoneInfo("Europe/Lisbon")


@cache
def theme() -> Theme:
    return Theme(ROOT / "themes/tidewater", "en")


def calendar_of(content: Path) -> bytes:
    site = Site(read_series(content), {}, theme(), "")
    site.facts = FactStore().bring_up_to_date(site, Inputs(site), facts_of, {}, 1)
    return make_calendar(site)


def events(raw: bytes) -> dict[str, Any]:
    """By the episode's slug."""
    calendar = vobject.readOne(raw.decode())
    return {event.uid.value.split(".")[0].rsplit("-", 1)[0]: event for event in calendar.vevent_list}


@pytest.fixture
def content(tmp_path: Path) -> Path:
    return copy_demo(tmp_path)


@pytest.fixture(scope="module")
def demo_file(demo_site: Path) -> bytes:
    return (demo_site / "schedule.ics").read_bytes()


def test_every_session_is_an_event_with_an_id_of_its_own(demo_file: bytes) -> None:
    """Section 3.8.4.7: unique in the world, the host's name on the right of an @."""
    uids = [event.uid.value for event in events(demo_file).values()]

    assert len(set(uids)) == 12
    assert uids[0] == "cast-off-1.galley@movement.example"


def test_days_and_times_are_those_of_the_plan(demo_file: bytes) -> None:
    starts = [event.dtstart.value for event in events(demo_file).values()]

    assert [start.replace(tzinfo=None) for start in starts[:4]] == [
        datetime(2026, 9, 7, 18, 30),
        datetime(2026, 9, 9, 18, 30),
        datetime(2026, 9, 11, 18, 30),
        datetime(2026, 9, 14, 18, 30),
    ]
    assert {start.utcoffset() for start in starts} == {timedelta(hours=1)}


def test_the_reminder_comes_at_seven_on_the_evening_before_with_the_kit(demo_file: bytes) -> None:
    """Section 3.6.6."""
    event = events(demo_file)["fair-lead"]
    alarm = event.valarm

    assert event.dtstart.value + alarm.trigger.value == datetime(
        2026, 9, 8, 19, 0, tzinfo=event.dtstart.value.tzinfo
    )
    assert alarm.action.value == "DISPLAY"
    assert alarm.description.value == (
        "Tomorrow, Fair lead: Sturdy chair, Stairs or a step, Broom handle, "
        "2\N{NO-BREAK SPACE}×\N{NO-BREAK SPACE}5-litre water carrier, "
        "Clear stretch of wall"
    )


def test_the_length_is_that_of_the_session(demo_file: bytes) -> None:
    """Cast off takes 40 to 42 minutes and 2 to 5 of setting up: 50 in the calendar."""
    assert events(demo_file)["cast-off"].duration.value == timedelta(minutes=50)


def test_when_clocks_change_the_session_stays_at_half_past_six(content: Path) -> None:
    """Summer time in Lisbon ends on 25 October 2026 (European Union, last Sunday of October)."""
    replace(content, "series.yaml", "start: 2026-09-07", "start: 2026-10-21")
    replace(content, "series.yaml", "deload_every: 5", "deload_every: 9")
    raw = calendar_of(content)
    zone = tzical(StringIO(raw.decode())).get("Europe/Lisbon")
    found = [event.dtstart.value.replace(tzinfo=zone) for event in events(raw).values()][:4]

    assert [start.replace(tzinfo=None) for start in found] == [
        datetime(2026, 10, day, 18, 30) for day in (21, 23, 26, 28)
    ]
    assert [start.astimezone(UTC).hour for start in found] == [17, 17, 18, 18]
    assert found == [start.replace(tzinfo=LISBON) for start in found]


def test_all_day_entries_where_no_time_is_given(content: Path) -> None:
    """Section 3.6.1: a date without an end is one day; the reminder is five hours before midnight."""
    replace(content, "series.yaml", '  time: "18:30"\n', "")
    raw = calendar_of(content)
    event = events(raw)["cast-off"]

    assert b"DTSTART;VALUE=DATE:20260907\r\n" in raw
    assert b"VTIMEZONE" not in raw
    assert event.valarm.trigger.value == timedelta(hours=-5)
    assert not hasattr(event, "duration")


def test_two_builds_of_the_same_content_are_the_same_file(content: Path) -> None:
    assert calendar_of(content) == calendar_of(content)


class TestSequence:
    def published(self, content: Path) -> dict[str, Any]:
        """The calendar that goes out, noted as published."""
        found = events(calendar_of(content))
        assert main(["calendar", "--content", str(content)]) == 0
        return found

    def test_it_begins_with_nought(self, content: Path) -> None:
        assert {event.sequence.value for event in self.published(content).values()} == {"0"}

    def test_a_session_that_moves_counts_up_and_the_others_do_not(self, content: Path) -> None:
        before = self.published(content)
        replace(content, "series.yaml", "holidays: [2026-10-05]", "holidays: [2026-09-30]")
        after = self.published(content)

        moved = [slug for slug in after if after[slug].dtstart.value != before[slug].dtstart.value]
        assert moved == ["lee-shore", "home-berth"]
        assert [slug for slug, event in after.items() if event.sequence.value != "0"] == moved
        assert [before[slug].uid.value for slug in before] == [after[slug].uid.value for slug in after]

    def test_a_later_version_has_a_later_stamp(self, content: Path) -> None:
        """Section 3.8.7.2: without a METHOD the stamp is when the entry was last revised."""
        before = self.published(content)["ballast"]
        replace(content, "episodes/05-ballast.yaml", "title: Ballast", "title: More ballast")
        after = self.published(content)["ballast"]

        assert after.sequence.value == "1"
        assert after.dtstamp.value > before.dtstamp.value

    def test_a_new_number_or_address_is_the_same_entry(self, content: Path) -> None:
        uid = self.published(content)["ballast"].uid.value
        path = content / "episodes" / "05-ballast.yaml"
        path.rename(path.with_name("05-deep-ballast.yaml"))
        series = content / "series.yaml"
        series.write_text(series.read_text() + "\nmoved: {episodes/ballast: episodes/deep-ballast}\n")
        found = [event.uid.value for event in events(calendar_of(content)).values()]

        assert uid in found
