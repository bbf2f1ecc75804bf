"""Warnings about steps for which the stepping equation does not hold."""

from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.problems import Problem, found
from sitegen.study.energy import STEP_HEIGHTS_CM, STEP_RATES, in_range, stepping_at
from sitegen.study.forms import shown_form

_RATES = "{} to {} a minute".format(*STEP_RATES)
_HEIGHTS = "{} to {} cm".format(*STEP_HEIGHTS_CM)
_INSTEAD = "its energy is estimated by its movement instead"


def check_stepping(material: Material) -> Iterator[Problem]:
    """A step too high or too low, or a rate too fast or too slow, for the equation."""
    for exercise in material.series.exercises.values():
        stepping = exercise.stepping
        if stepping is not None and not in_range(stepping):
            steps = f"{stepping.per_minute:g} steps a minute of {stepping.height}"
            holds = f"the stepping equation holds for {_RATES} and {_HEIGHTS}"
            message, advice = f"{exercise.name!r}: {steps}; {holds}", f"{_INSTEAD}; correct it, or write met:"
            yield found("warning", "stepping-range", exercise.location.at("stepping"), message, advice)


def check_stepping_tempo(material: Material) -> Iterator[Problem]:
    """A tempo of an item that makes a step too fast or too slow for the equation."""
    for _, block, index, item in material.items():
        form = shown_form(material.forms, item)
        # Where the step itself is out of range, that is told of the exercise.
        if form.stepping is None or item.tempo is None or not in_range(form.stepping):
            continue
        # A tempo of the item sets the rate in place of that of the exercise.
        paced = stepping_at(form.stepping, item.tempo)
        if not in_range(paced):
            steps = f"{form.name!r} at {item.tempo} is {paced.per_minute:.3g} steps a minute"
            message, advice = f"{steps}; the equation holds for {_RATES}", f"{_INSTEAD}; or change it"
            yield found("warning", "stepping-range", block.item_location(index, "tempo"), message, advice)
