"""Each session's plan for somebody with one need: what changes and why, and what stays."""

from collections.abc import Iterator, Sequence
from functools import partial

from sitegen.model import Episode, Need
from sitegen.pages.needs.limit_words import limit_words
from sitegen.pages.needs.plan_facts import PLANS
from sitegen.pages.needs.series_parts import SeriesParts, SessionsTogether
from sitegen.pages.needs_data import NeedsData
from sitegen.pages.page import Page
from sitegen.pages.site import Site
from sitegen.pages.views import Views


def plan_pages(
    site: Site, parts: SeriesParts, part: SessionsTogether, sessions: Sequence[Episode]
) -> Iterator[Page]:
    """Of a part of the series one page for every need: so the plans of a session are opened once."""
    for place, need in enumerate(site.details.needs.values()):
        make = partial(_make, site, parts, part, sessions, place)
        yield Page(part.address(_folder(need)), make)


def _folder(need: Need) -> str:
    return f"needs/{need.id}"


def _make(
    site: Site, parts: SeriesParts, part: SessionsTogether, sessions: Sequence[Episode], place: int
) -> bytes:
    """The page of a part of the series for the need at that place."""
    need = list(site.details.needs.values())[place]
    return site.render(
        "need.html",
        part.address(_folder(need)),
        need=need,
        avoids=Views(site).demand_words(need.avoids),
        rather=Views(site).demand_words(need.rather_without),
        limits=limit_words(site, need.limits),
        plans=[(episode, site.facts.of(episode, PLANS)[place]) for episode in sessions],
        parts=parts.links,
        part=part,
        needs_data=NeedsData(site).json,
    )
