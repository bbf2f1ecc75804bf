"""The coverage table: sessions by needs."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any, TypeAlias

from sitegen.model import Episode, Need
from sitegen.pages.needs.limit_words import limit_words
from sitegen.pages.needs.plan_facts import COVERAGE
from sitegen.pages.needs.series_parts import SeriesParts, SessionsTogether
from sitegen.pages.page import Page
from sitegen.pages.site import Site
from sitegen.pages.theme import plural
from sitegen.pages.views import Views

FOLDER = "needs"

Numbers: TypeAlias = tuple[int, int, int]
"""Changes, gaps, and parts that train something else."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionCoverage:
    """How far a session serves a need."""

    state: str
    """``fully``, ``changed`` or ``gap``."""
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedColumn:
    """A need, and how many sessions of the part serve it fully, with changes, and with a gap."""

    need: Need
    address: str
    """Of its page for the same sessions."""
    avoids: tuple[str, ...]
    limits: tuple[str, ...]
    fully: int
    changed: int
    gap: int


def coverage_page(
    site: Site, parts: SeriesParts, part: SessionsTogether, sessions: Sequence[Episode]
) -> Page:
    """The page of a part of the series."""
    numbers = [site.facts.of(episode, COVERAGE) for episode in sessions]
    return Page(part.address(FOLDER), partial(_make, site, parts, part, sessions, numbers))


def _make(
    site: Site,
    parts: SeriesParts,
    part: SessionsTogether,
    sessions: Sequence[Episode],
    numbers: Sequence[Sequence[Numbers]],
) -> bytes:
    cells = {pair: _cell(site.theme.strings.needs, *pair) for row in numbers for pair in row}
    rows = [[cells[pair] for pair in row] for row in numbers]
    views = Views(site)
    columns = [
        _column(site, views, part, need, [row[place] for row in rows])
        for place, need in enumerate(site.details.needs.values())
    ]
    return site.render(
        "needs.html",
        part.address(FOLDER),
        columns=columns,
        rows=list(zip(sessions, rows, strict=True)),
        parts=parts.links,
        part=part,
        needs_json=views.adaptation.needs.json,
    )


def _cell(words: Any, changes: int, gaps: int, others: int) -> SessionCoverage:
    said = [plural(words.gaps, gaps)] if gaps else []
    said += [plural(words.others, others)] if others else []
    said += [plural(words.changes, changes)] if changes else []
    state = "gap" if gaps or others else "changed" if changes else "fully"
    return SessionCoverage(state=state, words=", ".join(said) or words.fully)


def _column(
    site: Site, views: Views, part: SessionsTogether, need: Need, cells: Iterable[SessionCoverage]
) -> NeedColumn:
    states = [cell.state for cell in cells]
    return NeedColumn(
        need=need,
        address=part.address(f"{FOLDER}/{need.id}"),
        avoids=views.demand_words(need.avoids),
        limits=limit_words(site, need.limits),
        fully=states.count("fully"),
        changed=states.count("changed"),
        gap=states.count("gap"),
    )
