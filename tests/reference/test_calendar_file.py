"""Calendar files against RFC 5545 (2009), re-read by parsers that share no code with the writer.

vobject reads the file; dateutil interprets its time zone; both are independent of icalendar, which
writes it. Section numbers are those of RFC 5545.
"""

import re
from datetime import UTC, date, datetime, timedelta
from io import StringIO
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

import pytest
import vobject
from dateutil.tz import tzical

from sitegen.pages.calendar_file import CalendarEvent, calendar_file
from sitegen.pages.time_zone import zone_text

STAMP = datetime(2026, 9, 1, 6, 30, tzinfo=UTC)
LAST_SUNDAY_OF_OCTOBER = date(2026, 10, 25)
LAST_SUNDAY_OF_MARCH = date(2027, 3, 28)


def event(**given: Any) -> CalendarEvent:
    words = {
        "uid": "4-1@movement.example",
        "summary": "Steady pull",
        "date": date(2026, 9, 14),
        "stamp": STAMP,
    }
    return CalendarEvent(**{**words, **given})


def read(*events: CalendarEvent, **how: Any) -> Any:
    return vobject.readOne(calendar_file(events, **how).decode())


def unfold(raw: bytes) -> list[bytes]:
    """Section 3.1: a line break followed by one space or tab is no break."""
    return re.sub(rb"\r\n[ \t]", b"", raw).split(b"\r\n")


class TestLines:
    def test_the_rfc_s_own_folded_line(self) -> None:
        """Section 3.1, the example of folding."""
        folded = b"DESCRIPTION:This is a lo\r\n ng description\r\n  that exists on a long line.\r\n"
        line = b"DESCRIPTION:This is a long description that exists on a long line."
        assert unfold(folded) == [line, b""]

    @pytest.mark.parametrize(
        "words",
        [
            "towel, chair; step\\stool " * 9,
            "Übungen für zu Hause – " * 9,
            "🧺" * 40,
            "a" * 200,
            "é" * 31 + "🧺",
        ],
        ids=["escapes", "two octets", "four octets", "no spaces", "octets, not characters"],
    )
    def test_no_line_is_longer_than_75_octets_and_nothing_is_lost(self, words: str) -> None:
        """Section 3.1; 75 octets do not count the line break."""
        raw = calendar_file([event(summary=words, alarm=words)])
        assert max(map(len, raw.split(b"\r\n"))) <= 75
        assert all(line.decode() for line in raw.split(b"\r\n")[:-1])
        component = read(event(summary=words, alarm=words)).vevent
        assert component.summary.value == words
        assert component.valarm.description.value == words

    def test_every_line_ends_with_carriage_return_and_line_feed(self) -> None:
        """Section 3.1."""
        raw = calendar_file([event(description="one\ntwo")])
        assert raw.endswith(b"END:VCALENDAR\r\n")
        assert raw.count(b"\n") == raw.count(b"\r\n") == raw.count(b"\r")

    def test_text_is_escaped(self) -> None:
        """Section 3.3.11: backslash, semicolon, comma and line break are escaped, a colon is not."""
        raw = calendar_file([event(summary="a\\b;c,d\ne:f")])
        assert b"SUMMARY:a\\\\b\\;c\\,d\\ne:f" in unfold(raw)

    def test_the_calendar_s_name_is_escaped_too(self) -> None:
        """RFC 7986 (2016), section 5.1 (from memory): NAME is text."""
        lines = unfold(calendar_file([], name="Galley, autumn"))
        assert [line for line in lines if b"Galley" in line] == [
            b"NAME:Galley\\, autumn",
            b"X-WR-CALNAME:Galley\\, autumn",
        ]


