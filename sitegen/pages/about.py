"""Two pages that gather words: everything there is to read, and what to read before the first session."""

from collections.abc import Iterator
from functools import partial

from sitegen.pages.page import Page
from sitegen.pages.readiness import readiness_view
from sitegen.pages.site import Site
from sitegen.pages.views import CARD

ABOUT = "about/index.html"
BEFORE = "before-you-start/index.html"


def about_pages(site: Site) -> Iterator[Page]:
    """The page about the series, which leads to the trainer's own pages, and the one with all cautions."""
    yield Page(ABOUT, partial(_about, site))
    yield Page(BEFORE, partial(_before, site))


def _about(site: Site) -> bytes:
    own = [page for page in site.series.pages if page.menu]
    return site.render("about.html", ABOUT, pages=own, photo=site.photo())


def _before(site: Site) -> bytes:
    first = next((site.facts.of(episode, CARD) for episode in site.series.episodes[:1]), None)
    return site.render("before.html", BEFORE, first=first, readiness=readiness_view(site))
