"""What the scripts need to fit a session to a viewer's needs: the same choice as ``study.suitability``.

For each item its forms are listed from the nearest to the furthest, each with the demands that somebody
may have to avoid and with what every level of a limit makes of it (see ``levels``); null stands for a
limit that cannot be kept in the form. All that ``themes/…/scripts/needs.js`` does is to pick.
"""

import itertools
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from functools import cached_property
from typing import Any, TypeAlias

from markupsafe import Markup

from sitegen.model import Block, Episode, Item, Limits
from sitegen.pages.cautions import short_caution
from sitegen.pages.limit_levels import KINDS, Levels
from sitegen.pages.load_words import heavy_sets, large_amounts
from sitegen.pages.rotation import RotationWords
from sitegen.pages.scriptdata import script_json, to_json
from sitegen.pages.site import Site
from sitegen.pages.versions import VersionWords, one_side, timed_seconds
from sitegen.reading.markdown import inline_html
from sitegen.study.adapted import as_item
from sitegen.study.forms import FormKey
from sitegen.study.joint_loads import SPARED, Steps
from sitegen.study.load import difference
from sitegen.study.moved_addresses import Moves, place_of
from sitegen.study.need_limits import merge
from sitegen.study.rotation import LEFT, first_hands
from sitegen.study.span import Span
from sitegen.study.suitability import SPEED, joints_of_needs
from sitegen.study.timing import item_sets, set_seconds
from sitegen.study.version import Version, item_key
from sitegen.system.reads import Shared

TOGETHER = "together"
"""Beside the kinds of limits, what levels of several of them make of the fields that each of them changes."""

Fields: TypeAlias = dict[str, Any]
Results: TypeAlias = dict[str, dict[str, "Fields | None"]]
"""By kind of limit and level: the fields that change, or None where the limit cannot be kept. Under
:data:`TOGETHER` by the levels of several kinds, as ``effort:0/0 speed:0``."""


class Place:
    """An item in its block, with what the choice of its forms depends on."""

    def __init__(
        self, block: Block, item: Item, sets: Span, first: str, kit: frozenset[str], others: int
    ) -> None:
        self.block, self.item, self.sets = block, item, sets
        self.first = first
        """The hand that begins with the heavier of two uneven loads."""
        self.kit = kit
        """At hand, as far as it matters for the item."""
        self.others = others
        """Items of the block that may come to the same form."""

    @property
    def key(self) -> tuple[object, ...]:
        """Alike for places with the same data, in whichever session they are."""
        own = tuple(self.item.versions.items())
        block = self.block
        course = (block.kind, block.format, block.work, block.time, self.sets, self.first)
        return (*item_key(self.item), own, *course, self.kit, self.others)


