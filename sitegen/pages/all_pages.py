"""The list of every file of the site."""

from collections.abc import Iterator, Mapping
from functools import partial
from itertools import chain
from pathlib import Path
from typing import Any

from sitegen.model import Episode
from sitegen.pages.about import about_pages
from sitegen.pages.balance import POINTS, TRAINING, balance_pages, points_fact, training_fact
from sitegen.pages.episode import made_posters
from sitegen.pages.exercises import (
    DECIDED,
    DECISIONS,
    PLACES,
    SHOWINGS,
    SHOWN,
    episode_decisions,
    episode_showings,
    exercise_pages,
    places_of,
)
from sitegen.pages.facts import ShortFact, told
from sitegen.pages.feed import feed_pages
from sitegen.pages.frieze import COVER, has_cover
from sitegen.pages.home import home_pages
from sitegen.pages.icon import icon_pages
from sitegen.pages.link_picture import series_picture
from sitegen.pages.moved import moved_pages
from sitegen.pages.needs import COVERAGE, PLANS, coverage_of, episode_plans
from sitegen.pages.offline import offline_pages
from sitegen.pages.other_forms import OTHERS, other_forms
from sitegen.pages.page import Addresses, Batch, Page, PlannedBatch, Take, plan_now
from sitegen.pages.schedule import SESSION, schedule_pages, session_fact
from sitegen.pages.session_batches import SessionPages
from sitegen.pages.sheets.series_sheet import series_sheet
from sitegen.pages.sheets.trained import TRAINED, trained_fact
from sitegen.pages.site import Site
from sitegen.pages.trainer_pages import copied_files, free_pages, sitemap
from sitegen.pages.views import CARD, TOTAL, Views, total_of
from sitegen.printing.pdf_printer import PdfPrinter


def facts_of(site: Site, episode: Episode) -> Mapping[str, Any]:
    """What pages about the whole series need of an episode, by name; its own page and sheets need a part."""
    chosen = site.suitability.for_each_need(episode)
    return {
        CARD: Views(site).card(episode),
        COVER: has_cover(site, episode),
        TRAINED: trained_fact(site, episode),
        SHOWINGS: episode_showings(site, episode),
        DECISIONS: episode_decisions(site, episode, chosen),
        PLANS: episode_plans(site, episode, chosen),
        OTHERS: other_forms(site, episode, chosen),
        TRAINING: training_fact(site, episode),
        POINTS: points_fact(site, episode),
        SESSION: session_fact(site, episode),
    }


SHORT: Mapping[str, ShortFact] = {
    TOTAL: ShortFact(CARD, total_of),
    SHOWN: ShortFact(SHOWINGS, told),
    PLACES: ShortFact(SHOWINGS, places_of),
    DECIDED: ShortFact(DECISIONS, told),
    COVERAGE: ShortFact(PLANS, coverage_of),
}
"""Facts that follow from another one and are short, by name."""


def all_pages(
    site: Site, content: Path, printer: PdfPrinter | None = None, take: Take = plan_now
) -> Iterator[Page]:
    """Every file, with the key of what it is made from; nothing is made yet.

    Sheets are PDF files too where there is a printer. Of a batch the pages come that ``take`` gives.
    """
    views = Views(site)
    of_sessions = SessionPages(site, views, content, printer)
    kinds: Iterator[Page | Batch] = chain(
        home_pages(site),
        about_pages(site),
        made_posters(site),
        of_sessions.batches(),
        series_sheet(site),
        (exercise_pages(site, views), Batch("balance", partial(balance_pages, site))),
        schedule_pages(site, views),
        series_picture(site, of_sessions.painter),
        icon_pages(site, content),
        feed_pages(site),
        offline_pages(site),
        free_pages(site),
        copied_files(site, content),
    )
    pages: list[Page] = []
    batches: list[PlannedBatch] = []
    for page in kinds:
        if isinstance(page, Batch):
            batches.append(take(page))
            yield from batches[-1].pages
        else:
            pages.append(page)
            yield page
    yield sitemap(site, Addresses(pages, batches))
    yield from moved_pages(site, pages, batches)
