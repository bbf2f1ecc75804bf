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
from sitegen.pages.sheets.pages import sheet_pages
from sitegen.pages.sheets.printing import Printer
from sitegen.pages.sheets.series import TRAINED, series_sheet, trained_fact
from sitegen.pages.site import Site
from sitegen.pages.views import Views, episode_card
from sitegen.pdf.press import Press

FACTS: Mapping[str, FactMaker] = {"card": episode_card, TRAINED: trained_fact}
"""What pages about the whole series need of each episode, by name."""


def plan_site(site: Site, content: Path, press: Press | None = None) -> list[Page]:
    """Every file, with the key of what it is made from; nothing is made yet.

    Sheets are PDF files too where there is a press.
    """
    views = Views(site)
    library = Library(site)
    pages = [
        *home_pages(site),
        *episode_pages(site, views),
        *sheet_pages(site, views, Printer(site, press) if press else None),
        *series_sheet(site),
        *exercise_pages(site, views, library),
        *need_pages(site, views, library),
        *free_pages(site),
        *copied_files(site, content),
    ]
    return [*pages, sitemap(site, pages)]
