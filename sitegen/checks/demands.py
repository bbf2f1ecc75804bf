"""Warnings about names, summaries, cues and muscles that tell of what the form does not declare."""

from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.model import Exercise, Variant
from sitegen.notation.english import listed
from sitegen.problems import Location, Problem, found
from sitegen.study.demand_words import DemandReader, reader_for
from sitegen.study.forms import Form, FormKey, Forms
from sitegen.vocabulary import DEMANDS, MOVING_LEGS


def check_words(material: Material) -> Iterator[Problem]:
    """A name, summary or cue that says jump, kneel or overhead in a form that does not declare it.

    A muscle of the legs that works where nobody stands tells of such a demand too.

    What declares nothing at all is told elsewhere (``untold_demands``).
    """
    reader = reader_for(material.series.details.language)
    for exercise in material.series.exercises.values():
        for form, owner in material.own_forms(exercise):
            yield from _in_form(reader, form, owner)


def check_cues_left_out(material: Material) -> Iterator[Problem]:
    """Variants that do without a demand of the form they are made from, and so without its cues too."""
    forms = material.forms
    for exercise in material.series.exercises.values():
        bare = [v for v in exercise.variants if _lost_cues(forms, forms[FormKey(exercise.id, v.id)])]
        if bare:
            names = ", ".join(repr(forms[FormKey(exercise.id, variant.id)].name) for variant in bare)
            message = (
                f"no cue is shown with {names}: a demand of the form it is made from is dropped, "
                "and its cues may ask for just that"
            )
            advice = "write cues: in each of these variants, with what still holds of the others"
            yield found("warning", "cues-left-out", bare[0].location, message, advice)


def _lost_cues(forms: Forms, form: Form) -> bool:
    taken_from = None if form.link or form.made_from is None else forms[form.made_from]
    return taken_from is not None and bool(taken_from.cues) and not form.cues


def _in_form(reader: DemandReader, form: Form, owner: Exercise | Variant) -> Iterator[Problem]:
    if not owner.said:
        return
    titles = {"name": owner.name, "summary": owner.summary if isinstance(owner, Exercise) else ""}
    told = {demand for cue in form.cues for demand, _ in reader.demands(cue)}
    for key, text in titles.items():
        for demand, word in reader.in_title(text, posed=form.poses is not None):
            if demand in owner.said and demand not in told:
                told.add(demand)
                yield _undeclared(form, owner.location.at(key), key, demand, word)
    for index, cue in enumerate(form.cues):
        for demand, word in reader.demands(cue):
            if demand in owner.said:
                yield _undeclared_by_cue(form, owner, index, demand, word)
    untold = [demand for demand in owner.said if demand not in told]
    if MOVING_LEGS in untold:
        untold.remove(MOVING_LEGS)
        message = f"{listed(form.muscles.prime)} work in {form.name!r}, but it does not ask for {MOVING_LEGS}"
        advice = f"add {MOVING_LEGS} to its demands ({DEMANDS[MOVING_LEGS]}), or correct its muscles"
        yield found("warning", "undeclared-demand", owner.location.at("demands"), message, advice)
    if "jumping" in form.demands and "standing" in untold:
        untold.remove("standing")
        message = f"{form.name!r} asks for jumping but not for standing, which a jump needs"
        advice = "add standing to its demands, or say in its name that it is seated"
        yield found("warning", "undeclared-demand", owner.location.at("name"), message, advice)
    if untold:
        yield _usual(form, owner.location, untold)


def _usual(form: Form, location: Location, untold: list[str]) -> Problem:
    """What no word tells: the pattern does."""
    what = "what is done on the floor" if "lying flat" in untold else f"the pattern {form.pattern}"
    message = f"{what} usually asks for {listed(untold)}, which {form.name!r} does not list"
    advice = (
        "add to its demands what applies (the list with the meaning of each word is in content/README.md), "
        f"and write why the rest does not: demands_kept: {{{untold[-1]}: the reason}}"
    )
    return found("warning", "undeclared-demand", location.at("demands"), message, advice)


def _undeclared_by_cue(form: Form, owner: Exercise | Variant, index: int, demand: str, word: str) -> Problem:
    if owner.cues:
        return _undeclared(form, owner.location.at("cues", index), "cue", demand, word)
    message = f"{form.name!r} takes over the cue {form.cues[index]!r}, but does not ask for {demand}"
    advice = "give this variant cues of its own, or correct its demands"
    return found("warning", "undeclared-demand", owner.location, message, advice)


def _undeclared(form: Form, location: Location, what: str, demand: str, word: str) -> Problem:
    message = f"the {what} says {word!r}, but {form.name!r} does not ask for {demand}"
    advice = (
        f"add {demand} to its demands ({DEMANDS[demand]}), word the {what} in another way, "
        f"or write demands_kept: {{{demand}: why not}}"
    )
    return found("warning", "undeclared-demand", location, message, advice)
