"""Who can do what: how far every session serves every need, and each session's plan for a need."""

from collections.abc import Iterator, Sequence

from sitegen.model import Episode
from sitegen.pages.needs.coverage import coverage_page
from sitegen.pages.needs.plan_facts import COVERAGE, PLANS, coverage_of, episode_plans
from sitegen.pages.needs.plans import plan_pages
from sitegen.pages.needs.series_parts import SeriesParts, SessionsTogether
from sitegen.pages.page import Page
from sitegen.pages.site import Site

__all__ = [
    "COVERAGE",
    "PLANS",
    "SeriesParts",
    "SessionsTogether",
    "coverage_of",
    "episode_plans",
    "need_pages",
]


def need_pages(
    site: Site, parts: SeriesParts, part: SessionsTogether, sessions: Sequence[Episode]
) -> Iterator[Page]:
    """What is below ``needs/`` about a part of the series; nothing where the series names no needs."""
    if site.details.needs:
        yield coverage_page(site, parts, part, sessions)
        yield from plan_pages(site, parts, part, sessions)
