"""A session as its sheets show it, worked out without a build."""

from sitegen.model import Episode
from sitegen.pages.needs import coverage_of, episode_plans
from sitegen.pages.other_forms import filmed_line
from sitegen.pages.sheets.views import SheetView, sheet_view
from sitegen.pages.site import Site
from sitegen.pages.views import Views


def coverage(site: Site, episode: Episode) -> list[tuple[int, int, int]]:
    """What the fact of that name says of a session."""
    return coverage_of(episode_plans(site, episode, site.suitability.for_each_need(episode)))


def line_for(site: Site, episode: Episode) -> str:
    """For whom the sheet as filmed is not."""
    return filmed_line(site, episode, coverage(site, episode))


def view_of(site: Site, views: Views, episode: Episode, spoken: str) -> SheetView:
    """What the session's sheets show."""
    return sheet_view(site, views, episode, spoken, others=line_for(site, episode))
