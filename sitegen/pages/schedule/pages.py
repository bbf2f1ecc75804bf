"""The schedule's page and its calendar file."""

from collections.abc import Iterator
from functools import partial

from sitegen.pages.page import Page, fingerprint
from sitegen.pages.schedule.data import schedule_data
from sitegen.pages.schedule.events import ADDRESS as CALENDAR
from sitegen.pages.schedule.events import make_calendar
from sitegen.pages.schedule.facts import SESSION, read_session
from sitegen.pages.schedule.sessions import ScheduledSession, scheduled_sessions, titles
from sitegen.pages.schedule.views import PlanView, plan_view, undated_view
from sitegen.pages.schedule.wishes import series_request
from sitegen.pages.schedule.words import Words
from sitegen.pages.sheets.trained import TRAINED
from sitegen.pages.site import Site
from sitegen.pages.views import Views
from sitegen.study.schedule import place

ADDRESS = "schedule/index.html"


def schedule_pages(site: Site, views: Views) -> Iterator[Page]:
    """The page, and the calendar file where the series has a calendar."""
    sessions = site.series.sessions
    plan = fingerprint(
        site.key,
        "schedule",
        site.facts.key(TRAINED, *sessions),
        [(e.number, e.slug, e.title, e.released) for e in sessions],
        [e.number for e in site.series.upcoming],
        site.digest(["calendar.yaml"]),
    )
    yield Page(ADDRESS, fingerprint(plan, site.facts.key(SESSION, *sessions)), partial(_make, site, views))
    if site.details.schedule is not None:
        # A dose that changes is no change of the calendar.
        briefs = [read_session(site.facts.of(e, SESSION), e).brief for e in sessions]
        key = fingerprint(plan, "calendar", [(brief.minutes, brief.kit) for brief in briefs])
        yield Page(CALENDAR, key, partial(make_calendar, site))


def _make(site: Site, views: Views) -> bytes:
    sessions = scheduled_sessions(site)
    wishes = site.details.schedule
    return site.render(
        "schedule.html",
        ADDRESS,
        plan=_view(site, sessions),
        days=wishes.days if wishes else (),
        start=wishes.start.isoformat() if wishes else "",
        per_week=wishes.per_week if wishes else None,
        calendar=CALENDAR if wishes else "",
        calendar_address=site.public(CALENDAR),
        data=schedule_data(site, sessions),
        needs_json=views.adaptation.needs_json,
    )


def _view(site: Site, sessions: dict[int, ScheduledSession]) -> PlanView:
    words = Words(site, titles(sessions))
    request, wishes = series_request(site), site.details.schedule
    if request is None or wishes is None:
        lead = site.theme.strings.schedule.lead_open.format(sessions=words.count(len(sessions)))
        return undated_view(sessions, 1, words, lead)
    return plan_view(place(request), request, sessions, words, wishes.time)
