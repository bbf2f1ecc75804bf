"""Every form of every exercise in full: what a variant leaves unsaid, taken from what it is made from.

A variant without ``of`` is made from its exercise's main form; with ``of``, from that variant;
with ``exercise``, from the main form of that exercise.
"""

from abc import abstractmethod
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from operator import attrgetter
from typing import NamedTuple

from sitegen.model import WORDS, Caution, Exercise, Fault, Item, Muscles, Picture, Poses, Stepping, Variant
from sitegen.notation import DoseChange, Effort, Tempo
from sitegen.study.body.pose import inherited
from sitegen.system.noted_reads import note, recorded, unrecorded
from sitegen.vocabulary import is_told


class FormKey(NamedTuple):
    """Names a form: the exercise in whose file it is written and the variant's id."""

    exercise: str
    variant: str | None = None
    """None for the main form."""


@recorded(id_of=attrgetter("key.exercise"), otherwise="exercise", words=WORDS, silent={"key"})
@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A main form or a variant with nothing left out."""

    key: FormKey
    name: str
    summary: str = ""
    """Of its exercise; empty where it may speak of a demand that this form is without."""
    change: str = ""
    """``regression``, ``progression`` or ``substitution``; empty for a main form."""
    made_from: FormKey | None = None
    """The form of the same exercise it is one step away from; None for a main form."""
    exercise: str
    """Id of the exercise it is a form of: the linked one where it, or what it is made from, is a link."""
    link: bool = False
    """True where the variant itself is another exercise of the library."""
    pattern: str
    muscles: Muscles
    kit: tuple[str, ...]
    demands: tuple[str, ...]
    demands_kept: Mapping[str, str]
    """Demands that differ from what its poses say, with the reasons; those of the form it is made from too
    where demands and poses are the same."""
    dose: DoseChange | None = None
    """Change against the dose of the main form; the nearest one stated along ``of``."""
    own_tempo: Tempo | None = None
    """The tempo that the variant itself states, or one it is made from; it stands before that of the item."""
    effort: Effort | None = None
    """How hard it is done at most; None where the item alone says so."""
    most_kg: float | None = None
    """Kilograms held at most, in all hands together; None where the item alone says so."""
    note: str = ""
    """Whom or what this variant is for; never taken over."""
    meant_for: tuple[str, ...] = ()
    """Needs for which it is chosen before nearer forms of its exercise; never taken over."""
    move: str = ""
    """What moves, in the trainer's words; taken over only where the poses are the same."""
    cues: tuple[str, ...] = ()
    """Neither these, the faults nor ``move`` are taken over by a variant that drops a demand of the form it
    is made from and has no cues of its own."""
    faults: tuple[Fault, ...] = ()
    all_cautions: tuple[Caution, ...] = ()
    """Those of all it is made from, and its own."""
    cautions_in_doubt: tuple[Caution, ...] = ()
    """Those of them about something that no form to which they belong tells of: nobody would read them."""
    pictures: tuple[Picture, ...] = ()
    poses: Poses | None = None
    """With what is taken over from the form it is made from; None where nothing is said."""
    tempo: Tempo | None = None
    """Usual tempo; None for the series' own."""
    met: float | None = None
    stepping: Stepping | None = None

    @property
    def cautions(self) -> tuple[Caution, ...]:
        """Those that concern this form: about nothing in particular, or about a demand or kit of its own.

        One about a word of which the form does not tell concerns it too: it may well be about it. So does one
        in doubt: whoever wrote it knew of a danger, and it is the list of demands that lacks a word.
        """
        return tuple(caution for caution in self.all_cautions if self._concerned(caution))

    def _concerned(self, caution: Caution) -> bool:
        about = caution.about
        return not about or any(map(self.may_have, about)) or caution in self.cautions_in_doubt

    @property
    def how(self) -> tuple[str, ...]:
        """Its cues; where it has none the summary, for a name alone does not say what to do."""
        return self.cues or ((self.summary,) if self.summary else ())

    def may_have(self, word: str) -> bool:
        """Whether the form has a demand or piece of kit, as far as it tells."""
        return word in self.kit or word in self.demands or not is_told(word, self.demands)

    @property
    def held(self) -> bool:
        """Whether its one pose is kept or pressed into, so that nothing is lifted and lowered."""
        return self.poses is not None and self.poses.held


class Forms(Mapping[FormKey, Form]):
    """All forms of a library."""

    @abstractmethod
    def of(self, exercise_id: str) -> Mapping[FormKey, Form]:
        """The forms of one exercise in the order written, the main form first.

        Raises KeyError where there is no such exercise.
        """


