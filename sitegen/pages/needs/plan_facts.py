"""What a session becomes for every need, worked out when its episode changes (see ``pages.facts``).

A plan is kept as text that a page need only print, so that a page about fifty sessions opens
none of them; and what the same item becomes for a need is worked out once for all sessions.
"""

import json
from collections.abc import Sequence
from functools import lru_cache
from typing import Any, NamedTuple, TypeAlias

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

PlanFact: TypeAlias = tuple[int, int, int, str]
"""Changes, gaps, parts that train something else, and ``[[[name of a block, whether it still trains what
it is for, [ChangedItem, …]], …], [name of what is done as filmed, …]]`` as JSON; only blocks in which
something changes."""


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
        self._texts: Shared[str] = Shared()

    def plan(self, episode: Episode, need: str, session: Sequence[Versions]) -> PlanFact:
        """The plan for a need, for which ``session`` was chosen."""
        changed, kept, changes, gaps, others = [], dict[str, None](), 0, 0, 0
        for block, versions in zip(episode.blocks, session, strict=True):
            texts = []
            for item, version in zip(block.items, versions, strict=True):
                if version is not None and version.as_filmed:
                    kept[version.form.name] = None
                else:
                    texts.append(self._text(block, item, version, need))
            gaps += sum(version is None for version in versions)
            serves = self.site.suitability.keeps_purpose(block, versions)
            others += not serves
            changes += len(texts)
            if texts:
                changed.append(f"[{_json(block.name)},{_json(serves)},[{','.join(texts)}]]")
        return changes - gaps, gaps, others, f"[[{','.join(changed)}],{_json(list(kept))}]"

    def _text(self, block: Block, item: Item, version: Version | None, need: str) -> str:
        """A change as JSON."""
        shown = version and (
            version.form.key,
            version.lost,
            version.limited,
            version.own_choice,
            version.meant,
        )
        key = (item_key(item), block.kind, block.work, need, shown)

        def text() -> str:
            return _json(
                self._change(block, item, version, need) if version else self._gap(block, item, need)
            )

        return self._texts.get(key, text)

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
            note=markup(form.note) if version.steps else "",
            cautions=tuple(map(short_caution, form.cautions)),
            gap=False,
            drawing=drawing_address(form),
            shows=self.views.drawings.words(form),
        )

    def _gap(self, block: Block, item: Item, need: str) -> ChangedItem:
        filmed = shown_form(self.site.forms, item)
        why = self._because(item, need) or self._strings.over_limit
        return ChangedItem(filmed.name, filmed.name, _page(filmed), "", why, "", "", (), True, "", "")

    def _because(self, item: Item, need: str) -> str:
        reasons = self.views.demand_words(self.site.suitability.reasons(item, [need]))
        return str(self._strings.because.format(reasons=", ".join(reasons))) if reasons else ""


def _page(form: Form) -> str:
    exercise, variant = form.key
    return f"{exercise}/index.html{'#' if variant else ''}{variant or ''}"


def _json(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))
