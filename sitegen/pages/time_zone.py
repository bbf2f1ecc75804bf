"""A time zone written out for a calendar file (VTIMEZONE, RFC 5545 section 3.6.5).

Each change of the clock within the asked-for days is listed with its date, as the time-zone
database has it, so that a reader needs no database of its own.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from zoneinfo import ZoneInfo

from icalendar import Timezone, TimezoneDaylight, TimezoneStandard

# The steps in which changes of the clock are looked for: first the day, then the second.
DAY = timedelta(days=1)
SECOND = timedelta(seconds=1)


@dataclass(frozen=True, slots=True)
class ClockPeriod:
    """How clocks are set for a while: against UTC, under which name, put forward or not."""

    offset: timedelta
    name: str
    summer: bool


def zone_component(name: str, first: date, last: date) -> Timezone:
    """The zone from the start of ``first`` to the end of ``last``.

    Raises zoneinfo.ZoneInfoNotFoundError where there is no such zone.
    """
    zone = ZoneInfo(name)
    start = datetime.combine(first, time(), tzinfo=zone).astimezone(UTC)
    clock = _clock(zone, start)
    component = Timezone()
    component.add("tzid", name)
    component.add_component(_observance(clock.offset, clock, start))
    for moment, following in _changes(zone, start, datetime.combine(last + DAY, time(), tzinfo=UTC)):
        component.add_component(_observance(clock.offset, following, moment))
        clock = following
    return component


def zone_text(name: str, first: date, last: date) -> str:
    """What :func:`zone_component` gives, as text with CRLF, for scripts that write calendar files."""
    written: bytes = zone_component(name, first, last).to_ical()
    return written.decode()


def _clock(zone: tzinfo, moment: datetime) -> ClockPeriod:
    local = moment.astimezone(zone)
    return ClockPeriod(local.utcoffset() or timedelta(), local.tzname() or "", bool(local.dst()))


def _changes(zone: tzinfo, start: datetime, end: datetime) -> Iterator[tuple[datetime, ClockPeriod]]:
    """Moments (UTC) from which clocks are set otherwise; no zone changes twice within a day."""
    moment, clock = start, _clock(zone, start)
    while moment < end:
        following = _clock(zone, moment + DAY)
        if following != clock:
            yield _first_after(zone, moment, clock), following
            clock = following
        moment += DAY


def _first_after(zone: tzinfo, before: datetime, clock: ClockPeriod) -> datetime:
    """The first second within a day after ``before`` that has not that clock."""
    after = before + DAY
    while after - before > SECOND:
        middle = before + timedelta(seconds=(after - before) // SECOND // 2)
        before, after = (middle, after) if _clock(zone, middle) == clock else (before, middle)
    return after


def _observance(
    offset_before: timedelta, clock: ClockPeriod, moment: datetime
) -> TimezoneStandard | TimezoneDaylight:
    """From a moment on; its start is written in the time that clocks showed until then."""
    component = TimezoneDaylight() if clock.summer else TimezoneStandard()
    component.add("dtstart", (moment + offset_before).replace(tzinfo=None))
    component.add("tzoffsetfrom", offset_before)
    component.add("tzoffsetto", clock.offset)
    component.add("tzname", clock.name)
    return component