class FormShelf(Forms):
    """The forms of a library, worked out exercise by exercise when one is asked for."""

    def __init__(self, exercises: Mapping[str, Exercise]) -> None:
        self.exercises = exercises
        self._forms: dict[str, dict[FormKey, Form]] = {}
        self._worked: dict[str, dict[FormKey, Form]] = {}
        """The same before it is known which cautions are in doubt."""
        self._looking: list[str] = []
        """References of ``poses: {like: …}`` that are being followed, so that a circle ends."""

    def of(self, exercise_id: str) -> Mapping[FormKey, Form]:
        """The forms of one exercise in the order written, the main form first.

        A variant whose ``of`` leads back to itself counts as made from the main form.
        Raises KeyError where there is no such exercise, or an ``of`` or ``exercise`` names nothing.
        """
        note(f"exercise {exercise_id}")
        known = self._forms.get(exercise_id)
        if known is None:
            with unrecorded():  # whoever looks at a form notes it
                known = self._forms[exercise_id] = self._with_doubts(exercise_id)
        return known

    def _with_doubts(self, exercise_id: str) -> dict[FormKey, Form]:
        forms = self._without_doubts(exercise_id)
        return {key: self._with_its_doubts(form, forms) for key, form in forms.items()}

    def _with_its_doubts(self, form: Form, forms: Mapping[FormKey, Form]) -> Form:
        if not any(caution.about for caution in form.all_cautions):
            return form
        # What is taken over from another exercise was written for the forms of that one.
        others = self._without_doubts(form.exercise) if form.exercise != form.key.exercise else {}
        alike = (*forms.values(), *others.values())
        doubted = tuple(caution for caution in form.all_cautions if untold_of(caution, alike))
        return replace(form, cautions_in_doubt=doubted)

    def _without_doubts(self, exercise_id: str) -> dict[FormKey, Form]:
        if exercise_id not in self._worked:
            self._worked[exercise_id] = self._worked_out(self.exercises[exercise_id])
        return self._worked[exercise_id]

    def _worked_out(self, exercise: Exercise) -> dict[FormKey, Form]:
        main = _main(exercise)
        forms = {FormKey(exercise.id): replace(main, poses=self._poses(None, exercise.poses))}
        variants = {variant.id: variant for variant in exercise.variants}
        for variant_id in variants:
            for variant in reversed(_unresolved(exercise.id, variants, variant_id, forms)):
                self._add(exercise.id, variant, forms)
        return {key: forms[key] for key in (FormKey(exercise.id, one) for one in (None, *variants))}

    def _add(self, exercise: str, variant: Variant, forms: dict[FormKey, Form]) -> None:
        parent = FormKey(exercise, variant.of)
        if parent not in forms:
            parent = FormKey(exercise)
        base = _main(self.exercises[variant.exercise]) if variant.exercise else forms[parent]
        poses = self._poses(base.poses, variant.poses)
        forms[FormKey(exercise, variant.id)] = replace(_full(variant, parent, base), poses=poses)

    def _poses(self, base: Poses | None, own: Poses | None) -> Poses | None:
        if own is not None and own.like:
            base = self.poses_like(own.like)
        return inherited(base, own)

    def poses_like(self, reference: str) -> Poses | None:
        """The poses of ``exercise`` or ``exercise/variant``; None where there are none, or for a circle."""
        exercise, _, variant = reference.partition("/")
        if exercise not in self.exercises or reference in self._looking:
            return None
        self._looking.append(reference)
        try:
            own = self.exercises[exercise]
            # From the main form on, each variant changes what the one before it says.
            found = self._poses(None, own.poses)
            chain = own.ancestry(variant)
            for one in reversed(chain):
                found = self._poses(found, one.poses)
            return found if not variant or chain else None
        finally:
            self._looking.pop()

    def __getitem__(self, key: FormKey) -> Form:
        return self.of(key.exercise)[key]

    def __iter__(self) -> Iterator[FormKey]:
        note("list exercises")
        return (key for exercise_id in self.exercises for key in self.of(exercise_id))

    def __len__(self) -> int:
        return sum(len(self.of(exercise_id)) for exercise_id in self.exercises)


def forms_of(exercises: Mapping[str, Exercise]) -> FormShelf:
    """All forms of a library."""
    return FormShelf(exercises)


def shown_form(forms: Forms, item: Item) -> Form:
    """The form of an item as it is filmed. Raises KeyError where there is none."""
    return forms[FormKey(item.exercise, item.variant)]


def untold_of(caution: Caution, forms: Collection[Form]) -> tuple[str, ...]:
    """What a caution is about and none of the forms to which it belongs has, as far as they tell."""
    bearers = [form for form in forms if caution in form.all_cautions]
    return tuple(word for word in caution.about if not any(form.may_have(word) for form in bearers))


