"""Data of the schedule's page for its scripts.

The shape::

    {"request": what the scheduler is asked (see ``study.schedule.as_data``) but for its sessions, with
                "start" "" and no days for a series without a calendar,
     "muscles": […], "pieces": [names of kit], "exercises": [[id, name], …], "doses": […]: what sessions
                refer to by position, for much is said again and again,
     "sessions": [{"number", "slug", "first" (its first slug, where another), "title", "time", "minutes" or
                   null, "muscles": […], "kit": […], "fetch" (the kit for a printed day,
                   where shortened), "released" or "", "coming", "out",
                   "items": [exercise, dose, exercise, dose, …]}, …],
     "calendar": {"name", "start" (minutes) or null, "zone" or null, "zoneText", "uid" (ending), "base",
                  "sequences": {key: count}},
     "series": the site's address, for files that are saved and loaded again,
     "trainer": name,
     "words": the theme's strings}
"""

from collections.abc import Iterable, Mapping
from datetime import date
from types import SimpleNamespace
from typing import Any

from markupsafe import Markup

from sitegen.pages.schedule.events import sequences, uid_ending
from sitegen.pages.schedule.series_plan import series_request, sessions_of
from sitegen.pages.schedule.sessions import ScheduledSession
from sitegen.pages.script_json import script_json
from sitegen.pages.site import Site
from sitegen.pages.time_zone import zone_text
from sitegen.study.calendar_entries import first_slug
from sitegen.study.schedule import ScheduleRequest, as_data

YEARS_OF_ZONE = (-1, 5)
"""Years around the start for which changes of the clock are listed."""


class PositionTable:
    """Values in the order they first come, each known by its position."""

    def __init__(self) -> None:
        self._places: dict[Any, int] = {}

    def __call__(self, value: Any) -> int:
        return self._places.setdefault(value, len(self._places))

    @property
    def values(self) -> list[Any]:
        """All values, each at its position."""
        return list(self._places)


class _Tables:
    def __init__(self) -> None:
        self.muscles, self.pieces, self.exercises, self.doses = (
            PositionTable(),
            PositionTable(),
            PositionTable(),
            PositionTable(),
        )


def schedule_data(site: Site, sessions: Mapping[int, ScheduledSession]) -> Markup:
    """The whole of it as JSON."""
    strings = site.theme.strings
    tables = _Tables()
    hard = {session.number: session.muscles for session in sessions_of(site)}
    shown = [_session(site, session, hard[number], tables) for number, session in sessions.items()]
    return script_json(
        {
            "request": _request(site),
            **{name: table.values for name, table in vars(tables).items()},
            "sessions": shown,
            "calendar": _calendar(site, sessions),
            "series": site.details.address,
            "trainer": site.details.trainer.name,
            "words": _plain(strings.schedule) | {"calendar": _plain(strings.calendar)},
        }
    )


def _plain(words: Any) -> Any:
    """Strings as nested dicts."""
    if not isinstance(words, SimpleNamespace):
        return words
    return {key: _plain(inner) for key, inner in vars(words).items()}


def _request(site: Site) -> dict[str, Any]:
    request = series_request(site) or ScheduleRequest(sessions=(), start=date.min, days=())
    start = {} if site.details.schedule else {"start": ""}
    return {**as_data(request), "sessions": [], **start}


def _session(
    site: Site, session: ScheduledSession, muscles: Iterable[str], tables: _Tables
) -> dict[str, Any]:
    first = first_slug(site.details.moved, session.slug)
    return {
        "number": session.number,
        "slug": session.slug,
        **({} if first == session.slug else {"first": first}),
        "title": session.title,
        "time": session.time,
        "minutes": session.brief.minutes,
        "muscles": [tables.muscles(muscle) for muscle in muscles],
        "kit": [tables.pieces(piece) for piece in session.brief.kit],
        **({} if session.fetch == ", ".join(session.brief.kit) else {"fetch": session.fetch}),
        "released": session.released.isoformat() if session.released else "",
        "coming": session.coming,
        "out": session.out,
        "items": [
            place
            for anchor, name, dose in session.items
            for place in (tables.exercises((anchor, name)), tables.doses(dose))
        ],
    }


def _calendar(site: Site, sessions: Mapping[int, ScheduledSession]) -> dict[str, Any]:
    wishes = site.details.schedule
    timed = wishes is not None and wishes.time is not None
    zone = wishes.time_zone if wishes is not None and timed else None
    return {
        "name": site.details.title,
        "start": wishes.time if wishes else None,
        "zone": zone,
        "zoneText": _zone_text(zone, wishes.start) if wishes and zone not in (None, "UTC") else "",
        "uid": uid_ending(site.details.address),
        "base": site.details.address,
        "sequences": sequences(site, sessions),
    }


def _zone_text(zone: str | None, start: date) -> str:
    before, after = YEARS_OF_ZONE
    first, last = date(max(1, start.year + before), 1, 1), date(min(9999, start.year + after), 12, 31)
    return zone_text(zone, first, last) if zone else ""
