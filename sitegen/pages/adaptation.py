"""What the scripts need to fit a session to a viewer's needs: the same choice as ``study.suitability``.

For each item its forms are listed from the nearest to the furthest, each with the demands that somebody
may have to avoid and with what every level of a limit makes of it (see ``limit_levels``); null stands for a
limit that cannot be kept in the form. All that ``themes/…/scripts/needs.js`` does is to pick.
"""

import itertools
from collections.abc import Callable, Iterator, Mapping
from functools import cached_property, partial
from typing import TypeAlias

from sitegen.model import Episode, Item, Limits
from sitegen.pages.form_data import Fields, FormData, page_of
from sitegen.pages.item_places import ItemPlace
from sitegen.pages.limit_levels import KINDS
from sitegen.pages.needs_data import NeedsData
from sitegen.pages.script_json import to_json
from sitegen.pages.site import Site
from sitegen.study.forms import FormKey
from sitegen.study.joint_loads import Steps
from sitegen.study.need_limits import merge
from sitegen.study.rotation import LEFT, first_hands
from sitegen.study.suitability import joints_of_needs
from sitegen.study.timing import item_sets
from sitegen.study.version import Version
from sitegen.system.noted_reads import Shared

TOGETHER = "together"
"""Beside the kinds of limits, what levels of several of them make of the fields that each of them changes."""

Results: TypeAlias = dict[str, dict[str, "Fields | None"]]
"""By kind of limit and level: the fields that change, or None where the limit cannot be kept. Under
:data:`TOGETHER` by the levels of several kinds, as ``effort:0/0 speed:0``."""


