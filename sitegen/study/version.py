"""What one item becomes for somebody with needs, and the versions of an item in order of nearness."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from sitegen.model import Fault, Item, Kit
from sitegen.notation import Dose, Effort, Load, Tempo
from sitegen.study.forms import Form, FormKey, Forms, own_faults, shown_form
from sitegen.study.nearness import (
    Distance,
    Loss,
    compare_doses,
    distance,
    is_compared,
    is_loaded,
    is_untold_load,
    losses,
    rise,
)
from sitegen.study.need_limits import CALM_LIFT, held_at_most, rpe_of
from sitegen.study.reachable_forms import ReachableForm, ReachableForms
from sitegen.system.noted_reads import note, unrecorded
from sitegen.vocabulary import MUSCLE_REGIONS

HELD_RPE = 6
"""Perceived exertion of a form that is held or pressed into, in place of one that is lifted, at most: it does
not run out of repetitions, and who is given it shall go on breathing (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Version:
    """What one item becomes for somebody with needs."""

    form: Form
    steps: tuple[FormKey, ...]
    """Forms walked through, this one last; empty where the form is the one filmed."""
    rise: int
    """Steps up the ladder on the way, less steps down."""
    compared: bool
    """Whether those steps say how hard it is beside the form filmed."""
    near: Distance
    """How far it is from the form filmed."""
    kit_added: tuple[str, ...]
    """Kit that this form needs and the one filmed does not."""
    kit_left: tuple[str, ...]
    """Kit that the one filmed needs and this form does not."""
    fetch: tuple[str, ...]
    """Kit that is not at hand in the session."""
    lost: tuple[Loss, ...]
    """What it lacks, or has more of, against the form filmed."""
    dose: Dose | None
    """None where the block's format sets it."""
    tempo: Tempo | None = None
    effort: Effort | None = None
    load: Load | None = None
    """What is held, as far as somebody wrote it."""
    own_load: bool = False
    """True where it takes a load of which nothing is written."""
    most_kg: float | None = None
    """Most that may be held where nothing is written, by the form itself or by a limit; None without."""
    limited: tuple[str, ...] = ()
    """What the limits of the needs changed (see ``limits.CHANGES``)."""
    own_choice: bool = False
    """True where the trainer chose it."""
    meant: bool = False
    """True where the trainer wrote the form for one of the needs."""

    @property
    def harder(self) -> bool:
        """True where it is harder, or may be: the way here went up the ladder more often than down."""
        return self.near.harder

    @property
    def as_filmed(self) -> bool:
        """True where nothing changes."""
        return not self.steps and not self.limited

    @property
    def identity(self) -> FormKey:
        """Alike for versions that are one and the same exercise, however they are reached."""
        return FormKey(self.form.exercise) if self.form.link else self.form.key

    def faults(self, forms: Forms) -> tuple[Fault, ...]:
        """Faults to show: all of the form filmed, of another form only those written for it."""
        return own_faults(forms, self.form) if self.steps else self.form.faults


class Ranking:
    """The versions of the items of one series, in order; each list is worked out once."""

    def __init__(self, kit: Mapping[str, Kit], forms: Forms) -> None:
        self._kit = kit
        self._forms = forms
        self._reachable = ReachableForms(forms)
        self._ranks: dict[tuple[object, ...], list[Version]] = {}
        self._reach: dict[FormKey, frozenset[str]] = {}

    def kit_that_matters(self, item: Item) -> frozenset[str]:
        """Kit that some form within reach needs besides that of the form filmed."""
        # Every answer goes through here. The name stands for the exercises that variants lead on to as well,
        # and nothing further is looked at.
        note(f"exercise {item.exercise}")
        key = FormKey(item.exercise, item.variant)
        known = self._reach.get(key)
        if known is None:
            with unrecorded():
                filmed = set(self._forms[key].kit)
                forms = (candidate.form for candidate in self._reachable.candidates(key))
                known = self._reach[key] = frozenset(piece for form in forms for piece in form.kit) - filmed
        return known

    def of(self, item: Item, kit: frozenset[str]) -> list[Version]:
        """Every form within reach, the one filmed before all and then the nearest first.

        ``kit`` is at hand; what the item as filmed needs is so in any case.
        """
        at_hand = kit & self.kit_that_matters(item)
        key = (*item_key(item), at_hand)
        ranked = self._ranks.get(key)
        if ranked is None:
            with unrecorded():
                ranked = self._ranks[key] = self._rank(item, at_hand)
        return ranked

    def _rank(self, item: Item, kit: frozenset[str]) -> list[Version]:
        filmed = shown_form(self._forms, item)
        candidates = self._reachable.candidates(filmed.key)
        versions = [self._version(item, filmed, candidate, kit) for candidate in candidates]
        # The walk's order stands where the distance is the same: sorting keeps it.
        return versions[:1] + sorted(versions[1:], key=lambda version: version.near)

    def _version(self, item: Item, filmed: Form, candidate: ReachableForm, kit: frozenset[str]) -> Version:
        form = candidate.form
        # None stays None, for the format sets it.
        dose = candidate.dose_after(item.dose) if item.dose is not None else None
        added = _without(form.kit, filmed.kit)
        fetch = tuple(piece for piece in added if piece not in kit)
        compared = compare_doses(item.dose, dose)
        up = rise(self._forms, filmed, candidate.steps)
        known = is_compared(self._forms, filmed, candidate.steps)
        loaded = self._loaded(item, filmed, form)
        near = distance(filmed, form, up=up, loaded=loaded, fetch=len(fetch), dose=compared)
        load = _load_kept(item, filmed, form)
        # What the trainer wrote with the item holds for the form filmed, whatever a variant says of itself.
        most_kg = form.most_kg if candidate.steps else None
        takes_load = is_loaded(form, self._kit, ()) or (
            most_kg is not None and is_untold_load(form, self._kit)
        )
        own_load = load is None and takes_load
        if load is not None and most_kg is not None:
            load, most_kg = held_at_most(load, most_kg, self._kit), None
        return Version(
            form=form,
            steps=candidate.steps,
            rise=up,
            compared=known,
            near=near,
            kit_added=added,
            kit_left=_without(filmed.kit, form.kit),
            fetch=fetch,
            lost=losses(filmed, form, near, compared, compared=known) if candidate.steps else (),
            dose=dose,
            tempo=_tempo(item, candidate, dose),
            effort=_effort(item, filmed, candidate, loaded),
            load=load,
            own_load=own_load,
            most_kg=most_kg if own_load else None,
        )

    def _loaded(self, item: Item, filmed: Form, form: Form) -> tuple[bool, bool]:
        """Whether the form filmed is done with a load, and whether the other is."""
        held = {part.piece for part in item.load.parts if part.piece} if item.load else set()
        if item.load is not None and not held:
            held = set(filmed.kit)
        kit = self._kit
        return is_loaded(filmed, kit, held), is_loaded(form, kit, held)


def item_key(item: Item) -> tuple[object, ...]:
    """What the versions of an item depend on, whichever session it is in."""
    ways = item.dose is not None and item.dose.ways  # only a word, and so not compared with the dose
    return item.exercise, item.variant, item.dose, ways, item.tempo, item.effort, item.load


def _tempo(item: Item, candidate: ReachableForm, dose: Dose | None) -> Tempo | None:
    """The form's own tempo before that of the item, for its cues count in it.

    A tempo is one of lifting and lowering: it says nothing about what is timed or held instead. And what is
    lifted explosively in the video is lifted in two seconds in another form, whose cues were written calmly.
    """
    form = candidate.form
    if not candidate.steps:
        return item.tempo
    if dose is not None and dose.kind == "time":
        return None
    if form.own_tempo is not None:
        return form.own_tempo
    if form.held or item.tempo is None:
        return None
    return item.tempo if item.tempo.lifting is not None else replace(item.tempo, lifting=CALM_LIFT)


BEARING = frozenset(
    ("leaning on the arms", "weight on the wrists", "hanging back", "shoulder load", "straining", "grip")
)
"""Demands that tell that the arms carry, push or hold something."""
MOVED_BY_THE_LEGS = ("locomotion", "step", "lunge")
"""Patterns in which the effort is one of breath and legs, whatever form takes their place."""


def has_nothing_to_load(form: Form) -> bool:
    """Whether only the arms work, and move freely through the air with nothing in them (common practice).

    Nothing is said of kit that is a load: whoever asks knows whether the form is done with one.
    """
    arms = all(MUSCLE_REGIONS.get(muscle) == "upper" for muscle in form.muscles.prime)
    return arms and not form.held and BEARING.isdisjoint(form.demands)


def _effort(item: Item, filmed: Form, candidate: ReachableForm, loaded: tuple[bool, bool]) -> Effort | None:
    """The lesser of what the item asks for and what the form says of itself.

    Empty hands that move through the air never come to the effort of a set that is loaded: no effort is
    carried over to them, and what the form says of itself stands.

    Repetitions in reserve are counted against a load that is lifted. Where it is gone, or where nothing is
    lifted, the same effort is said as perceived exertion; a hold is pressed with :data:`HELD_RPE` at most.
    """
    form, asked = candidate.form, item.effort
    if not candidate.steps:
        return asked
    load_lost = loaded[0] and not loaded[1]
    by_the_legs = filmed.pattern in MOVED_BY_THE_LEGS
    if form.effort is None and not by_the_legs and not loaded[1] and has_nothing_to_load(form):
        return None
    if asked is not None and form.held:
        most = min(HELD_RPE, rpe_of(asked))
        asked = Effort("rpe", min(asked.low, most) if asked.scale == "rpe" else most, most)
    elif asked is not None and load_lost and asked.scale == "reserve":
        asked = Effort("rpe", rpe_of(asked), rpe_of(asked))
    own = form.effort
    if own is None or (asked is not None and rpe_of(asked) <= rpe_of(own)):
        return asked
    return own


def _load_kept(item: Item, filmed: Form, form: Form) -> Load | None:
    """What the trainer wrote of the load, as far as this form uses the same pieces."""
    if item.load is None:
        return None
    if all(part.piece is None for part in item.load.parts):
        return item.load if set(filmed.kit) <= set(form.kit) else None
    return item.load.only(lambda part: part.piece in form.kit)


def _without(ones: tuple[str, ...], others: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(one for one in ones if one not in others)
