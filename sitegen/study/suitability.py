"""For somebody who has to avoid some demands: the nearest form of each item that makes none of them.

Nearest means, in this order: not harder than what is filmed (somebody with a need is never given
a harder form while another fits); the same pattern; the same prime muscles; fewest changes of kit
(each piece added or put away) and of dose; fewest other exercises gone on into, then fewest steps
(see ``walk``); order written. The kit at hand is what the session's forms as filmed need. The trainer's
own choice for a need comes before all, where it fits.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from sitegen.model import Details, Episode, Item
from sitegen.notation import Dose
from sitegen.study.forms import Form, FormKey, Forms, shown_form
from sitegen.study.walk import Candidate, Walks


@dataclass(frozen=True, slots=True, kw_only=True)
class Version:
    """What one item becomes for somebody who avoids certain demands."""

    form: Form
    steps: tuple[FormKey, ...]
    """Forms walked through, this one last; empty where the item is done as filmed."""
    spared: tuple[str, ...]
    """Demands of the item as filmed that this form does not make."""
    kit_added: tuple[str, ...]
    """Kit that this form needs and the one filmed does not."""
    kit_left: tuple[str, ...]
    """Kit that the one filmed needs and this form does not."""
    dose: Dose | None
    """After the changes; None where the block's format sets it."""
    dose_changed: bool
    harder: bool
    """True where the way here went up the ladder more often than down."""
    own_choice: bool = False
    """True where the trainer chose it."""

    @property
    def as_filmed(self) -> bool:
        """True where nothing changes."""
        return not self.steps


@dataclass(frozen=True, slots=True, kw_only=True)
class Coverage:
    """How far a session serves a need."""

    changes: int
    """Items done in another form than the one filmed."""
    gaps: int
    """Items without any fitting form."""

    @property
    def fully(self) -> bool:
        """True where everything is done as filmed."""
        return self.changes == 0 and self.gaps == 0


