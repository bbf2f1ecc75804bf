"""The list of every file of the site."""

from collections.abc import Mapping
from pathlib import Path

from sitegen.output.page import Page
from sitegen.pages.episode import episode_pages
from sitegen.pages.exercises import exercise_pages
from sitegen.pages.exercises.library import Library
from sitegen.pages.facts import FactMaker
from sitegen.pages.free import copied_files, free_pages, sitemap
from sitegen.pages.home import home_pages
from sitegen.pages.needs import need_pages
from sitegen.pages.site import Site
from sitegen.pages.views import Views, episode_card

FACTS: Mapping[str, FactMaker] = {"card": episode_card}
"""What pages about the whole series need of each episode, by name."""


def plan_site(site: Site, content: Path) -> list[Page]:
    """Every file, with the key of what it is made from; nothing is made yet."""
    views = Views(site)
    library = Library(site)
    pages = [
        *home_pages(site),
        *episode_pages(site, views),
        *exercise_pages(site, views, library),
        *need_pages(site, views, library),
        *free_pages(site),
        *copied_files(site, content),
    ]
    return [*pages, sitemap(site, pages)]
