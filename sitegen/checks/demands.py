"""Warnings about names, summaries and cues that ask for what the exercise does not declare."""

from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.model import Exercise, Variant
from sitegen.problems import Problem, found
from sitegen.study.demand_words import DemandReader, reader_for
from sitegen.study.forms import Form, FormKey
from sitegen.vocabulary import DEMANDS


def check_words(material: Material) -> Iterator[Problem]:
    """A name, summary or cue that says jump, kneel or overhead in a form that does not declare it.

    What declares nothing at all is told elsewhere (``untold_demands``).
    """
    reader = reader_for(material.series.details.language)
    if reader is None:
        return
    forms = material.forms
    for exercise in material.series.exercises.values():
        yield from _in_form(reader, forms[FormKey(exercise.id)], exercise)
        for variant in exercise.variants:
            if variant.exercise is None:
                yield from _in_form(reader, forms[FormKey(exercise.id, variant.id)], variant)


def _in_form(reader: DemandReader, form: Form, owner: Exercise | Variant) -> Iterator[Problem]:
    if not owner.said:
        return
    titles = {"name": owner.name, "summary": owner.summary if isinstance(owner, Exercise) else ""}
    told = {demand for cue in form.cues for demand, _ in reader.demands(cue)}
    for key, text in titles.items():
        for demand, word in reader.demands(text):
            if demand in owner.said and demand not in told:
                told.add(demand)
                message = f"the {key} says {word!r}, but {form.name!r} does not ask for {demand}"
                advice = f"add {demand} to its demands ({DEMANDS[demand]}), or word the {key} in another way"
                yield found("warning", "undeclared-demand", owner.location.at(key), message, advice)
    for index, cue in enumerate(form.cues):
        for demand, word in reader.demands(cue):
            if demand in owner.said:
                yield _problem(form, owner, index, demand, word)


def _problem(form: Form, owner: Exercise | Variant, index: int, demand: str, word: str) -> Problem:
    if owner.cues:
        location, message = (
            owner.location.at("cues", index),
            f"the cue says {word!r}, but {form.name!r} does not ask for {demand}",
        )
        advice = f"add {demand} to its demands ({DEMANDS[demand]}), or word the cue in another way"
    else:
        location = owner.location
        message = f"{form.name!r} takes over the cue {form.cues[index]!r}, but does not ask for {demand}"
        advice = "give this variant cues of its own, or correct its demands"
    return found("warning", "undeclared-demand", location, message, advice)
