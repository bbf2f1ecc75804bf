"""The coverage table: sessions by needs."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from sitegen.model import Episode
from sitegen.output.page import Page, fingerprint
from sitegen.pages.exercises.library import Library
from sitegen.pages.needs.parts import Part, spans
from sitegen.pages.site import Site
from sitegen.study.suitability import Coverage

FOLDER = "needs"


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A session, and how far it serves each need."""

    slug: str
    number: int
    title: str
    cells: tuple[tuple[str, Coverage], ...]
    """By need id."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Total:
    """How many sessions of the part serve a need fully, with changes, and with a gap."""

    need: str
    fully: int
    changed: int
    gap: int


def coverage_pages(site: Site, library: Library, parts: Sequence[Part]) -> Iterator[Page]:
    """One page for every part of the series."""
    for part in parts:
        key = fingerprint(site.key, "coverage", spans(parts), part.number, part.key)
        yield Page(part.address(FOLDER), key, partial(_make, site, library, parts, part))


def _make(site: Site, library: Library, parts: Sequence[Part], part: Part) -> bytes:
    rows = [_row(library, episode, site.details.needs) for episode in part.episodes]
    return site.render(
        "needs.html",
        part.address(FOLDER),
        needs=list(site.details.needs.values()),
        avoids={need.id: _avoided(site, need.avoids) for need in site.details.needs.values()},
        rows=rows,
        totals=[_total(need, rows) for need in site.details.needs],
        parts=parts,
        part=part,
    )


def _avoided(site: Site, demands: Iterable[str]) -> tuple[str, ...]:
    return tuple(site.phrases.words("demands", demand) for demand in demands)


def _row(library: Library, episode: Episode, needs: Iterable[str]) -> Row:
    return Row(
        slug=episode.slug,
        number=episode.number,
        title=episode.title,
        cells=tuple((need, library.suitability.coverage(episode, [need])) for need in needs),
    )


def _total(need: str, rows: Iterable[Row]) -> Total:
    cells = [coverage for row in rows for of, coverage in row.cells if of == need]
    return Total(
        need=need,
        fully=sum(one.fully for one in cells),
        changed=sum(not one.fully and one.gaps == 0 for one in cells),
        gap=sum(one.gaps > 0 for one in cells),
    )