class Adaptation:
    """Makes the data of one site; what several episodes share is made once."""

    def __init__(self, site: Site) -> None:
        self.site = site
        self.suitability = site.suitability
        self.needs = NeedsData(site)
        self.forms = FormData(site)
        self._json: Shared[str] = Shared()
        self._kept: Shared[tuple[Version, ...]] = Shared()
        self._reach: Shared[frozenset[FormKey]] = Shared()

    def items_json(self, episode: Episode) -> Iterator[tuple[str, ...]]:
        """The data of each block's items as text (see :meth:`item_data`)."""
        for places in self.places(episode):
            yield tuple(map(self._item_json, places))

    def _item_json(self, place: ItemPlace) -> str:
        forms = self.forms
        return self._json.get(place.key, lambda: to_json(self.item_data(place, forms.shown, forms.described)))

    def places(self, episode: Episode) -> Iterator[list[ItemPlace]]:
        """Every item in its place, block by block."""
        kit = self.suitability.kit_at_hand(episode)
        hands = first_hands(self.site.details, self.site.forms, episode)
        for number, block in enumerate(episode.blocks):
            reaches = [
                self._reach.get(FormKey(item.exercise, item.variant), partial(self._within_reach, item))
                for item in block.items
            ]
            sets = item_sets(self.site.details, self.site.forms, block)
            yield [
                ItemPlace(
                    block,
                    item,
                    sets[index],
                    hands.get((number, index), LEFT),
                    kit & self.suitability.kit_that_matters(item),
                    sum(not mine.isdisjoint(other) for other in reaches) - 1,  # without itself
                )
                for index, (item, mine) in enumerate(zip(block.items, reaches, strict=True))
            ]

    def _within_reach(self, item: Item) -> frozenset[FormKey]:
        ranked = self.suitability.ranked(item, frozenset(self.site.details.kit))
        return frozenset(version.identity for version in ranked)

    def item_data(
        self,
        place: ItemPlace,
        shown: Callable[[ItemPlace, Version], Fields],
        described: Callable[[ItemPlace, Version], Fields],
    ) -> Fields:
        """``{"forms": [form, …], "own": {need: index of a form}}``; the first form is the one filmed.

        ``shown`` gives the fields that limits may change, ``described`` the others. Forms that can
        never be chosen, because enough nearer ones ask for no more, are left out. Besides those
        fields a form has ``demands`` and, where there is any, ``tier`` (how far it is in kind), ``harder``
        (that it is, or may be, in words), ``easier`` (steps down the ladder beyond the first), ``joints``
        (its place among the others by what it asks of each joint that may be spared), ``for`` (the needs it
        is written for), ``other`` (it trains none of the muscles of the item), ``is`` (the exercise that it
        is, where that is another) and ``limits``.
        """
        item = place.item
        kept = self.choosable(place)
        index_of = {version.form.key: number for number, version in enumerate(kept)}
        tiers = {kind: tier for tier, kind in enumerate(sorted({version.near.kind for version in kept}))}
        joints = self._joint_places(place, kept)
        forms = []
        for number, version in enumerate(kept):
            data = described(place, version) | shown(place, version)
            data["demands"] = [demand for demand in version.form.demands if demand in self.needs.told]
            further = {
                "tier": tiers[version.near.kind],
                "easier": version.near.much_easier if joints else 0,
                "joints": joints[number] if joints and any(joints[number]) else (),
                "harder": self.forms.words.harder(version),
                "for": _needs_of(version, item),
                "other": not self.suitability.trains_the_same(item, version.form),
                "is": page_of(version.identity) if version.form.link else "",
                "limits": self._results(place, version, shown),
            }
            forms.append(
                {name: value for name, value in (data | further).items() if value or name == "demands"}
            )
        return {
            "forms": forms,
            "own": {need: index_of[key] for need, key in _own(item).items() if key in index_of},
        }

    def _joint_places(self, place: ItemPlace, kept: tuple[Version, ...]) -> list[list[int]]:
        """For each version its place by what it asks of each joint, equals alike; empty if none is told."""
        loads = self._loads(place)
        if not loads:
            return []
        columns = list(zip(*(loads[version.form.key] for version in kept), strict=True))
        orders = [{steps: number for number, steps in enumerate(sorted(set(column)))} for column in columns]
        return [
            [order[steps] for order, steps in zip(orders, loads[version.form.key], strict=True)]
            for version in kept
        ]

    def _loads(self, place: ItemPlace) -> Mapping[FormKey, Steps]:
        if not self._spares:
            return {}
        return self.suitability.joint_loads(self.suitability.ranked(place.item, place.kit))

    @cached_property
    def _spares(self) -> bool:
        """Whether some need of the series spares a joint."""
        return bool(joints_of_needs(self.site.details.needs.values()))

    def _results(
        self, place: ItemPlace, version: Version, shown: Callable[[ItemPlace, Version], Fields]
    ) -> Results:
        """What every level makes of a version; levels that change nothing are left out.

        A field that levels of several kinds change has no value that one of them could give: what they make
        of it stands under :data:`TOGETHER`, by their names.
        """
        found: Results = {}
        before: Fields = {}
        alone: dict[tuple[str, str], tuple[Limits, Fields]] = {}
        asked = self.suitability.asked(place.block, place.item, version)
        for kind, level, limits in self.needs.levels.all:
            left = self.suitability.prescribed(version, asked, limits)
            if left is None:
                found.setdefault(kind, {})[level] = None
            elif left.limited:
                before = before or shown(place, version)
                after = shown(place, left)
                changed = {name: value for name, value in after.items() if value != before[name]}
                alone[kind, level] = limits, changed
                found.setdefault(kind, {})[level] = changed | {"less": self.forms.words.limited(left)}
        for levels, limits, fields in _on_the_same(alone):
            left = self.suitability.prescribed(version, asked, limits)
            if left is not None:
                after = shown(place, left)
                found.setdefault(TOGETHER, {})[levels] = {name: after[name] for name in sorted(fields)}
        return found

    def choosable(self, place: ItemPlace) -> tuple[Version, ...]:
        """The versions of an item that some viewer may come to, the nearest first."""
        return self._kept.get(place.key, lambda: tuple(self._choosable(place)))

    def _choosable(self, place: ItemPlace) -> Iterator[Version]:
        """A version is out of the race where a nearer one of the same exercise, or more exercises than the
        other items of the block can take away, ask for no more than it does, of the joints neither.
        """
        own = frozenset(_own(place.item).values())
        nearer: list[tuple[frozenset[object], Steps, FormKey]] = []
        loads = self._loads(place)
        for version in self.suitability.ranked(place.item, place.kit):
            demands = frozenset(version.form.demands).intersection(self.needs.told)
            asks = demands.union(self._not_kept(place, version))
            carries = loads.get(version.form.key, ())
            if not version.steps:  # what is filmed comes first whatever it asks of the joints
                carries = tuple((0, 0) for _ in carries)
            before = {identity for one, less, identity in nearer if one <= asks and _no_more(less, carries)}
            spare = version.identity not in before and len(before) <= place.others
            if version.form.key in own or _needs_of(version, place.item) or spare:
                yield version
                nearer.append((asks, carries, version.identity))

    def _not_kept(self, place: ItemPlace, version: Version) -> Iterator[object]:
        """Levels that cannot be kept in a form: only a load can be too heavy for it."""
        if version.load is None and not version.own_load:
            return
        asked = self.suitability.asked(place.block, place.item, version)
        for kind, level, limits in self.needs.levels.all:
            if kind == "load" and self.suitability.prescribed(version, asked, limits) is None:
                yield level


def _on_the_same(
    alone: Mapping[tuple[str, str], tuple[Limits, Fields]],
) -> Iterator[tuple[str, Limits, frozenset[str]]]:
    """Levels of several kinds that change fields in common: their names, their limits together, those fields.

    The more levels there are in one of these, the later it comes.
    """
    for count in range(2, len(KINDS) + 1):
        for ones in itertools.combinations(alone, count):
            if len({kind for kind, _ in ones}) < count:
                continue
            changed = [name for one in ones for name in alone[one][1]]
            common = frozenset(name for name in changed if changed.count(name) > 1)
            if common:
                yield " ".join(map(":".join, ones)), merge(alone[one][0] for one in ones), common


def _needs_of(version: Version, item: Item) -> list[str]:
    """The needs for which a form is chosen before nearer ones of the item's exercise."""
    return list(version.form.meant_for) if version.form.key.exercise == item.exercise else []


def _own(item: Item) -> dict[str, FormKey]:
    """The forms that the trainer chose, by need."""
    return {need: FormKey(item.exercise, variant) for need, variant in item.versions.items()}


def _no_more(one: Steps, other: Steps) -> bool:
    """Whether the first asks no more of any joint than the second."""
    return all(less <= more for less, more in zip(one, other, strict=True))
