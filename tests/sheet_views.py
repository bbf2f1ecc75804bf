"""A session as its sheets show it, worked out without a build."""

from sitegen.model import Episode
from sitegen.pages.needs import coverage_of, episode_plans
from sitegen.pages.other_forms import filmed_line
from sitegen.pages.sheets.views import SheetView, sheet_view
from sitegen.pages.site import Site
from sitegen.pages.views import Views


def line_for(site: Site, episode: Episode) -> str:
    """For whom the sheet as filmed is not."""
    chosen = site.suitability.for_each_need(episode)
    return filmed_line(site, episode, coverage_of(episode_plans(site, episode, chosen)))


def view_of(site: Site, views: Views, episode: Episode, spoken: str) -> SheetView:
    """What the session's sheets show."""
    return sheet_view(site, views, episode, spoken, others=line_for(site, episode))