class TestEvents:
    def test_what_a_calendar_must_say_once(self) -> None:
        """Section 3.6: PRODID and VERSION."""
        lines = unfold(calendar_file([event()]))
        assert [line.split(b":")[0] for line in lines].count(b"PRODID") == 1
        assert lines.count(b"VERSION:2.0") == 1

    def test_what_an_event_must_say_once(self) -> None:
        """Section 3.6.1: UID, DTSTAMP and, without METHOD, DTSTART."""
        names = [
            re.split(rb"[:;]", line)[0] for line in unfold(calendar_file([event(minutes=60, duration=40)]))
        ]
        assert [names.count(name) for name in (b"UID", b"DTSTAMP", b"DTSTART")] == [1, 1, 1]
        assert b"DTEND" not in names  # excluded by DURATION

    def test_everything_is_read_back(self) -> None:
        component = read(
            event(
                description="Two tri-sets\nBring water",
                minutes=18 * 60 + 30,
                duration=40,
                url="https://movement.example/galley/episodes/steady-pull/",
                sequence=3,
                alarm="Fetch: towel, chair",
            ),
            time_zone="Europe/Lisbon",
            name="Galley Strength",
        ).vevent
        assert component.uid.value == "4-1@movement.example"
        assert component.dtstamp.value == STAMP
        assert component.sequence.value == "3"
        assert component.summary.value == "Steady pull"
        assert component.description.value == "Two tri-sets\nBring water"
        assert component.url.value == "https://movement.example/galley/episodes/steady-pull/"
        assert component.dtstart.value.replace(tzinfo=None) == datetime(2026, 9, 14, 18, 30)
        assert component.duration.value == timedelta(minutes=40)
        assert component.valarm.action.value == "DISPLAY"
        assert component.valarm.description.value == "Fetch: towel, chair"

    def test_an_event_without_a_time_is_a_day(self) -> None:
        """Section 3.6.1: a DATE start without an end is one day."""
        component = read(event()).vevent
        assert component.dtstart.value == date(2026, 9, 14)
        assert not hasattr(component, "dtend")
        assert not hasattr(component, "duration")

    def test_midnight_is_a_time(self) -> None:
        assert b"DTSTART:20260914T000000" in unfold(calendar_file([event(minutes=0)]))

    @pytest.mark.parametrize(
        ("time_zone", "line"),
        [
            pytest.param(None, b"DTSTART:20260914T183000", id="at the reader's own clock"),
            pytest.param("UTC", b"DTSTART:20260914T183000Z", id="UTC"),
            pytest.param("Europe/Lisbon", b"DTSTART;TZID=Europe/Lisbon:20260914T183000", id="zone"),
        ],
    )
    def test_the_three_forms_of_a_time(self, time_zone: str | None, line: bytes) -> None:
        """Section 3.3.5."""
        assert line in unfold(calendar_file([event(minutes=18 * 60 + 30)], time_zone=time_zone))

    def test_a_zone_is_defined_where_it_is_used_and_only_there(self) -> None:
        """Section 3.6.5: each TZID has its VTIMEZONE."""
        assert b"TZID:Europe/Lisbon" in calendar_file([event(minutes=60)], time_zone="Europe/Lisbon")
        assert b"VTIMEZONE" not in calendar_file([event()], time_zone="Europe/Lisbon")

    def test_no_reminder_where_none_is_asked_for(self) -> None:
        assert not hasattr(read(event()).vevent, "valarm")

    def test_the_same_events_give_the_same_bytes(self) -> None:
        events = [event(), event(uid="5-1@movement.example", minutes=60)]
        assert calendar_file(events, time_zone="UTC") == calendar_file(events, time_zone="UTC")

    def test_a_calendar_without_events_is_still_one(self) -> None:
        assert vobject.readOne(calendar_file([], time_zone="Europe/Lisbon").decode()).version.value == "2.0"


def zone_read(name: str, first: date, last: date) -> Any:
    """The written zone as dateutil understands it."""
    return tzical(StringIO(zone_text(name, first, last).replace("\r\n", "\n"))).get(name)