class Suitability:
    """Answers for one series; the order of the forms around each item is worked out once."""

    def __init__(self, details: Details, forms: Forms) -> None:
        self._needs = details.needs
        self._forms = forms
        self._walks = Walks(forms)
        self._ranks: dict[tuple[FormKey, Dose | None], list[Version]] = {}
        self._by_pattern: dict[str, list[Form]] = {}
        for form in forms.values():
            self._by_pattern.setdefault(form.pattern, []).append(form)

    def kit_at_hand(self, episode: Episode) -> frozenset[str]:
        """What the session's items as filmed need."""
        items = (item for block in episode.blocks for item in block.items)
        return frozenset(piece for item in items for piece in shown_form(self._forms, item).kit)

    def avoided(self, needs: Iterable[str]) -> frozenset[str]:
        """All demands to avoid for these needs. Raises KeyError for an unknown need."""
        return frozenset(demand for need in needs for demand in self._needs[need].avoids)

    def reasons(self, item: Item, needs: Iterable[str]) -> tuple[str, ...]:
        """The demands of the item as filmed that these needs avoid; empty where it may stay."""
        avoided = self.avoided(needs)
        return tuple(demand for demand in shown_form(self._forms, item).demands if demand in avoided)

    def version(self, item: Item, needs: Sequence[str], kit: frozenset[str]) -> Version | None:
        """The item's nearest fitting form for these needs together; None where there is none.

        ``kit`` is the kit at hand; what the item as filmed needs is at hand in any case.
        """
        return self._version(item, needs, self.avoided(needs), kit)

    def ranked(self, item: Item, kit: frozenset[str]) -> list[Version]:
        """Every form within reach with the kit at hand, the nearest first and the one filmed before all.

        Apart from the trainer's own choices, the item's version is the first that fits.
        """
        return [one for one in self._ranked(item) if kit.issuperset(one.kit_added)]

    def session(self, episode: Episode, needs: Sequence[str]) -> tuple[tuple[Version | None, ...], ...]:
        """The version of every item, block by block."""
        avoided, kit = self.avoided(needs), self.kit_at_hand(episode)
        return tuple(
            tuple(self._version(item, needs, avoided, kit) for item in block.items)
            for block in episode.blocks
        )

    def coverage(self, episode: Episode, needs: Sequence[str]) -> Coverage:
        """How far an episode serves somebody with all of these needs."""
        versions = [version for block in self.session(episode, needs) for version in block]
        changes = sum(version is not None and not version.as_filmed for version in versions)
        return Coverage(changes=changes, gaps=sum(version is None for version in versions))

    def unfit_choices(self, item: Item, kit: frozenset[str]) -> list[str]:
        """Needs for which the trainer's own choice makes an avoided demand, or needs other kit."""
        return [
            need
            for need in item.versions
            if not any(one.own_choice and kit.issuperset(one.kit_added) for one in self.fitting(item, [need]))
        ]

    def suggestions(self, item: Item, needs: Sequence[str], kit: frozenset[str]) -> list[Form]:
        """Forms of other exercises with the same pattern that would fill a gap.

        One for each exercise, the first written that fits; those that share most prime muscles
        come first, then as the library lists them.
        """
        shown = shown_form(self._forms, item)
        avoided = self.avoided(needs)
        usable = kit.union(shown.kit)
        first: dict[str, Form] = {}
        for form in self._by_pattern[shown.pattern]:
            other = form.exercise not in (shown.exercise, item.exercise)
            if other and usable.issuperset(form.kit) and avoided.isdisjoint(form.demands):
                first.setdefault(form.exercise, form)
        prime = set(shown.muscles.prime)
        return sorted(first.values(), key=lambda form: -len(prime.intersection(form.muscles.prime)))

    def fitting(self, item: Item, needs: Sequence[str]) -> list[Version]:
        """Every form within reach that suits these needs, whatever kit it takes.

        The trainer's own choices come first, then the nearest; the item's version is the first for
        which the kit is at hand.
        """
        return list(self._fitting(item, needs, self.avoided(needs)))

    def _version(
        self, item: Item, needs: Sequence[str], avoided: frozenset[str], kit: frozenset[str]
    ) -> Version | None:
        fitting = self._fitting(item, needs, avoided)
        return next((one for one in fitting if kit.issuperset(one.kit_added)), None)

    def _fitting(self, item: Item, needs: Iterable[str], avoided: frozenset[str]) -> Iterator[Version]:
        ranked = self._ranked(item)
        if item.versions:
            chosen = {FormKey(item.exercise, item.versions[need]) for need in needs if need in item.versions}
            own = (one for one in ranked if one.form.key in chosen and avoided.isdisjoint(one.form.demands))
            yield from (replace(one, own_choice=True) for one in own)
        yield from (one for one in ranked if avoided.isdisjoint(one.form.demands))

    def _ranked(self, item: Item) -> list[Version]:
        """Every form within reach as a version of the item, the nearest first."""
        key = (FormKey(item.exercise, item.variant), item.dose)
        ranked = self._ranks.get(key)
        if ranked is None:
            ranked = self._ranks[key] = self._rank(*key)
        return ranked

    def _rank(self, key: FormKey, dose: Dose | None) -> list[Version]:
        filmed = self._forms[key]
        candidates = self._walks.candidates(key)
        versions = [_as_version(self._forms, filmed, candidate, dose) for candidate in candidates]
        # The walk's order stands where the distance is the same: sorting keeps it.
        return sorted(versions, key=lambda version: distance(filmed, version))


def distance(filmed: Form, version: Version) -> tuple[bool, bool, bool, int]:
    """How far a version is from the form as filmed, before the steps count; the smaller the nearer."""
    form = version.form
    return (
        version.harder,
        form.pattern != filmed.pattern,
        set(form.muscles.prime) != set(filmed.muscles.prime),
        len(version.kit_added) + len(version.kit_left) + version.dose_changed,
    )


def dose_after(candidate: Candidate, dose: Dose | None) -> Dose | None:
    """The item's dose after the changes on the way; None stays None, for the format sets it."""
    if dose is not None:
        for change in candidate.doses:
            dose = change.apply(dose)
    return dose


def rise(forms: Forms, filmed: Form, steps: Sequence[FormKey]) -> int:
    """Steps up the ladder less steps down, on a walk from the form as filmed.

    A step to a progression goes up and one to a regression down; a step back to what a form is
    made from does the opposite.
    """
    here, up = filmed, 0
    for key in steps:
        there = forms[key]
        if here.made_from == key:
            up -= _UP.get(here.change, 0)
        else:
            up += _UP.get(there.change, 0)
        here = there
    return up


_UP = {"progression": 1, "regression": -1}


def _as_version(forms: Forms, filmed: Form, candidate: Candidate, dose: Dose | None) -> Version:
    form = candidate.form
    changed = dose_after(candidate, dose)
    return Version(
        form=form,
        steps=candidate.steps,
        spared=_without(filmed.demands, form.demands),
        kit_added=_without(form.kit, filmed.kit),
        kit_left=_without(filmed.kit, form.kit),
        dose=changed,
        dose_changed=changed != dose,
        harder=rise(forms, filmed, candidate.steps) > 0,
    )


def _without(ones: tuple[str, ...], others: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(one for one in ones if one not in others)
