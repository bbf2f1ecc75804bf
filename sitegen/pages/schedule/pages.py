"""The schedule's page and its calendar file."""

from collections.abc import Iterator
from functools import partial

from sitegen.pages.page import Page
from sitegen.pages.schedule.events import ADDRESS as CALENDAR
from sitegen.pages.schedule.events import make_calendar
from sitegen.pages.schedule.plan_view import PlanView, plan_view, undated_view
from sitegen.pages.schedule.script_data import schedule_data
from sitegen.pages.schedule.sentences import ScheduleSentences
from sitegen.pages.schedule.series_plan import series_request
from sitegen.pages.schedule.sessions import ScheduledSession, scheduled_sessions, titles
from sitegen.pages.site import Site
from sitegen.pages.views import Views
from sitegen.study.schedule import place

ADDRESS = "schedule/index.html"


def schedule_pages(site: Site, views: Views) -> Iterator[Page]:
    """The page, and the calendar file where the series has a calendar."""
    yield Page(ADDRESS, partial(_make, site, views))
    if site.details.schedule is not None:
        yield Page(CALENDAR, partial(make_calendar, site))


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
        needs_json=views.adaptation.needs.json,
    )


def _view(site: Site, sessions: dict[int, ScheduledSession]) -> PlanView:
    words = ScheduleSentences(site, titles(sessions))
    request, wishes = series_request(site), site.details.schedule
    if request is None or wishes is None:
        lead = site.theme.strings.schedule.lead_open.format(sessions=words.count(len(sessions)))
        return undated_view(sessions, 1, words, lead)
    return plan_view(place(request), request, sessions, words, wishes.time)
