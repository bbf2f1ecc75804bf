"""The calendar file: every session as an event, with what to fetch on the evening before."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import UTC, date, datetime, time, timedelta
from urllib.parse import urlsplit

from sitegen.model import Episode
from sitegen.pages.calendar_file import CalendarEvent, calendar_file
from sitegen.pages.schedule.series_plan import series_request
from sitegen.pages.schedule.sessions import ScheduledSession, scheduled_sessions
from sitegen.pages.site import Site
from sitegen.study.calendar_entries import CalendarEntry, entries, sequence
from sitegen.study.weeks import planned_days

ADDRESS = "schedule.ics"


def make_calendar(site: Site) -> bytes:
    """The file of the trainer's plan. Raises ValueError for a series without a calendar."""
    wishes = site.details.schedule
    if wishes is None:
        raise ValueError("the series has no calendar")
    zone = wishes.time_zone if wishes.time is not None else None
    return calendar_file(list(_events(site)), name=site.details.title, time_zone=zone)


def _events(site: Site) -> Iterator[CalendarEvent]:
    sessions = scheduled_sessions(site)
    released = {episode.number: episode for episode in site.series.sessions}
    for entry in _entries(site, sessions):
        number = entry.brief.number
        yield _event(site, entry, sessions[number], stamp(site, released[number]))


def _event(site: Site, entry: CalendarEntry, session: ScheduledSession, made: datetime) -> CalendarEvent:
    changes = sequence(site.series.calendar, entry)
    return CalendarEvent(
        uid=f"{entry.key}{uid_ending(site.details.address)}",
        summary=summary(site, session),
        description=description(site, session, entry.repeat),
        date=entry.date,
        minutes=entry.start,
        duration=entry.brief.minutes,
        url=page(site, session),
        sequence=changes,
        # A later version has a later stamp (RFC 5545, 3.8.7.2), and no clock is asked.
        stamp=made + timedelta(seconds=changes),
        alarm=reminder(site, session),
    )


def stamp(site: Site, episode: Episode) -> datetime:
    """When the first version of an entry was made: the day its episode, or the series, comes out."""
    wishes = site.details.schedule
    day = episode.released or (wishes.start if wishes else date.min)
    return datetime.combine(day, time(), tzinfo=UTC)


def uid_ending(address: str) -> str:
    """``.galley@movement.example``: makes an id of this site unique in the world (RFC 5545, 3.8.4.7)."""
    parts = urlsplit(address)
    path = "".join(f".{part}" for part in parts.path.split("/") if part)
    return f"{path}@{parts.hostname or 'localhost'}"


def page(site: Site, session: ScheduledSession) -> str:
    """Where the session's page is published; empty where it is not out yet."""
    return site.public(f"episodes/{session.slug}/index.html") if session.out else ""


def summary(site: Site, session: ScheduledSession) -> str:
    """``Galley Strength 4: Rising tide``."""
    text = site.theme.strings.schedule.entry.summary
    return str(text.format(series=site.details.title, number=session.number, title=session.title))


def description(site: Site, session: ScheduledSession, repeat: int) -> str:
    """What to fetch, where the page is, and the caution."""
    words = site.theme.strings.schedule.entry
    kit = ", ".join(session.brief.kit)
    lines = [words.fetch.format(kit=kit) if kit else words.no_kit]
    lines += [words.again.format(repeat=repeat)] if repeat > 1 else []
    lines += [words.coming.format(day=session.coming)] if session.coming else []
    lines += [page(site, session)] if session.out else []
    return "\n".join([*lines, words.care])


def reminder(site: Site, session: ScheduledSession) -> str:
    """The words of the evening before."""
    words = site.theme.strings.schedule.entry
    kit = ", ".join(session.brief.kit)
    text = words.reminder if kit else words.reminder_no_kit
    return str(text.format(title=session.title, kit=kit))


def _entries(site: Site, sessions: Mapping[int, ScheduledSession]) -> Iterable[CalendarEntry]:
    """Those of the trainer's plan; none for a series without a calendar."""
    request = series_request(site)
    briefs = {number: session.brief for number, session in sessions.items()}
    return entries(site.details, briefs, planned_days(request)) if request else ()


def sequences(site: Site, sessions: Mapping[int, ScheduledSession]) -> dict[str, int]:
    """How often each entry of the trainer's plan has changed, by key; those that never did are left out."""
    counts = {entry.key: sequence(site.series.calendar, entry) for entry in _entries(site, sessions)}
    return {key: count for key, count in counts.items() if count}
