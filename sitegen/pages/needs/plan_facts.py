"""What a session becomes for every need, worked out when its episode changes (see ``pages.facts``).

A plan is kept as text that a page need only print, so that a page about fifty sessions opens
none of them; and what the same item becomes for a need is worked out once for all sessions.
"""

import json
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Any, NamedTuple, TypeAlias

from sitegen.model import Episode, Item
from sitegen.pages.site import Site
from sitegen.pages.views import Views, markup
from sitegen.study.forms import Form, shown_form
from sitegen.study.suitability import Version

PLANS = "plans"
"""Name of the fact."""

PlanFact: TypeAlias = tuple[int, int, str]
"""Changes, gaps, and ``[[[name of a block, [Change, …]], …], [name of what is done as filmed, …]]``
as JSON; only blocks in which something changes."""


class Change(NamedTuple):
    """An item that is done in another form, or left out."""

    filmed: str
    """Name of the form filmed."""
    name: str
    """Of the form to do instead; of the form filmed where there is none."""
    page: str
    """Of the form with that name, below ``exercises/``."""
    why: str
    """What the need avoids in it, and what else changes, in one line."""
    note: str
    """HTML."""
    gap: bool


class _Option(NamedTuple):
    """One form that an item may become."""

    fetch: frozenset[str]
    change: str = ""
    """A change as JSON; empty where the item is done as filmed."""
    gap: bool = False


_BlockOptions: TypeAlias = tuple[str, list[tuple[str, list[list[_Option]]]]]
"""A block's name; for each item its name as filmed and its options for every need."""


def episode_plans(site: Site, episode: Episode) -> tuple[PlanFact, ...]:
    """The plan for every need of the series, in its order."""
    return tuple(_planner(site).plans(episode))


@lru_cache(maxsize=1)
def _planner(site: Site) -> "_Planner":
    return _Planner(site)


class _Planner:
    def __init__(self, site: Site) -> None:
        self.site, self.views = site, Views(site)
        self._words = site.theme.strings.need
        self._needs = list(site.details.needs)
        self._options: dict[tuple[object, ...], list[list[_Option]]] = {}

    def plans(self, episode: Episode) -> Iterator[PlanFact]:
        """The plan for every need."""
        kit = self.site.suitability.kit_at_hand(episode)
        blocks = [
            (block.name, [(shown_form(self.site.forms, item).name, self._of(item)) for item in block.items])
            for block in episode.blocks
        ]
        for place in range(len(self._needs)):
            yield _plan(blocks, place, kit)

    def _of(self, item: Item) -> list[list[_Option]]:
        """For every need the forms that the item may become, the nearest first; a gap comes last."""
        key = (item.exercise, item.variant, item.dose, *item.versions.items())
        known = self._options.get(key)
        if known is None:
            known = self._options[key] = [list(self._for_need(item, need)) for need in self._needs]
        return known

    def _for_need(self, item: Item, need: str) -> Iterator[_Option]:
        filmed = shown_form(self.site.forms, item)
        reasons = self.views.demand_words(self.site.suitability.reasons(item, [need]))
        for version in self.site.suitability.fitting(item, [need]):
            change = "" if version.as_filmed else _json(self._change(filmed, reasons, version))
            yield _Option(frozenset(version.kit_added), change)
            if not version.kit_added:
                return  # nothing further is ever needed
        gap = Change(filmed.name, filmed.name, _page(filmed), self._because(reasons), "", True)
        yield _Option(frozenset(), _json(gap), gap=True)

    def _change(self, filmed: Form, reasons: tuple[str, ...], version: Version) -> Change:
        form, words = version.form, self._words
        fetch, put_away = self.views.kit_names(version.kit_added), self.views.kit_names(version.kit_left)
        why = (
            self._because(reasons) if reasons else "",
            words.own_choice.format(name=self.site.details.trainer.name) if version.own_choice else "",
            words.dose.format(dose=self.site.phrases.dose(version.dose)) if version.dose_changed else "",
            words.fetch.format(kit=", ".join(fetch)) if fetch else "",
            words.put_away.format(kit=", ".join(put_away)) if put_away else "",
        )
        return Change(
            filmed=filmed.name,
            name=form.name,
            page=_page(form),
            why=" · ".join(filter(None, why)),
            note=markup(form.note),
            gap=False,
        )

    def _because(self, reasons: tuple[str, ...]) -> str:
        return str(self._words.because.format(reasons=", ".join(reasons)))


def _page(form: Form) -> str:
    exercise, variant = form.key
    return f"{exercise}/index.html{'#' if variant else ''}{variant or ''}"


def _plan(blocks: Sequence[_BlockOptions], place: int, kit: frozenset[str]) -> PlanFact:
    """The plan for the need at that place."""
    changed, kept, changes, gaps = [], dict[str, None](), 0, 0
    for name, items in blocks:
        texts = []
        for filmed, options in items:
            option = next(one for one in options[place] if kit.issuperset(one.fetch))
            gaps += option.gap
            if option.change:
                texts.append(option.change)
            else:
                kept[filmed] = None
        changes += len(texts)
        if texts:
            changed.append(f"[{_json(name)},[{','.join(texts)}]]")
    return changes - gaps, gaps, f"[[{','.join(changed)}],{_json(list(kept))}]"


def _json(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))
