"""The list of every file of the site."""

from collections.abc import Iterator, Mapping
from itertools import chain
from pathlib import Path

from sitegen.pages.about import about_pages
from sitegen.pages.balance import POINTS, TRAINING, balance_pages, points_fact, training_fact
from sitegen.pages.episode import episode_pages
from sitegen.pages.exercises import (
    DECIDED,
    DECISIONS,
    SHOWINGS,
    SHOWN,
    episode_decisions,
    episode_showings,
    exercise_pages,
)
from sitegen.pages.facts import FactMaker, ShortFact, told
from sitegen.pages.feed import feed_pages
from sitegen.pages.frieze import COVER, has_cover
from sitegen.pages.home import home_pages
from sitegen.pages.icon import icon_pages
from sitegen.pages.link_picture import link_pictures
from sitegen.pages.moved import moved_pages
from sitegen.pages.needs import COVERAGE, PLANS, coverage_of, episode_plans, need_pages
from sitegen.pages.offline import offline_pages
from sitegen.pages.page import Page
from sitegen.pages.schedule import SESSION, schedule_pages, session_fact
from sitegen.pages.sheets.pages import sheet_pages
from sitegen.pages.sheets.printing import SheetPrinter
from sitegen.pages.sheets.series import series_sheet
from sitegen.pages.sheets.trained import TRAINED, trained_fact
from sitegen.pages.site import Site
from sitegen.pages.trainer_pages import copied_files, free_pages, sitemap
from sitegen.pages.views import Views, episode_card
from sitegen.printing.pdf_printer import PdfPrinter

FACTS: Mapping[str, FactMaker] = {
    "card": episode_card,
    COVER: has_cover,
    TRAINED: trained_fact,
    SHOWINGS: episode_showings,
    DECISIONS: episode_decisions,
    PLANS: episode_plans,
    TRAINING: training_fact,
    POINTS: points_fact,
    SESSION: session_fact,
}
"""What pages about the whole series need of each episode, by name."""
SHORT: Mapping[str, ShortFact] = {
    SHOWN: ShortFact(SHOWINGS, told),
    DECIDED: ShortFact(DECISIONS, told),
    COVERAGE: ShortFact(PLANS, coverage_of),
}
"""Facts that follow from another one and are short, by name."""


def all_pages(site: Site, content: Path, printer: PdfPrinter | None = None) -> Iterator[Page]:
    """Every file, with the key of what it is made from; nothing is made yet.

    Sheets are PDF files too where there is a printer.
    """
    views = Views(site)
    kinds = chain(
        home_pages(site),
        about_pages(site),
        episode_pages(site, views),
        sheet_pages(site, views, SheetPrinter(site, printer) if printer else None),
        series_sheet(site),
        exercise_pages(site, views),
        need_pages(site),
        balance_pages(site),
        schedule_pages(site, views),
        link_pictures(site, views, content),
        icon_pages(site, content),
        feed_pages(site),
        offline_pages(site),
        free_pages(site),
        copied_files(site, content),
    )
    pages = []
    for page in kinds:
        pages.append(page)
        yield page
    yield sitemap(site, pages)
    yield from moved_pages(site, pages)
