"""A session as its sheets show it, worked out without a build."""

from sitegen.model import Episode
from sitegen.pages.needs import coverage_of, episode_plans
from sitegen.pages.other_forms import names_of_changed
from sitegen.pages.sheets.views import SheetView, sheet_view
from sitegen.pages.site import Site
from sitegen.pages.views import Views


def names_for(site: Site, episode: Episode) -> list[str]:
    """Names of the needs with which the sheet as filmed is not to be used."""
    chosen = site.suitability.for_each_need(episode)
    return names_of_changed(site, coverage_of(episode_plans(site, episode, chosen)))


def view_of(site: Site, views: Views, episode: Episode, spoken: str) -> SheetView:
    """What the session's sheets show."""
    return sheet_view(site, views, episode, spoken, changed=names_for(site, episode))
