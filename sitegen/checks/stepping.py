"""Warnings about steps for which the stepping equation does not hold."""

from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.model import Item, Stepping
from sitegen.problems import Location, Problem, found
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
            location, message = exercise.location.at("stepping"), f"{exercise.name!r}: {_outside(stepping)}"
            yield found(
                "warning", "stepping-range", location, message, f"{_INSTEAD}; correct it, or write met:"
            )


def check_stepping_tempo(material: Material) -> Iterator[Problem]:
    """A tempo of an item that makes a step too fast or too slow for the equation."""
    series = material.series
    forms = material.forms
    told: set[Location] = set()
    for episode in series.sessions:
        for block in episode.blocks:
            for index, item in enumerate(block.items):
                stepping = shown_form(forms, item).stepping
                location = block.item_location(index, "tempo")
                if stepping is not None and location not in told and _too_far(stepping, item):
                    told.add(location)
                    rate = stepping_at(stepping, item.tempo).per_minute
                    steps = f"{shown_form(forms, item).name!r} at {item.tempo} is {rate:.3g} steps a minute"
                    message, advice = f"{steps}; the equation holds for {_RATES}", f"{_INSTEAD}; or change it"
                    yield found("warning", "stepping-range", location, message, advice)


def _too_far(stepping: Stepping, item: Item) -> bool:
    """Where the step itself is out of range, that is told of the exercise."""
    fits = in_range(stepping)
    return item.tempo is not None and fits and not in_range(stepping_at(stepping, item.tempo))


def _outside(stepping: Stepping) -> str:
    height, rate = stepping.height, stepping.per_minute
    return f"{rate:g} steps a minute of {height}; the stepping equation holds for {_RATES} and {_HEIGHTS}"
