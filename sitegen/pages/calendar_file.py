"""Calendar files (RFC 5545) from simple records: sessions as events, with a reminder to fetch the kit.

Nothing here looks at a clock or makes up an id: the same events give the same bytes.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from icalendar import Alarm, Calendar, Event, vText

from sitegen.pages.time_zone import zone_component

PRODUCT = "-//sitegen//calendar//EN"
EVENING_MINUTES = 19 * 60
"""When the reminder comes on the day before, in minutes after midnight."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarEvent:
    """One event. All of it is the caller's word, so that it stays the same from build to build."""

    uid: str
    """The same for the same occurrence for ever, unique in the world (such as ``4-1@movement.example``)."""
    summary: str
    description: str = ""
    date: date
    minutes: int | None = None
    """After midnight; None for an all-day event."""
    duration: int | None = None
    """Length of a timed event in minutes."""
    url: str = ""
    sequence: int = 0
    """How often the event was changed since it was first published."""
    stamp: datetime
    """When this version was made; with a time zone."""
    alarm: str | None = None
    """Words of the reminder on the evening before; None for no reminder."""


def calendar_file(events: Sequence[CalendarEvent], *, name: str = "", time_zone: str | None = None) -> bytes:
    """The file. Timed events are in ``time_zone``, or at the reader's own clock where it is None."""
    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    if name:
        calendar.add("name", vText(name))  # RFC 7986 section 5.1; as text, or it is not escaped
        calendar.add("x-wr-calname", vText(name))  # the older habit that more programs know
    timed = [event.date for event in events if event.minutes is not None]
    if timed and time_zone not in (None, "UTC"):
        calendar.add_component(zone_component(time_zone, date(min(timed).year, 1, 1), max(timed)))
    for event in events:
        calendar.add_component(_event(event, time_zone))
    written: bytes = calendar.to_ical()
    return written


def _event(event: CalendarEvent, time_zone: str | None) -> Event:
    component = Event()
    component.add("uid", event.uid)
    component.add("dtstamp", event.stamp.astimezone(UTC))
    component.add("sequence", event.sequence)
    component.add("summary", event.summary)
    if event.minutes is None:
        component.add("dtstart", event.date)
        component.add("transp", "TRANSPARENT")
    else:
        component.add("dtstart", _local(event.date, event.minutes, time_zone))
        if event.duration is not None:
            component.add("duration", timedelta(minutes=event.duration))
    if event.description:
        component.add("description", event.description)
    if event.url:
        component.add("url", event.url)
    if event.alarm is not None:
        component.add_component(_alarm(event.alarm, minutes_from_evening(event, time_zone)))
    return component


def _alarm(words: str, minutes_before: int) -> Alarm:
    """A reminder so many minutes before the start.

    The time is written in hours and minutes: a day in a duration is a day on the clock, which is
    an hour off when clocks change in between (RFC 5545 section 3.3.6).
    """
    component = Alarm()
    component.add("action", "DISPLAY")
    component.add("description", words)
    component.add("trigger", vText(f"-PT{minutes_before // 60}H{minutes_before % 60}M"))
    return component


def minutes_from_evening(event: CalendarEvent, time_zone: str | None) -> int:
    """From the evening before to the start, as they pass: clocks may change in between.

    An all-day event starts at midnight, without a zone.
    """
    zone = time_zone if event.minutes is not None else None
    start = _local(event.date, event.minutes or 0, zone)
    evening = _local(event.date - timedelta(days=1), EVENING_MINUTES, zone)
    if zone is not None:
        start, evening = start.astimezone(UTC), evening.astimezone(UTC)
    return (start - evening) // timedelta(minutes=1)


def _local(day: date, minutes: int, time_zone: str | None) -> datetime:
    """That time of day in the zone; without a zone where it is None."""
    zone = None if time_zone is None else UTC if time_zone == "UTC" else ZoneInfo(time_zone)
    return datetime.combine(day, time(minutes // 60, minutes % 60), tzinfo=zone)
