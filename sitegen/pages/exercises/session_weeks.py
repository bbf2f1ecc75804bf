"""The week of each session, as the calendar and the balance count them."""

from collections.abc import Mapping

from sitegen.pages.schedule.series_plan import series_request
from sitegen.pages.site import Site
from sitegen.study.weeks import session_weeks


def weeks_by_session(site: Site) -> Mapping[int, int]:
    """Week by number of the session, the first where it is done in several; some may have none."""
    found: dict[int, int] = {}
    for week in session_weeks(site.series.episodes, series_request(site)):
        for session in week.sessions:
            found.setdefault(session, week.number)
    return found
