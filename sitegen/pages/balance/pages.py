"""The balance's pages: one for each half year."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from sitegen.pages.balance.intensity import (
    MODERATE_MINUTES,
    STRENGTH_DAYS,
    VIGOROUS_MINUTES,
    intensity_view,
)
from sitegen.pages.balance.labels import week_label
from sitegen.pages.balance.muscles import muscle_axis, region_views
from sitegen.pages.balance.pairs import pair_views, sides_view
from sitegen.pages.balance.progress import line_views
from sitegen.pages.balance.weeks_together import WeeksTogether, parts_of, trained_weeks
from sitegen.pages.effort import ages_words, body_masses
from sitegen.pages.page import Page
from sitegen.pages.site import Site
from sitegen.study.training import together


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLink:
    """Another part of the balance."""

    address: str
    first: int
    """Number of its first week, and of its last."""
    last: int


def balance_pages(site: Site) -> Iterator[Page]:
    """The page of each part."""
    parts = parts_of(site)
    links = tuple(
        PartLink(address=part.address, first=part.weeks[0].number, last=part.weeks[-1].number)
        for part in parts
        if part.weeks
    )
    for part in parts:
        yield Page(part.address, partial(_make, site, part, links))


def _make(site: Site, part: WeeksTogether, links: Sequence[PartLink]) -> bytes:
    weeks = trained_weeks(site, part)
    labels = [week_label(site, one) for one in weeks]
    whole = together(one.training for one in weeks)
    axis = muscle_axis(weeks)
    return site.render(
        "balance.html",
        part.address,
        weeks=labels,
        dated=bool(part.weeks),
        regions=region_views(site, weeks, labels, axis),
        ticks=axis.ticks,
        pairs=pair_views(site, whole, weeks),
        sides=sides_view(site, whole),
        intensity=intensity_view(site, weeks, labels),
        guideline={"moderate": MODERATE_MINUTES, "vigorous": VIGOROUS_MINUTES, "days": STRENGTH_DAYS},
        body_mass=body_masses(site),
        ages=ages_words(site),
        bounds=site.details.bounds,
        lines=line_views(site, part.episodes),
        parts=links if len(links) > 1 else (),
    )
