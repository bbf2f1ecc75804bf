"""The trainer's calendar: what the scheduler is asked for the whole series, and its answer."""

from sitegen.pages.sheets.trained import TRAINED
from sitegen.pages.site import Site
from sitegen.study.schedule import Schedule, ScheduleRequest, SessionToPlace, place, request_from_series


def sessions_of(site: Site) -> tuple[SessionToPlace, ...]:
    """All sessions in their order, those that are not out yet among them."""
    return tuple(
        SessionToPlace(number=episode.number, muscles=site.facts.of(episode, TRAINED).muscles)
        for episode in site.series.sessions
    )


def series_request(site: Site) -> ScheduleRequest | None:
    """What the series asks the scheduler; None where it has no calendar."""
    wishes = site.details.schedule
    return request_from_series(wishes, sessions_of(site)) if wishes else None


def series_plan(site: Site) -> Schedule | None:
    """The plan of the whole series with its reasons; None where it has no calendar."""
    request = series_request(site)
    return place(request) if request else None
