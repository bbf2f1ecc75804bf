"""The coverage table: sessions by needs."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from sitegen.model import Episode
from sitegen.output.page import Page, fingerprint
from sitegen.pages.needs.parts import Part, spans
from sitegen.pages.needs.plan_facts import PLANS
from sitegen.pages.site import Site
from sitegen.pages.views import Views
from sitegen.study.suitability import Coverage

FOLDER = "needs"


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A session, and how far it serves each need."""

    episode: Episode
    cells: tuple[tuple[str, Coverage], ...]
    """By need id."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Total:
    """How many sessions of the part serve a need fully, with changes, and with a gap."""

    need: str
    fully: int
    changed: int
    gap: int


def coverage_pages(site: Site, parts: Sequence[Part]) -> Iterator[Page]:
    """One page for every part of the series."""
    for part in parts:
        cells = [[plan[:2] for plan in site.facts.of(episode, PLANS)] for episode in part.episodes]
        key = fingerprint(site.key, "coverage", spans(parts), part.names, cells)
        yield Page(part.address(FOLDER), key, partial(_make, site, parts, part))


def _make(site: Site, parts: Sequence[Part], part: Part) -> bytes:
    needs = site.details.needs
    rows = [_row(site, episode) for episode in part.episodes]
    views = Views(site)
    return site.render(
        "needs.html",
        part.address(FOLDER),
        needs=list(needs.values()),
        avoids={need.id: views.demand_words(need.avoids) for need in needs.values()},
        rows=rows,
        totals=[_total(need, rows) for need in needs],
        parts=parts,
        part=part,
    )


def _row(site: Site, episode: Episode) -> Row:
    found = zip(site.details.needs, site.facts.of(episode, PLANS), strict=True)
    cells = tuple((need, Coverage(changes=changes, gaps=gaps)) for need, (changes, gaps, _) in found)
    return Row(episode=episode, cells=cells)


def _total(need: str, rows: Iterable[Row]) -> Total:
    cells = [coverage for row in rows for of, coverage in row.cells if of == need]
    return Total(
        need=need,
        fully=sum(one.fully for one in cells),
        changed=sum(not one.fully and one.gaps == 0 for one in cells),
        gap=sum(one.gaps > 0 for one in cells),
    )
