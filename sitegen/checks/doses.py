"""Warnings about doses that do not fit a form of an exercise."""

from collections.abc import Iterator
from typing import NamedTuple

from sitegen.checks.material import Material
from sitegen.notation import Dose
from sitegen.problems import Problem, found
from sitegen.study.doses import is_larger
from sitegen.study.forms import Form, FormKey
from sitegen.study.reachable_forms import ReachableForms
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


class _Near(NamedTuple):
    """A form within reach of a filmed item, and the dose that it would have instead."""

    number: int
    """Of the episode."""
    filmed: Dose
    form: Form
    owner: Form
    """The form whose dose decides: the link by which another exercise is reached, where there is one."""
    dose: Dose
    changed: bool
    """Whether it is another form than the one filmed."""


def check_near_doses(material: Material) -> Iterator[Problem]:
    """Doses that come out wrong where a form stands in for a filmed one; each is told once for a form."""
    told: set[tuple[str, FormKey]] = set()
    for near in _near_doses(material):
        for check, form, judge, advice in (
            ("dwindling-dose", near.form, _dwindles, "write dose: same, half, or the dose you mean"),
            ("harder-regression", near.form, _grows, _NO_REGRESSION),
            ("walking-dose", near.form, _is_walked, "write dose: 20-30 s, or another time"),
            ("two-sided-dose", near.owner, _is_halved, "write dose: both sides, or the dose you mean"),
        ):
            if (check, form.key) not in told and (message := judge(near)):
                told.add((check, form.key))
                yield found("warning", check, material.location_of(form), message, advice)


_NO_REGRESSION = "call it a progression or a substitution, or write a change such as same or half"


def _dwindles(near: _Near) -> str:
    """An easier form of which a fixed number fewer leaves half of a filmed dose, or less."""
    form, change = near.form, near.form.dose
    if form.change != "regression" or change is None or change.kind != "plus":
        return ""
    # A dose of max is 0: nothing is left of nothing.
    half = 0 < near.dose.high * 2 <= near.filmed.high
    words = f"{form.name!r} is left with {near.dose} of the {near.filmed} that episode {near.number} films"
    return words if half else ""


def _grows(near: _Near) -> str:
    """An easier form whose own dose is larger than one that is filmed of it, or of one leading to it."""
    form = near.form
    new = form.dose is not None and form.dose.dose is not None
    if form.change != "regression" or not new or not is_larger(near.dose, near.filmed):
        return ""
    more = f"{near.dose}, more than the {near.filmed} of episode {near.number}"
    return f"the regression {form.name!r} has {more}"


def _is_walked(near: _Near) -> str:
    """A form that stays in its place, with a dose in steps or metres taken over from one that walks."""
    form, dose = near.form, near.dose
    # Metres are walked; steps may also be taken sitting, but not by a carry that has become a hold.
    walked = dose.kind == "distance" or (dose.measure == "steps" and form.pattern == "carry")
    words = f"{form.name!r} does not walk, but would get {dose} (episode {near.number})"
    return words if walked and "standing" not in form.demands else ""


def _is_halved(near: _Near) -> str:
    """A form whose drawn body does the same left and right, with a dose for each side taken over."""
    change = near.form.dose  # so many each side, or as many on each
    said = change is not None and (change.dose is not None or change.kind == "each")
    taken_over = near.changed and near.dose.per_side and not near.dose.ways and not said
    words = f"{near.owner.name!r} works both sides at once, but would get {near.dose} (episode {near.number})"
    return words if taken_over and works_both_sides(near.form) else ""


def _near_doses(material: Material) -> Iterator[_Near]:
    """The dose of every item, and the dose that each form within its reach would have instead."""
    forms, reachable = material.forms, ReachableForms(material.forms)
    for episode, _, _, item in material.items():
        if item.dose is None:
            continue
        for near in reachable.candidates(FormKey(item.exercise, item.variant)):
            owner = next((forms[key] for key in near.steps if forms[key].link), near.form)
            dose = near.dose_after(item.dose)
            yield _Near(episode.number, item.dose, near.form, owner, dose, bool(near.steps))