def own_faults(forms: Forms, form: Form) -> tuple[Fault, ...]:
    """Faults written for this very form: one taken over may speak of what is no longer done."""
    taken_over = () if form.link or form.made_from is None else forms[form.made_from].faults
    return tuple(fault for fault in form.faults if fault not in taken_over)


def find_cycles(exercises: Mapping[str, Exercise]) -> list[tuple[FormKey, ...]]:
    """Chains of forms that are made from one another, each from a form back to itself.

    Two exercises that name each other as substitutes are no cycle: each link means the other's
    main form. An exercise with a variant that links to itself is one.
    """
    found: list[tuple[FormKey, ...]] = []
    for exercise in exercises.values():
        found += _cycles_in(exercise) + _links_to_itself(exercise)
    return found


def _cycles_in(exercise: Exercise) -> list[tuple[FormKey, ...]]:
    variants = {variant.id: variant for variant in exercise.variants}
    cycles: list[tuple[FormKey, ...]] = []
    done: set[str] = set()
    for start in variants:
        chain: list[str] = []
        step: str | None = start
        while step in variants and step not in done and step not in chain:
            chain.append(step)
            step = variants[step].of
        if step in chain:
            loop = [*chain[chain.index(step) :], step]
            cycles.append(tuple(FormKey(exercise.id, variant) for variant in loop))
        done.update(chain)
    return cycles


def _links_to_itself(exercise: Exercise) -> list[tuple[FormKey, ...]]:
    main = FormKey(exercise.id)
    links = [variant.id for variant in exercise.variants if variant.exercise == exercise.id]
    return [(main, FormKey(exercise.id, link), main) for link in links]


def _main(exercise: Exercise) -> Form:
    return Form(
        key=FormKey(exercise.id),
        name=exercise.name,
        summary=exercise.summary,
        exercise=exercise.id,
        pattern=exercise.pattern,
        muscles=exercise.muscles,
        kit=exercise.kit,
        demands=exercise.demands,
        demands_kept=exercise.demands_kept,
        move=exercise.move,
        cues=exercise.cues,
        faults=exercise.faults,
        all_cautions=exercise.cautions,
        pictures=exercise.pictures,
        poses=exercise.poses,
        tempo=exercise.tempo,
        met=exercise.met,
        stepping=exercise.stepping,
    )


def _unresolved(
    exercise: str, variants: Mapping[str, Variant], variant_id: str, forms: Mapping[FormKey, Form]
) -> list[Variant]:
    """A variant and those it is made from, as far as they have no form yet."""
    chain: list[Variant] = []
    step: str | None = variant_id
    while step is not None and FormKey(exercise, step) not in forms and variants[step] not in chain:
        chain.append(variants[step])
        step = variants[step].of
    return chain


def _full(variant: Variant, parent: FormKey, base: Form) -> Form:
    # A metabolic equivalent was given for one pattern; another pattern has its own.
    keeps_met = variant.pattern in (None, base.pattern)
    # A reason was given for one list of demands or for one way of doing it; others need their own.
    same = variant.demands is None and variant.poses is None
    inherited = base.demands_kept if same else {}
    demands = base.demands if variant.demands is None else variant.demands
    # Words for a form that asks for more may ask for just that: "thighs level" of who must not bend so deep.
    # A base that does not tell all its demands may ask for anything that the variant does not list. Whoever
    # wrote cues for the variant looked at its words.
    asks_as_much = set(base.demands) <= set(demands)
    words_hold = bool(variant.cues) or asks_as_much
    return replace(
        base,
        key=FormKey(parent.exercise, variant.id),
        name=variant.name or base.name,
        summary=base.summary if asks_as_much else "",
        change=variant.change,
        made_from=parent,
        link=variant.exercise is not None,
        pattern=variant.pattern or base.pattern,
        muscles=base.muscles if variant.muscles is None else variant.muscles,
        kit=base.kit if variant.kit is None else variant.kit,
        demands=demands,
        demands_kept={**inherited, **variant.demands_kept},
        dose=variant.dose or base.dose,
        own_tempo=variant.tempo or base.own_tempo,
        tempo=variant.tempo or base.tempo,
        effort=variant.effort or base.effort,
        most_kg=variant.most_load.base if variant.most_load else base.most_kg,
        note=variant.note,
        meant_for=variant.meant_for,
        move=variant.move or (base.move if variant.poses is None and words_hold else ""),
        cues=variant.cues or (base.cues if words_hold else ()),
        faults=variant.faults or (base.faults if words_hold else ()),
        all_cautions=(*base.all_cautions, *variant.cautions),
        pictures=variant.pictures or base.pictures,
        met=base.met if keeps_met else None,
        stepping=base.stepping if keeps_met else None,
    )
