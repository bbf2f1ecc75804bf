"""Warnings about doses that do not fit a form of an exercise."""

from collections.abc import Iterator
from typing import NamedTuple

from sitegen.checks.material import Material
from sitegen.notation import Dose
from sitegen.problems import Problem, found
from sitegen.study.doses import is_larger
from sitegen.study.forms import Form, FormKey, Forms
from sitegen.study.reachable_forms import ReachableForm, ReachableForms
from sitegen.study.sides import works_both_sides


def check_inherited_doses(material: Material) -> Iterator[Problem]:
    """An easier form that takes over a smaller dose: easier and fewer as well, where nobody said so."""
    forms = material.forms
    for exercise in material.series.exercises.values():
        for variant in exercise.variants:
            form = forms[FormKey(exercise.id, variant.id)]
            if variant.dose is None and form.change == "regression" and _is_smaller(form):
                parent = forms[form.made_from].name if form.made_from else exercise.name
                message = (
                    f"{form.name!r} is easier than {parent!r} and takes over its change of dose: {form.dose}"
                )
                advice = f"write dose: same, or dose: {form.dose} if fewer is meant too"
                yield found("warning", "inherited-dose", variant.location, message, advice)


def _is_smaller(form: Form) -> bool:
    change = form.dose
    if change is None or change.dose is not None:
        return False
    return change.amount < (1 if change.kind == "times" else 0)


def check_dwindling_doses(material: Material) -> Iterator[Problem]:
    """An easier form of which a fixed number fewer leaves half of a filmed dose, or less."""
    told: set[FormKey] = set()
    for filmed, near, left in _near_doses(material):
        form = near.form
        fixed = form.dose is not None and form.dose.kind == "plus"
        if (
            form.change == "regression"
            and fixed
            and 0 < left.high * 2 <= filmed.dose.high  # a dose of max is 0: nothing is left of nothing
            and form.key not in told
        ):
            told.add(form.key)
            message = (
                f"{form.name!r} is left with {left} of the {filmed.dose} that episode {filmed.number} films"
            )
            advice = "write dose: same, half, or the dose you mean"
            yield found("warning", "dwindling-dose", material.location_of(form), message, advice)


def check_larger_doses(material: Material) -> Iterator[Problem]:
    """An easier form whose own dose is larger than one that is filmed of it, or of one leading to it."""
    told: set[FormKey] = set()
    for filmed, near, own in _near_doses(material):
        form = near.form
        new = form.dose is not None and form.dose.dose is not None
        easier = form.change == "regression"
        if easier and new and is_larger(own, filmed.dose) and form.key not in told:
            told.add(form.key)
            more = f"{own}, more than the {filmed.dose} of episode {filmed.number}"
            message = f"the regression {form.name!r} has {more}"
            advice = "call it a progression or a substitution, or write a change such as same or half"
            yield found("warning", "harder-regression", material.location_of(form), message, advice)


def check_walking_doses(material: Material) -> Iterator[Problem]:
    """A form that stays in its place, with a dose in steps or metres taken over from one that walks."""
    told: set[FormKey] = set()
    for filmed, near, dose in _near_doses(material):
        form = near.form
        if form.key not in told and "standing" not in form.demands and _is_walked(form, dose):
            told.add(form.key)
            message = f"{form.name!r} does not walk, but would get {dose} (episode {filmed.number})"
            advice = "write dose: 20-30 s, or another time"
            yield found("warning", "walking-dose", material.location_of(form), message, advice)


def check_two_sided_doses(material: Material) -> Iterator[Problem]:
    """A form whose drawn body does the same left and right, with a dose for each side taken over."""
    forms = material.forms
    told: set[FormKey] = set()
    for filmed, near, dose in _near_doses(material):
        owner = _where_to_say(forms, near)
        change = near.form.dose  # so many each side, or as many on each
        said = change is not None and (change.dose is not None or change.kind == "each")
        if not dose.per_side or dose.ways or said or not near.steps or owner.key in told:
            continue
        if works_both_sides(near.form):
            told.add(owner.key)
            message = (
                f"{owner.name!r} works both sides at once, but would get {dose} (episode {filmed.number})"
            )
            advice = "write dose: both sides, or the dose you mean"
            yield found("warning", "two-sided-dose", material.location_of(owner), message, advice)


def _where_to_say(forms: Forms, near: ReachableForm) -> Form:
    """The form whose dose decides: the link by which another exercise is reached, where there is one."""
    return next((forms[key] for key in near.steps if forms[key].link), near.form)


def _is_walked(form: Form, dose: Dose) -> bool:
    """Metres are; steps may also be taken sitting, but not by a carry that has become a hold."""
    return dose.kind == "distance" or (dose.measure == "steps" and form.pattern == "carry")


class _Filmed(NamedTuple):
    number: int
    """Of the episode."""
    dose: Dose


def _near_doses(material: Material) -> Iterator[tuple[_Filmed, ReachableForm, Dose]]:
    """The dose of every item, and the dose that each form within its reach would have instead."""
    reachable = ReachableForms(material.forms)
    for episode, _, _, item in material.items():
        if item.dose is None:
            continue
        for near in reachable.candidates(FormKey(item.exercise, item.variant)):
            yield _Filmed(episode.number, item.dose), near, near.dose_after(item.dose)