class Adaptation:
    """Makes the data of one site; what several episodes share is made once."""

    def __init__(self, site: Site) -> None:
        self.site = site
        self.suitability = site.suitability
        self.words = VersionWords(site)
        self._json: Shared[str] = Shared()
        self._kept: Shared[tuple[Version, ...]] = Shared()
        self._reach: Shared[frozenset[FormKey]] = Shared()

    # --- needs -----------------------------------------------------------------------------

    @cached_property
    def prefix(self) -> str:
        """Begins every key under which the site's scripts keep something in a browser.

        It is the site's own, for several sites may share one host, and changes only with the address.
        """
        return self.site.details.address.partition("://")[2]

    @cached_property
    def levels(self) -> Levels:
        """The levels of the needs' limits."""
        return Levels(self.site.details.needs)

    @cached_property
    def needs_json(self) -> Markup:
        """The series' needs, for the block with the id ``needs-data`` that needs.js reads.

        ``{"prefix": …, "needs": {id: need}, "words": {demand: word}, "renamed": {old id: id}}``; a need has
        its name, what it avoids, and, where there is any, what it rather does without, its limits as levels,
        the longest session in seconds, the kit that it has with it and the joints that it spares.
        """
        return script_json(
            {
                "prefix": self.prefix,
                "needs": {need: self._need(need) for need in self.site.details.needs},
                "words": {demand: self.site.phrases.words("demands", demand) for demand in self._told},
                "renamed": dict(self._renamed()),
            }
        )

    def _renamed(self) -> Iterator[tuple[str, str]]:
        """Needs whose page moved to that of another: a choice kept in a browser or a link moves along."""
        details = self.site.details
        places = {f"needs/{need}": need for need in details.needs}
        moves = Moves(details.moved, places.__contains__)
        for place in map(place_of, details.moved):
            end = moves.end_of(place)
            if end is not None and place not in places and place.startswith("needs/"):
                yield place.removeprefix("needs/"), places[end]

    def _need(self, need_id: str) -> Fields:
        need = self.site.details.needs[need_id]
        data = {"name": need.name, "avoids": self._avoided(need_id)}
        further = {
            "rather": need.rather_without,
            "limits": self.levels.of(need),
            "session": need.limits.session,
            "has": need.has,
            "joints": [SPARED.index(joint) for joint in joints_of_needs([need])],
        }
        return data | {name: value for name, value in further.items() if value}

    def _avoided(self, need_id: str) -> list[str]:
        need = self.site.details.needs[need_id]
        speed = [SPEED] if not need.limits.speed and SPEED not in need.avoids else []
        return [*need.avoids, *speed]

    @cached_property
    def _told(self) -> tuple[str, ...]:
        """Demands that some need of the series avoids or rather does without; others never decide."""
        needs = self.site.details.needs
        demands = (demand for need in needs for demand in (*self._avoided(need), *needs[need].rather_without))
        return tuple(dict.fromkeys(demands))

    # --- items -----------------------------------------------------------------------------

    def items_json(self, episode: Episode) -> Iterator[tuple[str, ...]]:
        """For each block, the data of its items as text (see :meth:`item_data`)."""
        for places in self.places(episode):
            yield tuple(map(self._item_json, places))

    def _item_json(self, place: Place) -> str:
        return self._json.get(place.key, lambda: to_json(self.item_data(place, self._shown, self._described)))

    def places(self, episode: Episode) -> Iterator[list[Place]]:
        """Every item in its place, block by block."""
        kit = self.suitability.kit_at_hand(episode)
        hands = first_hands(self.site.details, self.site.forms, episode)
        for number, block in enumerate(episode.blocks):
            reaches = [self._identities(item) for item in block.items]
            sets = item_sets(self.site.details, self.site.forms, block)
            yield [
                Place(
                    block,
                    item,
                    sets[index],
                    hands.get((number, index), LEFT),
                    kit & self.suitability.kit_that_matters(item),
                    sum(not mine.isdisjoint(other) for other in reaches) - 1,  # without itself
                )
                for index, (item, mine) in enumerate(zip(block.items, reaches, strict=True))
            ]

    def _identities(self, item: Item) -> frozenset[FormKey]:
        return self._reach.get(FormKey(item.exercise, item.variant), lambda: self._within_reach(item))

    def _within_reach(self, item: Item) -> frozenset[FormKey]:
        ranked = self.suitability.ranked(item, frozenset(self.site.details.kit))
        return frozenset(version.identity for version in ranked)

    def item_data(
        self,
        place: Place,
        shown: Callable[[Place, Version], Fields],
        described: Callable[[Place, Version], Fields],
    ) -> Fields:
        """``{"forms": [form, …], "own": {need: index of a form}}``; the first form is the one filmed.

        ``shown`` gives the fields that limits may change, ``described`` the others. Forms that can
        never be chosen, because enough nearer ones ask for no more, are left out. Besides those
        fields a form has ``demands`` and, where there is any, ``tier`` (how far it is in kind), ``harder``,
        ``easier`` (steps down the ladder beyond the first) and ``joints`` (its place among the others by
        what it asks of each joint that may be spared), ``for`` (the needs it is written for), ``other`` (it
        trains none of the muscles of the item), ``is`` (the exercise that it is, where that is another) and
        ``limits``.
        """
        item = place.item
        kept = self.choosable(place)
        index_of = {version.form.key: number for number, version in enumerate(kept)}
        tiers = {kind: tier for tier, kind in enumerate(sorted({version.near.kind for version in kept}))}
        joints = self._joint_places(place, kept)
        forms = []
        for number, version in enumerate(kept):
            data = described(place, version) | shown(place, version)
            data["demands"] = [demand for demand in version.form.demands if demand in self._told]
            further = {
                "tier": tiers[version.near.kind],
                "easier": version.near.much_easier if joints else 0,
                "joints": joints[number] if joints and any(joints[number]) else (),
                "harder": version.near.harder,
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

    def _joint_places(self, place: Place, kept: tuple[Version, ...]) -> list[list[int]]:
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

    def _loads(self, place: Place) -> Mapping[FormKey, Steps]:
        if not self._spares:
            return {}
        return self.suitability.joint_loads(self.suitability.ranked(place.item, place.kit))

    @cached_property
    def _spares(self) -> bool:
        """Whether some need of the series spares a joint."""
        return bool(joints_of_needs(self.site.details.needs.values()))

    def _results(self, place: Place, version: Version, shown: Callable[[Place, Version], Fields]) -> Results:
        """What every level makes of a version; levels that change nothing are left out.

        A field that levels of several kinds change has no value that one of them could give: what they make
        of it stands under :data:`TOGETHER`, by their names.
        """
        found: Results = {}
        before: Fields = {}
        alone: dict[tuple[str, str], tuple[Limits, Fields]] = {}
        asked = self.suitability.asked(place.block, place.item, version)
        for kind, level, limits in self.levels.all:
            left = self.suitability.prescribed(version, asked, limits)
            if left is None:
                found.setdefault(kind, {})[level] = None
            elif left.limited:
                before = before or shown(place, version)
                changed = _differing(before, shown(place, left))
                alone[kind, level] = limits, changed
                found.setdefault(kind, {})[level] = changed | {"less": self.words.limited(left)}
        for levels, limits, fields in _on_the_same(alone):
            left = self.suitability.prescribed(version, asked, limits)
            if left is not None:
                after = shown(place, left)
                found.setdefault(TOGETHER, {})[levels] = {name: after[name] for name in sorted(fields)}
        return found

    def choosable(self, place: Place) -> tuple[Version, ...]:
        """The versions of an item that some viewer may come to, the nearest first."""
        return self._kept.get(place.key, lambda: tuple(self._choosable(place)))

    def _choosable(self, place: Place) -> Iterator[Version]:
        """A version is out of the race where a nearer one of the same exercise, or more exercises than the
        other items of the block can take away, ask for no more than it does, of the joints neither.
        """
        own = frozenset(_own(place.item).values())
        nearer: list[tuple[frozenset[object], Steps, FormKey]] = []
        loads = self._loads(place)
        for version in self.suitability.ranked(place.item, place.kit):
            demands = frozenset(version.form.demands).intersection(self._told)
            asks = demands.union(self._not_kept(place, version))
            carries = loads.get(version.form.key, ())
            if not version.steps:  # what is filmed comes first whatever it asks of the joints
                carries = tuple((0, 0) for _ in carries)
            before = {identity for one, less, identity in nearer if one <= asks and _no_more(less, carries)}
            spare = version.identity not in before and len(before) <= place.others
            if version.form.key in own or _needs_of(version, place.item) or spare:
                yield version
                nearer.append((asks, carries, version.identity))

    def _not_kept(self, place: Place, version: Version) -> Iterator[object]:
        """Levels that cannot be kept in a form: only a load can be too heavy for it."""
        if version.load is None and not version.own_load:
            return
        asked = self.suitability.asked(place.block, place.item, version)
        for kind, level, limits in self.levels.all:
            if kind == "load" and self.suitability.prescribed(version, asked, limits) is None:
                yield level

    # --- one form on the episode's page ----------------------------------------------------

    def _shown(self, place: Place, version: Version) -> Fields:
        """``dose``, ``load``, ``effort`` and ``tempo`` are for reading; ``seconds`` is there for timed doses;
        ``one_side`` is the dose of one side where it is done on both; ``by_set`` has all three of each set
        where sets differ; ``ways`` where the dose is done one way and then the other; ``amounts`` are those
        of the load's parts, the heavier first, for large type, ``set_amounts`` those of each set where
        they differ; ``held`` has for each piece of kit what is in it; ``heavy`` is the plan for an uneven
        load, ``plan`` the same in words; ``secs`` is how long one set takes at most, where some need limits
        the session."""
        words, phrases, heavy = self.words, self.site.phrases, []
        sets = version.load.sets if version.load else ()
        if version.load is not None and difference(version.load):
            heavy = heavy_sets(self.site, place.block, _held(place, version), place.sets, place.first)
        return {
            "dose": words.dose(place.block, version),
            "seconds": timed_seconds(place.block, version.dose),
            "one_side": phrases.dose(one_side(version.dose)),
            "by_set": [
                [phrases.dose(one), phrases.dose(one_side(one)), timed_seconds(place.block, one)]
                for one in (version.dose.sets if version.dose else ())
            ],
            "ways": bool(version.dose and version.dose.ways),
            "load": words.load(version),
            "amounts": large_amounts(self.site, version.load) if version.load else [],
            "set_amounts": [large_amounts(self.site, one) for one in sets],
            "held": words.held(version),
            "heavy": heavy,
            "plan": self.plan(place, version),
            "effort": words.effort(version),
            "tempo": words.tempo(version),
            "secs": self._seconds(place, version) if self._limits_sessions else 0,
        }

    def plan(self, place: Place, version: Version) -> str:
        """Which hand has the heavier load in which set, in words; empty where the loads weigh the same."""
        if version.load is None or not difference(version.load):
            return ""
        return self._rotation.plan(place.block, _held(place, version), place.sets, place.first, version.dose)

    @cached_property
    def _rotation(self) -> RotationWords:
        return RotationWords(self.site.theme.strings, self.site.phrases)

    @cached_property
    def _limits_sessions(self) -> bool:
        return any(need.limits.session is not None for need in self.site.details.needs.values())

    def _seconds(self, place: Place, version: Version) -> float:
        item = as_item(place.item, version)
        return set_seconds(self.site.details, self.site.forms, place.block, item).high

    def _described(self, place: Place, version: Version) -> Fields:
        """``pieces`` are ids of kit; ``cautions`` pairs of the full caution as HTML and a short one; the rest
        is for reading and left out of the form as filmed, which stands on the page already."""
        form = version.form
        data: Fields = {
            "name": form.name,
            "page": page_of(form.key),
            "pieces": form.kit,
            "cautions": [(inline_html(one.text), short_caution(one)) for one in form.cautions],
        }
        if not version.steps:
            return data
        return data | {
            "change": self.words.change(version),
            "note": inline_html(form.note),
            "cues": [inline_html(cue) for cue in form.cues],
            "kit": [self.site.details.kit[piece].name for piece in version.kit_added],
            "said": self.words.said(place.block, version),
        }


def _differing(before: Fields, after: Fields) -> Fields:
    return {name: value for name, value in after.items() if value != before[name]}


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


def _held(place: Place, version: Version) -> Item:
    """The item with the dose and load of a version, as plans for uneven loads are made from."""
    return replace(place.item, dose=version.dose, load=version.load)


def _no_more(one: Steps, other: Steps) -> bool:
    """Whether the first asks no more of any joint than the second."""
    return all(less <= more for less, more in zip(one, other, strict=True))


def page_of(key: FormKey) -> str:
    """Address of a form below the site's root."""
    anchor = f"#{key.variant}" if key.variant else ""
    return f"exercises/{key.exercise}/index.html{anchor}"
