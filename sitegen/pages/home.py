"""The home page: what the series is, the newest episode, all episodes, how to start."""

from collections.abc import Iterator
from functools import partial

from sitegen.output.page import Page, fingerprint
from sitegen.pages.site import Site
from sitegen.pages.views import Views

ADDRESS = "index.html"


def home_pages(site: Site, views: Views) -> Iterator[Page]:
    """The home page."""
    key = fingerprint(site.key, "home", *map(site.episode_key, site.series.episodes))
    yield Page(ADDRESS, key, partial(_make, site, views))


def _make(site: Site, views: Views) -> bytes:
    cards = [views.card(episode) for episode in site.series.episodes]
    return site.render("home.html", ADDRESS, episodes=cards, newest=cards[-1] if cards else None)
