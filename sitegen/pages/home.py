"""The home page: what the series is, the newest episode, all episodes, how to start."""

from collections.abc import Iterator
from functools import partial

from sitegen.pages.page import Page, fingerprint
from sitegen.pages.site import Site

ADDRESS = "index.html"


def home_pages(site: Site) -> Iterator[Page]:
    """The home page."""
    key = fingerprint(site.key, "home", site.facts.key("card", *site.series.episodes))
    yield Page(ADDRESS, key, partial(_make, site))


def _make(site: Site) -> bytes:
    cards = [site.facts.of(episode, "card") for episode in site.series.episodes]
    return site.render("home.html", ADDRESS, episodes=cards, newest=cards[-1] if cards else None)
