"""For somebody with needs: the version of each item that asks for nothing they avoid and keeps their limits.

Safety comes first: a form that makes an avoided demand, or in which a limit cannot be kept, is never
given, nor one of whose demands nothing is told (``vocabulary.UNTOLD``), nor one known by its poses alone
where they cannot show what is avoided (``vocabulary.UNSHOWN``). Of the forms that are left the nearest is
taken, in the order that ``nearness`` documents with its reasons; a form that a need would rather do without
comes after those that train the same without it.
Of forms equal in all this the one comes first that asks less of a joint which a need spares, where
poses tell (``joint_loads``); it is no reason to leave the form filmed, nor to go further down the ladder.
The trainer's own choice for a need comes before all, where it fits; then the form of the same exercise
that is written for it (``for:``). Two items of a block get the same form
only where nothing else fits that is not harder (``apart``). What is lost on the way is listed with the
version; where nothing fits there is a gap, and nothing is guessed.

Kit at hand is what the session's forms as filmed use and what its episode lists besides. A form may
need other kit from the series' list; it then comes later and says what has to be fetched.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import NamedTuple, TypeAlias

from sitegen.model import Block, Details, Episode, Item, Limits, Need
from sitegen.notation import Duration
from sitegen.study.distinct_forms import choose_apart
from sitegen.study.forms import Form, FormKey, Forms, shown_form
from sitegen.study.joint_loads import SPARED, JointLoads, Steps, spared_joints
from sitegen.study.load import load_mass
from sitegen.study.nearness import Loss, is_untold_load
from sitegen.study.need_limits import UnlimitedForm, merge, prescribe
from sitegen.study.posed_forms import PosedForms
from sitegen.study.version import Ranking, Version, item_key
from sitegen.system.noted_reads import unrecorded
from sitegen.vocabulary import MOVING_LEGS, ON_THE_LEGS, SHOWN_BY_POSES, UNSHOWN, UNTOLD

STRENGTH = "strength"
SPEED = "speed"
"""The demand that a need without speed avoids as well."""


class Setting(NamedTuple):
    """What the choice for an item depends on besides the item; a block has it."""

    kind: str
    work: Duration | None = None


Versions: TypeAlias = tuple[Version | None, ...]
"""Of each item of a block; None for a gap."""
ByNeed: TypeAlias = Mapping[str, tuple[Versions, ...]]
"""For each need of the series, in its order, what a session becomes for it alone, block by block."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Coverage:
    """How far a session serves a need."""

    changes: int
    """Items done in another way than filmed."""
    gaps: int
    """Items without any fitting form."""
    off_purpose: int = 0
    """Blocks of strength that train none of the muscles they are for."""

    @property
    def fully(self) -> bool:
        """True where everything is done as filmed."""
        return self.changes == 0 and self.gaps == 0


class CombinedNeeds:
    """What several needs ask for together."""

    def __init__(self, details: Details, needs: Iterable[str]) -> None:
        """Raises KeyError for an unknown need."""
        self.needs = tuple(needs)
        chosen = [details.needs[need] for need in self.needs]
        self.limits: Limits = merge(need.limits for need in chosen)
        self.avoided = frozenset(demand for need in chosen for demand in avoided_by(details, need))
        self.rather_without = frozenset(demand for need in chosen for demand in need.rather_without)
        self.joints = joints_of_needs(chosen)
        self.limits_items = replace(self.limits, session=None) != Limits()


def avoided_by(details: Details, need: Need) -> tuple[str, ...]:
    """All that somebody with the need avoids: what it names, what its words and limits mean, the unknown."""
    words = dict.fromkeys(need.avoids)
    if not need.limits.speed:
        words[SPEED] = None
    if MOVING_LEGS in words:
        words |= dict.fromkeys(sorted(ON_THE_LEGS))
    if any(word in details.demand_sentences and word not in SHOWN_BY_POSES for word in words):
        words[UNSHOWN] = None
    if not need.takes_untold:
        words[UNTOLD] = None
    return tuple(words)


