"""What a session becomes for every need, worked out when its episode changes (see ``pages.facts``).

What the same item becomes for a need is worked out once for all sessions.
"""

from collections.abc import Iterator, Sequence
from functools import lru_cache, partial
from typing import NamedTuple

from sitegen.model import Block, Episode, Item
from sitegen.pages.cautions import short_caution
from sitegen.pages.exercises.drawing_files import drawing_address
from sitegen.pages.site import Site
from sitegen.pages.version_words import VersionWords
from sitegen.pages.views import Views, markup
from sitegen.study.forms import Form, shown_form
from sitegen.study.suitability import ByNeed, Versions
from sitegen.study.version import Version, item_key
from sitegen.system.noted_reads import Shared

PLANS, COVERAGE = "plans", "coverage"
"""Names of the fact, and of the one with its numbers alone."""


class ChangedItem(NamedTuple):
    """An item that is done in another way, or left out."""

    filmed: str
    """Name of the form filmed."""
    name: str
    """Of the form to do instead; of the form filmed where there is none."""
    page: str
    """Of the form with that name, below ``exercises/``."""
    how: str
    """Dose, load, tempo and effort in one line."""
    why: str
    """What the need avoids in it, and whose choice it is, in one line."""
    lost: str
    """What is lost or changed, in whole sentences."""
    note: str
    """HTML."""
    cautions: tuple[str, ...]
    """Short ones."""
    gap: bool
    drawing: str
    """Address of its picture below the site's root; empty where there is none."""
    shows: str
    """What the picture shows, in sentences."""


class ChangedBlock(NamedTuple):
    """A block in which something changes."""

    name: str
    serves: bool
    """Whether it still trains what it is for."""
    items: tuple[ChangedItem, ...]


class PlanFact(NamedTuple):
    """A session for somebody with a need."""

    changes: int
    gaps: int
    others: int
    """Parts that train something else."""
    blocks: tuple[ChangedBlock, ...]
    kept: tuple[str, ...]
    """Names of what is done as filmed."""


def coverage_of(plans: tuple[PlanFact, ...]) -> list[tuple[int, int, int]]:
    """For every need changes, gaps, and parts that train something else."""
    return [plan[:3] for plan in plans]


def episode_plans(site: Site, episode: Episode, chosen: ByNeed) -> tuple[PlanFact, ...]:
    """The plan for every need of the series, in its order."""
    planner = _planner(site)
    return tuple(planner.plan(episode, need, session) for need, session in chosen.items())


@lru_cache(maxsize=1)
def _planner(site: Site) -> "_Planner":
    return _Planner(site)


class _Planner:
    def __init__(self, site: Site) -> None:
        self.site, self.views, self.words = site, Views(site), VersionWords(site)
        self._strings = site.theme.strings.need
        self._changed: Shared[ChangedItem] = Shared()

    def plan(self, episode: Episode, need: str, session: Sequence[Versions]) -> PlanFact:
        """The plan for a need, for which ``session`` was chosen."""
        blocks, kept, changes, gaps, others = [], dict[str, None](), 0, 0, 0
        for block, versions in zip(episode.blocks, session, strict=True):
            items = []
            for item, version in zip(block.items, versions, strict=True):
                if version is not None and version.as_filmed:
                    kept[version.form.name] = None
                else:
                    items.append(self._item(block, item, version, need))
            gaps += sum(version is None for version in versions)
            serves = self.site.suitability.keeps_purpose(block, versions)
            others += not serves
            changes += len(items)
            if items:
                blocks.append(ChangedBlock(block.name, serves, tuple(items)))
        return PlanFact(changes - gaps, gaps, others, tuple(blocks), tuple(kept))

    def _item(self, block: Block, item: Item, version: Version | None, need: str) -> ChangedItem:
        if version is None:
            key: tuple[object, ...] = (item_key(item), need)
            return self._changed.get(key, partial(self._gap, item, need))
        shown = (version.form.key, version.lost, version.limited, version.own_choice, version.meant)
        key = (item_key(item), block.kind, block.work, need, shown)
        return self._changed.get(key, partial(self._change, block, item, version, need))

    def _change(self, block: Block, item: Item, version: Version, need: str) -> ChangedItem:
        form, words = version.form, self._strings
        fetch, put_away = self.views.kit_names(version.kit_added), self.views.kit_names(version.kit_left)
        why = (
            self._because(item, need),
            words.own_choice.format(name=self.site.details.trainer.name) if version.own_choice else "",
            words.meant if version.meant and version.steps and not version.own_choice else "",
            words.fetch.format(kit=", ".join(fetch)) if fetch else "",
            words.put_away.format(kit=", ".join(put_away)) if put_away else "",
        )
        load, tempo = self.words.load(version), self.words.tempo(version)
        how = (
            self.words.dose(block, version),
            self.site.theme.strings.episode.holding.format(load=load) if load else "",
            self.site.theme.strings.episode.tempo.format(tempo=tempo) if tempo else "",
            self.words.effort(version),
        )
        return ChangedItem(
            filmed=shown_form(self.site.forms, item).name,
            name=form.name,
            page=_page(form),
            how=" · ".join(filter(None, how)),
            why=" · ".join(filter(None, why)),
            lost=self.words.all_said(block, version),
            note=" · ".join(markup(text) for text in _told(form)),
            cautions=tuple(map(short_caution, form.cautions)),
            gap=False,
            drawing=drawing_address(form),
            shows=self.views.drawings.words(form),
        )

    def _gap(self, item: Item, need: str) -> ChangedItem:
        filmed = shown_form(self.site.forms, item)
        why = self._because(item, need) or self._strings.over_limit
        return ChangedItem(filmed.name, filmed.name, _page(filmed), "", why, "", "", (), True, "", "")

    def _because(self, item: Item, need: str) -> str:
        reasons = self.views.demand_words(self.site.suitability.reasons(item, [need]))
        return str(self._strings.because.format(reasons=", ".join(reasons))) if reasons else ""


def _told(form: Form) -> Iterator[str]:
    """What it is for, and what it is where no cue says how it is done."""
    if form.note:
        yield form.note
    if not form.cues and form.summary:
        yield form.summary


def _page(form: Form) -> str:
    exercise, variant = form.key
    return f"{exercise}/index.html{'#' if variant else ''}{variant or ''}"
