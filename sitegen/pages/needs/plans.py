"""Each session's plan for somebody with one need: what changes and why, and what stays.

The plans of a session are a fact about its episode (see ``pages.facts``): worked out when it
changes, and kept as text, so that a page about fifty sessions opens none of them.
"""

import json
from collections.abc import Iterator, Sequence
from functools import lru_cache, partial
from typing import Any, NamedTuple, TypeAlias

from sitegen.model import Episode, Item, Need
from sitegen.output.page import Page, fingerprint
from sitegen.pages.adaptation import Adaptation
from sitegen.pages.needs.parts import Part, spans
from sitegen.pages.site import Site
from sitegen.pages.views import Views, markup
from sitegen.study.forms import Form, shown_form
from sitegen.study.suitability import Version


class FormName(NamedTuple):
    """A form as a link."""

    exercise: str
    id: str
    """Its anchor on the exercise's page; empty for the main form."""
    name: str


class Change(NamedTuple):
    """An item that is done in another form, or left out."""

    filmed: FormName
    version: FormName | None
    """What to do instead; None for a gap."""
    reasons: tuple[str, ...]
    """What the form filmed asks for and the need avoids."""
    dose: str = ""
    """The new dose, where it changes."""
    fetch: tuple[str, ...] = ()
    put_away: tuple[str, ...] = ()
    note: str = ""
    """HTML."""
    own_choice: bool = False


class SessionPlan(NamedTuple):
    """A session for somebody with the need."""

    episode: Episode
    changes: int
    gaps: int
    blocks: list[tuple[str, list[Change]]]
    """Name and changes of each block in which something changes."""
    kept: list[str]
    """Names of what is done as filmed."""


# --- the fact about an episode -------------------------------------------------------------


PlanFact: TypeAlias = tuple[int, int, str]
"""Changes, gaps, and blocks and kept of the plan as JSON."""


def episode_plans(site: Site, episode: Episode) -> tuple[PlanFact, ...]:
    """The plan for every need of the series, in its order."""
    return tuple(_planner(site).plans(episode))


class _Option(NamedTuple):
    """One form that an item may become."""

    fetch: frozenset[str]
    change: str = ""
    """A change as JSON; empty where the item is done as filmed."""
    gap: bool = False


_BlockOptions: TypeAlias = tuple[str, list[tuple[str, list[list[_Option]]]]]
"""A block's name; for each item its name as filmed and its options for every need."""


class _Planner:
    """Makes plans; what the same item becomes for a need is worked out once for all sessions."""

    def __init__(self, site: Site) -> None:
        self.site, self.views = site, Views(site)
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
        filmed = _names(shown_form(self.site.forms, item))
        reasons = self.views.demand_words(self.site.suitability.reasons(item, [need]))
        for version in self.site.suitability.fitting(item, [need]):
            change = "" if version.as_filmed else _json(self._change(filmed, reasons, version))
            yield _Option(frozenset(version.kit_added), change)
            if not version.kit_added:
                return  # nothing further is ever needed
        yield _Option(frozenset(), _json(Change(filmed, None, reasons)), gap=True)

    def _change(self, filmed: FormName, reasons: tuple[str, ...], version: Version) -> Change:
        return Change(
            filmed=filmed,
            version=_names(version.form),
            reasons=reasons,
            dose=self.site.phrases.dose(version.dose) if version.dose_changed else "",
            fetch=self.views.kit_names(version.kit_added),
            put_away=self.views.kit_names(version.kit_left),
            note=markup(version.form.note),
            own_choice=version.own_choice,
        )


@lru_cache(maxsize=1)
def _planner(site: Site) -> _Planner:
    return _Planner(site)


def _names(form: Form) -> FormName:
    return FormName(form.key.exercise, form.key.variant or "", form.name)


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


# --- the pages -----------------------------------------------------------------------------


def plan_pages(site: Site, parts: Sequence[Part]) -> Iterator[Page]:
    """For every need one page for every part of the series."""
    for place, need in enumerate(site.details.needs.values()):
        for part in parts:
            plans = [site.facts.of(episode, "plans")[place] for episode in part.episodes]
            texts = (text for _, _, text in plans)
            key = fingerprint(site.key, "plans", need.id, spans(parts), part.names, *texts)
            yield Page(part.address(_folder(need)), key, partial(_make, site, parts, part, need, plans))


def _folder(need: Need) -> str:
    return f"needs/{need.id}"


def _make(site: Site, parts: Sequence[Part], part: Part, need: Need, plans: Sequence[PlanFact]) -> bytes:
    return site.render(
        "need.html",
        part.address(_folder(need)),
        need=need,
        avoids=Views(site).demand_words(need.avoids),
        sessions=list(map(_read, part.episodes, plans)),
        parts=parts,
        part=part,
        needs_data=Adaptation(site).needs_json,
    )


def _read(episode: Episode, plan: PlanFact) -> SessionPlan:
    changes, gaps, text = plan
    blocks, kept = json.loads(text)
    read = [(name, list(map(_read_change, changed))) for name, changed in blocks]
    return SessionPlan(episode, changes, gaps, read, kept)


def _read_change(fields: list[Any]) -> Change:
    filmed, version, *rest = fields
    return Change(FormName(*filmed), FormName(*version) if version else None, *rest)
