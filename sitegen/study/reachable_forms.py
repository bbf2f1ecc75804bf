"""Which forms can stand in for a form, and how far away each is.

From a form one may step to the forms made from it, to the one it is made from, and from a variant
that is another exercise of the library on to the variants of that exercise.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import reduce
from heapq import heappop, heappush
from typing import NamedTuple

from sitegen.notation import Dose, DoseChange
from sitegen.study.forms import Form, FormKey, Forms

MOST_EXERCISES = 2
"""How often a walk may go on into another exercise's variants: what lies beyond has little to do
with what is filmed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachableForm:
    """A form within reach of the form that is filmed."""

    form: Form
    steps: tuple[FormKey, ...]
    """The forms on the way, this one last; empty for the form that is filmed."""
    doses: tuple[DoseChange, ...]
    """Changes of dose on the way, to be applied in this order."""

    def dose_after(self, dose: Dose) -> Dose:
        """What becomes of the dose of the form that is filmed."""
        return reduce(lambda changed, change: change.apply(changed), self.doses, dose)


@dataclass(frozen=True, slots=True)
class _Stop:
    form: Form
    steps: tuple[FormKey, ...]
    earlier: tuple[DoseChange, ...]
    """Changes stated on the links that led into this form's exercise."""
    entry: DoseChange | None
    """What the form at which the walk came into this exercise states itself."""

    @property
    def doses(self) -> tuple[DoseChange, ...]:
        change = self.form.dose
        return self.earlier if change is None or change == self.entry else (*self.earlier, change)


class _QueuedStop(NamedTuple):
    """Where a stop comes in the order of the walk; no two have the same turnings."""

    exercises: int
    steps: int
    written: tuple[int, ...]
    """Which of the ways written was taken at each turning."""
    stop: _Stop


class ReachableForms:
    """The candidates of every form, each list worked out when it is first asked for."""

    def __init__(self, forms: Forms) -> None:
        self._forms = forms
        self._candidates: dict[FormKey, tuple[ReachableForm, ...]] = {}

    def candidates(self, key: FormKey) -> tuple[ReachableForm, ...]:
        """All forms within reach, the form itself first: by fewest exercises gone on into, then by
        fewest steps, then as written. Raises KeyError where there is no such form."""
        known = self._candidates.get(key)
        if known is None:
            known = self._candidates[key] = tuple(self._walk(self._forms[key]))
        return known

    def _walk(self, start: Form) -> Iterator[ReachableForm]:
        """A form that can be reached on several ways is given once, by the nearest."""
        queue = [_QueuedStop(0, 0, (), _Stop(start, (), (), start.dose))]
        seen: set[FormKey] = set()
        while queue:
            here = heappop(queue)
            if here.stop.form.key in seen:
                continue
            seen.add(here.stop.form.key)
            yield ReachableForm(form=here.stop.form, steps=here.stop.steps, doses=here.stop.doses)
            for index, stop in enumerate(self._next(here.stop)):
                passed = here.exercises + (stop.form.key.exercise != here.stop.form.key.exercise)
                if passed <= MOST_EXERCISES and stop.form.key not in seen:
                    heappush(queue, _QueuedStop(passed, here.steps + 1, (*here.written, index), stop))

    def _next(self, stop: _Stop) -> Iterator[_Stop]:
        """One step further: variants made from the form, those of a linked exercise, the way back."""
        here = stop.form
        for key in self._made_from(here.key):
            yield self._step(stop, key, stop.earlier, stop.entry)
        if here.link:
            for key in self._made_from(FormKey(here.exercise)):
                yield self._step(stop, key, stop.doses, None)
        if here.made_from is not None:
            yield self._step(stop, here.made_from, stop.earlier, stop.entry)

    def _made_from(self, key: FormKey) -> list[FormKey]:
        """In the order written; a form is made from one of its own exercise's file."""
        return [other for other, form in self._forms.of(key.exercise).items() if form.made_from == key]

    def _step(
        self, stop: _Stop, key: FormKey, earlier: tuple[DoseChange, ...], entry: DoseChange | None
    ) -> _Stop:
        return _Stop(self._forms[key], (*stop.steps, key), earlier, entry)
