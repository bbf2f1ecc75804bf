"""With which dose, load and effort an exercise comes next."""

from collections.abc import Sequence
from dataclasses import replace

from sitegen.composing.level import LIGHT, asked_for
from sitegen.composing.single_exercise import counted_alone
from sitegen.composing.so_far import SoFar
from sitegen.model import Block, Item, Poses, Sides
from sitegen.notation import Dose, Effort
from sitegen.study.forms import Form, FormKey
from sitegen.study.next_dose import FREE_RANGE, HOLD_RANGE, WALK_RANGE, EarlierDose, NextDose, next_dose
from sitegen.vocabulary import INTERVALS, UNTOLD

BALANCE = "balance on one leg"
CAREFUL = frozenset({BALANCE, UNTOLD})
"""Demands with which one repetition more is left over: what is not told may be a balance too."""

FIRST_EFFORT = Effort("reserve", 4, 4)
"""Of an exercise that the series has not shown yet (common practice, no source)."""
FIRST_EXERTION = Effort("rpe", 6, 6)
"""The same where no repetitions are counted: a hold, a carry, work by the clock."""


class NextItems:
    """Items of the next session, by what the series has shown so far."""

    def __init__(self, so_far: SoFar) -> None:
        self._so_far = so_far
        self._details = so_far.details
        self._forms = so_far.forms

    def of_the_day(self, key: FormKey, block: Block) -> tuple[Item, NextDose, str]:
        """What :meth:`known` gives, with the effort of the session's level: a light session asks for no more
        than the last one did."""
        item, dose, question = self.known(key, block)
        showings = self._so_far.history.showings[key, block.kind]
        if self._so_far.level is LIGHT and dose.change in ("more", "heavier"):
            last = _dosed(showings)[-1]
            item = replace(item, dose=last.item.dose, load=last.item.load)
            asked = f"{item.dose} with {item.load}" if item.load else item.dose
            reason = f"episode {last.number}: {asked}; the same again, for the session is a light one"
            dose = NextDose(dose=item.dose, load=item.load, change="again", reason=reason)
        before = [one.item for one in showings]
        careful = dose.change == "heavier" or not CAREFUL.isdisjoint(self._forms[key].demands)
        return asked_for(item, self._so_far.level, block.kind, before, careful=careful), dose, question

    def known(self, key: FormKey, block: Block) -> tuple[Item, NextDose, str]:
        """The item of a form that was shown before in such a block, with its next dose."""
        showings = self._so_far.history.showings[key, block.kind]
        last = showings[-1].item
        counts = _dosed(showings)
        if block.format == INTERVALS:
            dose = NextDose(dose=None, load=last.load, change="again", reason="the format sets the time")
        elif not counts:
            first = self._first_dose(self._forms[key])
            dose = NextDose(dose=first, load=last.load, change="again", reason="a first count for it")
        else:
            dose = next_dose(
                counts,
                sets=self._sets(block, counts[-1].item),
                kit=self._details.kit,
                bounds=self._details.bounds,
                day=self._so_far.room.day,
                after_week_off=self._so_far.room.after_week_off,
                most_kg=self._forms[key].most_kg,
            )
        item = replace(last, dose=dose.dose, load=dose.load, at=None, note="")
        if counts and counts[-1].item is not last:
            item = replace(item, effort=counts[-1].item.effort, tempo=counts[-1].item.tempo)
        if block.format == INTERVALS:
            item = replace(item, tempo=None)
        if item.dose is not None and item.dose.sets:  # a ladder belongs to the number of its sets
            item = replace(
                item,
                dose=item.dose.of_set(1),
                load=item.load.sets[0] if item.load and item.load.sets else item.load,
            )
        return item, dose, ""

    def new(self, exercise: str, block: Block) -> tuple[Item, None, str]:
        """The item of an exercise that the series has not shown, at the foot of every range."""
        form = self._forms[FormKey(exercise)]
        dose = None if block.format == INTERVALS else self._first_dose(form)
        effort = FIRST_EFFORT if dose is not None and dose.measure == "reps" else FIRST_EXERTION
        pieces = [self._details.kit[piece] for piece in form.kit if piece in self._details.kit]
        loaded = any(piece.holds or piece.weighs for piece in pieces)
        question = "new to the series: are dose and effort right"
        question += ", and with which load (write load:)?" if loaded else "?"
        return Item(exercise=exercise, dose=dose, effort=effort), None, question

    def _first_dose(self, form: Form) -> Dose:
        sides = _is_one_sided(form.poses)
        if form.poses is not None and form.poses.held:
            return Dose(kind="time", low=HOLD_RANGE[0], high=HOLD_RANGE[0], per_side=sides)
        if form.pattern in ("carry", "locomotion"):
            return Dose(kind="count", low=WALK_RANGE[0], high=WALK_RANGE[0], unit="steps")
        return Dose(kind="count", low=FREE_RANGE[0], high=FREE_RANGE[0], per_side=sides)

    def _sets(self, block: Block, item: Item) -> float:
        return counted_alone(self._details, self._forms, block, item).sets.mid


def _dosed(showings: Sequence[EarlierDose]) -> list[EarlierDose]:
    """Those with a dose. As many as possible is a test: where there is another dose, it goes on from that."""
    doses = [one for one in showings if one.item.dose is not None]
    return [one for one in doses if one.item.dose is not None and one.item.dose.kind != "max"] or doses


def _is_one_sided(poses: Poses | None) -> bool:
    """Whether the two sides of the body do different things, so that a set is done on each."""
    if poses is None:
        return False
    said = [poses.start, *poses.through, poses.finish or {}]
    return any(
        isinstance(value, Sides) and value.left != value.right for pose in said for value in pose.values()
    )
