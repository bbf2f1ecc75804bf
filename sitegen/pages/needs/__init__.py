"""Who can do what: how far every session serves every need, and each session's plan for a need."""

from collections.abc import Iterator

from sitegen.pages.needs.coverage import coverage_pages
from sitegen.pages.needs.parts import Parts
from sitegen.pages.needs.plan_facts import COVERAGE, PLANS, coverage_of, episode_plans
from sitegen.pages.needs.plans import plan_pages
from sitegen.pages.page import Page
from sitegen.pages.site import Site

__all__ = ["COVERAGE", "PLANS", "coverage_of", "episode_plans", "need_pages"]


def need_pages(site: Site) -> Iterator[Page]:
    """Everything below ``needs/``; nothing where the series names no needs."""
    if site.details.needs:
        parts = Parts(site.series.episodes)
        yield from coverage_pages(site, parts)
        yield from plan_pages(site, parts)
