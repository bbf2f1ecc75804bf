"""Each session's plan for somebody with one need: what changes and why, and what stays."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from markupsafe import Markup

from sitegen.model import Block, Episode, Item, Need
from sitegen.output.page import Page, fingerprint
from sitegen.pages.adaptation import Adaptation
from sitegen.pages.exercises.library import Library
from sitegen.pages.exercises.lists import Entries, FormLink
from sitegen.pages.needs.parts import Part, spans
from sitegen.pages.site import Site
from sitegen.pages.views import Views, markup
from sitegen.study.forms import shown_form
from sitegen.study.suitability import Version


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """An item that is done in another form, or left out."""

    filmed: FormLink
    version: FormLink | None
    """What to do instead; None for a gap."""
    reasons: tuple[str, ...]
    """What the form filmed asks for and the need avoids."""
    dose: str
    """The new dose, where it changes."""
    fetch: tuple[str, ...]
    put_away: tuple[str, ...]
    note: Markup
    own_choice: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockPlan:
    """The changes of one block."""

    name: str
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionPlan:
    """A session for somebody with the need."""

    slug: str
    number: int
    title: str
    blocks: tuple[BlockPlan, ...]
    """Only blocks in which something changes."""
    kept: tuple[str, ...]
    """Names of what is done as filmed."""
    changes: int
    gaps: int


def plan_pages(site: Site, views: Views, library: Library, parts: Sequence[Part]) -> Iterator[Page]:
    """For every need one page for every part of the series."""
    for need in site.details.needs.values():
        for part in parts:
            key = fingerprint(site.key, "plans", need.id, spans(parts), part.number, part.key)
            yield Page(part.address(_folder(need)), key, partial(_make, site, views, library, parts, part, need))


def _folder(need: Need) -> str:
    return f"needs/{need.id}"


def _make(
    site: Site, views: Views, library: Library, parts: Sequence[Part], part: Part, need: Need
) -> bytes:
    plans = Plans(site, views, library, need)
    return site.render(
        "need.html",
        part.address(_folder(need)),
        need=need,
        avoids=views.demand_words(need.avoids),
        plans=[plans.of(episode) for episode in part.episodes],
        needs_data=Adaptation(site).needs_json,
        parts=parts,
        part=part,
    )


class Plans:
    """Makes the plans for one need."""

    def __init__(self, site: Site, views: Views, library: Library, need: Need) -> None:
        self.site, self.views, self.need = site, views, need
        self._suitability = library.suitability
        self._entries = Entries(library)

    def of(self, episode: Episode) -> SessionPlan:
        """The plan of one session."""
        versions = self._suitability.session(episode, [self.need.id])
        pairs = [list(zip(b.items, v, strict=True)) for b, v in zip(episode.blocks, versions, strict=True)]
        kept = [shown_form(self.site.forms, i).name for pair in pairs for i, v in pair if v and v.as_filmed]
        changed = [[(i, v) for i, v in pair if not (v and v.as_filmed)] for pair in pairs]
        return SessionPlan(
            slug=episode.slug,
            number=episode.number,
            title=episode.title,
            blocks=tuple(self._block(b, c) for b, c in zip(episode.blocks, changed, strict=True) if c),
            kept=tuple(dict.fromkeys(kept)),
            changes=sum(v is not None for found in changed for _, v in found),
            gaps=sum(v is None for found in changed for _, v in found),
        )

    def _block(self, block: Block, changed: Sequence[tuple[Item, Version | None]]) -> BlockPlan:
        return BlockPlan(name=block.name, changes=tuple(self._change(i, v) for i, v in changed))

    def _change(self, item: Item, version: Version | None) -> Change:
        filmed = self._entries.link(shown_form(self.site.forms, item))
        reasons = self.views.demand_words(self._suitability.reasons(item, [self.need.id]))
        if version is None:
            return Change(filmed=filmed, version=None, reasons=reasons, dose="", fetch=(), put_away=(),
                          note=Markup(), own_choice=False)
        return Change(
            filmed=filmed,
            version=self._entries.link(version.form),
            reasons=reasons,
            dose=self.site.phrases.dose(version.dose) if version.dose_changed else "",
            fetch=self.views.kit_names(version.kit_added),
            put_away=self.views.kit_names(version.kit_left),
            note=markup(version.form.note),
            own_choice=version.own_choice,
        )