class TestTimeZones:
    def test_new_york_in_the_rfc_s_recurrence(self) -> None:
        """Section 3.8.5.3, "weekly for 10 occurrences": 9 o'clock is EDT to October 21, then EST."""
        zone = zone_read("America/New_York", date(1997, 1, 1), date(1997, 12, 31))
        edt = [(9, 2), (9, 9), (9, 16), (9, 23), (9, 30), (10, 7), (10, 14), (10, 21)]
        est = [(10, 28), (11, 4)]
        names = [datetime(1997, month, day, 9, tzinfo=zone).tzname() for month, day in edt + est]
        assert names == ["EDT"] * 8 + ["EST"] * 2

    @pytest.mark.parametrize(
        "name",
        [
            "Europe/Lisbon",
            "Europe/Dublin",
            "America/New_York",
            "America/St_Johns",
            "Australia/Lord_Howe",
            "Asia/Kolkata",
            "Pacific/Kiritimati",
        ],
    )
    def test_the_written_zone_is_the_time_zone_database_s(self, name: str) -> None:
        """Every hour of two years; hours that the clock leaves out have no right answer."""
        written, zone = zone_read(name, date(2026, 1, 1), date(2027, 12, 31)), ZoneInfo(name)
        for hour in range(2 * 365 * 24):
            wall = datetime(2026, 1, 1) + timedelta(hours=hour)
            truth = wall.replace(tzinfo=zone)
            if truth.astimezone(UTC).astimezone(zone).replace(tzinfo=None) == wall:
                assert wall.replace(tzinfo=written).utcoffset() == truth.utcoffset(), wall

    def test_lisbon_changes_at_one_o_clock_universal_time(self) -> None:
        """Directive 2000/84/EC (from memory): the last Sundays of March and October, 1.00 a.m. GMT."""
        lines = zone_text("Europe/Lisbon", date(2026, 1, 1), date(2027, 12, 31)).split("\r\n")
        assert [line for line in lines if line.startswith("DTSTART:")] == [
            "DTSTART:20260101T000000",
            "DTSTART:20260329T010000",
            "DTSTART:20261025T020000",
            "DTSTART:20270328T010000",
            "DTSTART:20271031T020000",
        ]

    def test_a_session_keeps_its_time_of_day_over_the_change(self) -> None:
        events = [
            event(
                uid=f"{n}@movement.example",
                date=LAST_SUNDAY_OF_OCTOBER + timedelta(days=n),
                minutes=18 * 60 + 30,
            )
            for n in (-1, 0, 1)
        ]
        starts = [c.dtstart.value for c in read(*events, time_zone="Europe/Lisbon").vevent_list]
        assert [f"{start:%d %H:%M}" for start in starts] == ["24 18:30", "25 18:30", "26 18:30"]
        zone = zone_read("Europe/Lisbon", date(2026, 1, 1), date(2026, 12, 31))
        instants = [start.replace(tzinfo=zone).astimezone(UTC) for start in starts]
        assert [f"{instant:%d %H:%M}" for instant in instants] == ["24 17:30", "25 18:30", "26 18:30"]

    def test_an_unknown_zone_is_refused(self) -> None:
        with pytest.raises(ZoneInfoNotFoundError):
            calendar_file([event(minutes=60)], time_zone="Europe/Galley")


@pytest.mark.parametrize(
    ("day", "minutes", "time_zone", "before"),
    [
        pytest.param(date(2026, 9, 14), None, "Europe/Lisbon", {"hours": 5}, id="all day: from midnight"),
        pytest.param(date(2026, 9, 14), 6 * 60, "Europe/Lisbon", {"hours": 11}, id="early morning"),
        pytest.param(
            date(2026, 9, 14), 18 * 60 + 30, "Europe/Lisbon", {"hours": 23, "minutes": 30}, id="evening"
        ),
        pytest.param(date(2026, 9, 14), 20 * 60, "Europe/Lisbon", {"hours": 25}, id="late evening"),
        pytest.param(
            LAST_SUNDAY_OF_OCTOBER, 18 * 60 + 30, "Europe/Lisbon", {"hours": 24, "minutes": 30}, id="autumn"
        ),
        pytest.param(
            LAST_SUNDAY_OF_MARCH, 18 * 60 + 30, "Europe/Lisbon", {"hours": 22, "minutes": 30}, id="spring"
        ),
        pytest.param(
            LAST_SUNDAY_OF_OCTOBER, 18 * 60 + 30, None, {"hours": 23, "minutes": 30}, id="own clock"
        ),
        pytest.param(LAST_SUNDAY_OF_OCTOBER, 0, "Europe/Lisbon", {"hours": 5}, id="before the change"),
        pytest.param(LAST_SUNDAY_OF_OCTOBER, None, "Europe/Lisbon", {"hours": 5}, id="all day of the change"),
    ],
)
def test_the_reminder_comes_at_seven_the_evening_before(
    day: date, minutes: int | None, time_zone: str | None, before: dict[str, int]
) -> None:
    """Section 3.6.6: ACTION and TRIGGER; 3.3.6: hours are exact, so the change of clocks is counted in."""
    alarm = read(event(date=day, minutes=minutes, alarm="towel"), time_zone=time_zone).vevent.valarm
    assert alarm.trigger.value == -timedelta(**before)