def joints_of_needs(needs: Iterable[Need]) -> tuple[str, ...]:
    """The joints that these needs spare together."""
    spared = {joint for need in needs for joint in spared_joints(need.avoids)}
    return tuple(joint for joint in SPARED if joint in spared)


class Suitability:
    """Answers for one series; the order of the forms around each item is worked out once."""

    def __init__(self, details: Details, forms: Forms, posed: PosedForms | None = None) -> None:
        """``posed``: what the poses of those forms come to, where somebody else works it out as well."""
        self._details = details
        self._forms = forms
        self._ranking = Ranking(details.kit, forms)
        self._loads = JointLoads(posed or PosedForms())
        self._combined: dict[tuple[str, ...], CombinedNeeds] = {}
        self._options: dict[tuple[object, ...], tuple[Version, ...]] = {}

    # --- what is asked ---------------------------------------------------------------------

    def combined(self, needs: Iterable[str]) -> CombinedNeeds:
        """What these needs ask for together. Raises KeyError for an unknown need."""
        key = tuple(needs)
        known = self._combined.get(key)
        if known is None:
            known = self._combined[key] = CombinedNeeds(self._details, key)
        return known

    def avoided(self, needs: Iterable[str]) -> frozenset[str]:
        """All demands to avoid for these needs."""
        return self.combined(needs).avoided

    def kit_at_hand(self, episode: Episode) -> frozenset[str]:
        """What the session's items as filmed need, and what the episode says is there as well."""
        items = (item for block in episode.blocks for item in block.items)
        used = frozenset(piece for item in items for piece in shown_form(self._forms, item).kit)
        return used.union(episode.kit)

    def kit_that_matters(self, item: Item) -> frozenset[str]:
        """Kit that some form within reach needs besides that of the form filmed."""
        return self._ranking.kit_that_matters(item)

    def reasons(self, item: Item, needs: Iterable[str]) -> tuple[str, ...]:
        """The demands of the item as filmed that these needs avoid; empty where its form may stay."""
        avoided = self.avoided(needs)
        return tuple(demand for demand in shown_form(self._forms, item).demands if demand in avoided)

    # --- answers ---------------------------------------------------------------------------

    def session(self, episode: Episode, needs: Iterable[str]) -> tuple[Versions, ...]:
        """The version of every item, block by block."""
        needs, kit = tuple(needs), self.kit_at_hand(episode)
        return tuple(self.block(block, needs, kit) for block in episode.blocks)

    def for_each_need(self, episode: Episode) -> ByNeed:
        """What a session becomes for every need of the series."""
        kit = self.kit_at_hand(episode)
        return {
            need: tuple(self.block(block, (need,), kit) for block in episode.blocks)
            for need in self._details.needs
        }

    def block(self, block: Block, needs: Iterable[str], kit: frozenset[str]) -> Versions:
        """The version of each item of a block with the kit at hand."""
        asked = self.combined(needs)
        options = [self._fitting(block, item, asked, kit) for item in block.items]
        settled = [bool(ones) and (not ones[0].steps or ones[0].own_choice) for ones in options]
        places = choose_apart([[one.identity for one in ones] for ones in options], settled)
        chosen = [ones[place] if ones else None for ones, place in zip(options, places, strict=True)]
        return tuple(self._with_repeats(chosen))

    def fitting(self, block: Block, item: Item, needs: Iterable[str], kit: frozenset[str]) -> list[Version]:
        """Every form within reach that suits these needs: the trainer's own choices, then the nearest."""
        return list(self._fitting(block, item, self.combined(needs), kit))

    def by_itself(self, exercise: str, needs: Iterable[str]) -> Version | None:
        """What an exercise that no session shows becomes for these needs, whatever kit it takes."""
        setting, item = Setting(STRENGTH), Item(exercise=exercise)
        fitting = self._fitting(setting, item, self.combined(needs), frozenset(self._details.kit))
        return fitting[0] if fitting else None

    def ranked(self, item: Item, kit: frozenset[str]) -> list[Version]:
        """Every form within reach, the one filmed before all and then the nearest first, without limits."""
        return list(self._ranking.of(item, kit))

    def filmed(self, item: Item) -> Version:
        """The item as it is filmed."""
        return self._ranking.of(item, frozenset())[0]

    def coverage(self, episode: Episode, needs: Iterable[str]) -> Coverage:
        """How far an episode serves somebody with all of these needs."""
        session = self.session(episode, needs)
        versions = [version for block in session for version in block]
        return Coverage(
            changes=sum(version is not None and not version.as_filmed for version in versions),
            gaps=sum(version is None for version in versions),
            off_purpose=sum(
                not self.keeps_purpose(block, ones)
                for block, ones in zip(episode.blocks, session, strict=True)
            ),
        )

    def keeps_purpose(self, block: Block, versions: Sequence[Version | None]) -> bool:
        """Whether a block of strength still trains a muscle that it is for.

        Conditioning is for heart and breath, whichever muscles do it; other blocks prepare or ease.
        """
        if block.kind != STRENGTH:
            return True
        return any(
            version is not None and self.trains_the_same(item, version.form)
            for item, version in zip(block.items, versions, strict=True)
        )

    def trains_the_same(self, item: Item, form: Form) -> bool:
        """Whether a form trains a prime muscle of the item as filmed, be it as an assisting one."""
        prime = shown_form(self._forms, item).muscles.prime
        trained = {*form.muscles.prime, *form.muscles.assist}
        return not prime or not trained.isdisjoint(prime)

    def unfit_choices(self, block: Block, item: Item) -> list[str]:
        """Needs for which the trainer's own choice makes an avoided demand, or cannot keep a limit."""
        return [
            need
            for need in item.versions
            if not any(one.own_choice for one in self.fitting(block, item, [need], frozenset()))
        ]

    def suggestions(self, item: Item, needs: Iterable[str]) -> list[Form]:
        """Forms of other exercises with the same pattern that would fill a gap.

        One for each exercise, the first written that fits; those that share most prime muscles
        come first, then as the library lists them.
        """
        shown = shown_form(self._forms, item)
        avoided = self.avoided(needs)
        first: dict[str, Form] = {}
        for form in self._by_pattern.get(shown.pattern, ()):
            if form.exercise not in (shown.exercise, item.exercise) and avoided.isdisjoint(form.demands):
                first.setdefault(form.exercise, form)
        prime = set(shown.muscles.prime)
        return sorted(first.values(), key=lambda form: -len(prime.intersection(form.muscles.prime)))

    @cached_property
    def _by_pattern(self) -> dict[str, list[Form]]:
        groups: dict[str, list[Form]] = {}
        for form in self._forms.values():
            groups.setdefault(form.pattern, []).append(form)
        return groups

    # --- fitting ---------------------------------------------------------------------------

    def within(self, block: Block | Setting, item: Item, version: Version, limits: Limits) -> Version | None:
        """The version within the limits; None where one of them cannot be kept in its form."""
        return self.prescribed(version, self.asked(block, item, version), limits)

    def prescribed(self, version: Version, asked: UnlimitedForm, limits: Limits) -> Version | None:
        """What :meth:`within` gives, where what the version asks for is known already."""
        left = prescribe(asked, limits, self._details.kit)
        if left is None:
            return None
        if not left.changes:
            return version
        return replace(
            version,
            dose=left.dose,
            tempo=left.tempo,
            effort=left.effort,
            load=left.load,
            most_kg=left.most_kg,
            limited=left.changes,
        )

    def asked(self, block: Block | Setting, item: Item, version: Version) -> UnlimitedForm:
        """What a version of an item asks for, as limits look at it."""
        return UnlimitedForm(
            kind=block.kind,
            pattern=version.form.pattern,
            dose=version.dose,
            work=block.work,
            tempo=version.tempo,
            usual_tempo=version.form.tempo or self._details.tempo,
            effort=version.effort,
            load=version.load,
            own_load=version.own_load,
            load_untold=version.most_kg is None and is_untold_load(version.form, self._details.kit),
            most_kg=version.most_kg,
            filmed_kg=load_mass(item.load).high if item.load else None,
            heaviest_kg=self._heaviest(version.form),
        )

    def _heaviest(self, form: Form) -> float | None:
        """Most that its pieces that are weights can weigh, one in each hand."""
        pieces = [self._details.kit[piece] for piece in form.kit if piece in self._details.kit]
        if any(piece.holds for piece in pieces):
            return None
        masses = [mass.base for piece in pieces for mass in piece.weighs]
        return 2 * max(masses) if masses else None

    def _fitting(
        self, block: Block | Setting, item: Item, asked: CombinedNeeds, kit: frozenset[str]
    ) -> tuple[Version, ...]:
        key = (
            *item_key(item),
            *item.versions.items(),
            block.kind,
            block.work,
            asked.needs,
            kit & self.kit_that_matters(item),
        )
        known = self._options.get(key)
        if known is None:
            with unrecorded():  # what it rests on was noted with the kit that matters
                known = self._options[key] = tuple(self._work_out(block, item, asked, kit))
        return known

    def _work_out(
        self, block: Block | Setting, item: Item, asked: CombinedNeeds, kit: frozenset[str]
    ) -> Iterator[Version]:
        """Options in order; harder ones only where there is no other."""
        fitting = list(self._safe(block, item, asked, kit))
        chosen = {
            FormKey(item.exercise, item.versions[need]) for need in asked.needs if need in item.versions
        }
        own = [replace(one, own_choice=True) for one in fitting if one.form.key in chosen]
        yield from own
        others = [one for one in fitting if one.form.key not in chosen]
        gentle = [one for one in others if not one.harder]
        yield from gentle or ([] if own else others)

    def _safe(
        self, block: Block | Setting, item: Item, asked: CombinedNeeds, kit: frozenset[str]
    ) -> list[Version]:
        ranked = self._ranking.of(item, kit)
        fitting = [one for one in ranked if asked.avoided.isdisjoint(one.form.demands)]
        if asked.limits_items:
            limited = (self.within(block, item, one, asked.limits) for one in fitting)
            fitting = [one for one in limited if one is not None]
        fitting = [replace(one, meant=True) if _is_meant(one, item, asked) else one for one in fitting]
        loads = self.joint_loads(ranked) if asked.joints and len(fitting) > 1 else {}
        # Sorting keeps the order of the ranking among equals.
        return sorted(fitting, key=lambda one: (_preference(one, asked), _on_joints(one, asked, loads)))

    def joint_loads(self, ranked: Sequence[Version]) -> Mapping[FormKey, Steps]:
        """What the forms within reach of an item ask of the joints; empty where that cannot be compared."""
        loads = self._loads.of([one.form for one in ranked])
        return {one.form.key: steps for one, steps in zip(ranked, loads or (), strict=False)}

    def _with_repeats(self, chosen: Sequence[Version | None]) -> Iterator[Version | None]:
        """Says of each changed item that it comes again, where another item of the block is the same."""
        shown = [one.identity for one in chosen if one is not None]
        for one in chosen:
            again = one is not None and bool(one.steps) and shown.count(one.identity) > 1
            yield replace(one, lost=(*one.lost, Loss(what="again"))) if one is not None and again else one


def _is_meant(version: Version, item: Item, asked: CombinedNeeds) -> bool:
    """Whether the trainer wrote the form for one of the needs, in place of this very exercise."""
    form = version.form
    return form.key.exercise == item.exercise and not set(asked.needs).isdisjoint(form.meant_for)


def _preference(version: Version, asked: CombinedNeeds) -> tuple[bool, tuple[int, ...], int]:
    """What is written for the need comes first, then what keeps the purpose of the item, then how many
    demands are made that one rather does without."""
    return not version.meant, version.near.kind, len(asked.rather_without.intersection(version.form.demands))


def _on_joints(
    version: Version, asked: CombinedNeeds, loads: Mapping[FormKey, Steps]
) -> tuple[bool, int, tuple[tuple[int, int], ...]]:
    """What is filmed comes first, then what is not much easier, then what asks less of the spared joints."""
    if not loads:
        return False, 0, ()
    steps = loads[version.form.key]
    spared = tuple(steps[SPARED.index(joint)] for joint in asked.joints)
    return bool(version.steps), version.near.much_easier, spared
