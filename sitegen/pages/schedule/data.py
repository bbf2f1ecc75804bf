"""Data of the schedule's page for its scripts.

The shape::

    {"request": what the scheduler is asked (see ``study.schedule.as_data``), with "start" "" and no
                days for a series without a calendar,
     "sessions": [{"number", "slug", "first" (its first slug), "title", "time", "minutes" or null, "kit": […],
                   "released" or "", "coming", "out", "items": [[id, name, dose], …]}, …],
     "calendar": {"name", "start" (minutes) or null, "zone" or null, "zoneText", "uid" (ending), "base",
                  "sequences": {key: count}},
     "series": the site's address, for files that are saved and loaded again,
     "trainer": name,
     "words": the theme's strings}
"""

from collections.abc import Mapping
from datetime import date
from types import SimpleNamespace
from typing import Any

from markupsafe import Markup

from sitegen.pages.schedule.events import sequences, uid_ending
from sitegen.pages.schedule.sessions import ScheduledSession
from sitegen.pages.schedule.wishes import series_request, sessions_of
from sitegen.pages.scriptdata import script_json
from sitegen.pages.site import Site
from sitegen.pages.time_zone import zone_text
from sitegen.study.agenda import first_slug
from sitegen.study.schedule import as_data

YEARS_OF_ZONE = (-1, 5)
"""Years around the start for which changes of the clock are listed."""


def schedule_data(site: Site, sessions: Mapping[int, ScheduledSession]) -> Markup:
    """The whole of it as JSON."""
    strings = site.theme.strings
    return script_json(
        {
            "request": _request(site),
            "sessions": [_session(site, session) for session in sessions.values()],
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
    request = series_request(site)
    if request is not None:
        return dict(as_data(request))
    return {
        "sessions": [as_data(session) for session in sessions_of(site)],
        "start": "",
        "days": [],
        "repeats": 1,
        "per_week": None,
        "keep_pace": True,
        "recovery_hours": 48,
        "deload_every": None,
        "holidays": [],
        "finish_by": None,
        "horizon_days": 1096,
    }


def _session(site: Site, session: ScheduledSession) -> dict[str, Any]:
    return {
        "number": session.number,
        "slug": session.slug,
        "first": first_slug(site.details.moved, session.slug),
        "title": session.title,
        "time": session.time,
        "minutes": session.brief.minutes,
        "kit": session.brief.kit,
        "released": session.released.isoformat() if session.released else "",
        "coming": session.coming,
        "out": session.out,
        "items": session.items,
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
