"""Warnings about an exercise that contradicts itself, or that nobody will ever see."""

from collections.abc import Iterable, Iterator

from sitegen.checks.material import Material
from sitegen.model import Caution, Exercise, Series, Variant
from sitegen.notation import Dose
from sitegen.problems import Location, Problem, found
from sitegen.study.doses import is_larger
from sitegen.study.forms import Form, FormKey, untold_of
from sitegen.vocabulary import is_told, told_apart

_USUAL_DOSES = (Dose(kind="count", low=10, high=10), Dose(kind="time", low=30, high=30))
"""What changes of dose are tried on."""
_EPISODES_OF_A_NEW_SERIES = 4
"""With fewer the series is taken to be new (common practice: about the first week or two)."""
_NAMED = 3
"""Most other exercises that a piece of advice names."""


def check_regressions(material: Material) -> Iterator[Problem]:
    """A regression that asks for more than the form it is made from, or for a larger dose."""
    forms = material.forms
    for exercise in material.series.exercises.values():
        for variant in exercise.variants:
            form = forms[FormKey(exercise.id, variant.id)]
            if form.change == "regression" and form.made_from is not None:
                parent = forms[form.made_from]
                for message in (_more_demands(form, parent), _larger_dose(form, parent)):
                    if message:
                        advice = "call it a progression or a substitution, or correct it"
                        yield found("warning", "harder-regression", variant.location, message, advice)


def _more_demands(form: Form, parent: Form) -> str:
    if len(form.demands) <= len(parent.demands):
        return ""
    added = ", ".join(told_apart(form.demands, parent.demands))
    if not added:
        return ""
    return f"the regression {form.name!r} asks for more than {parent.name!r}: also for {added}"


def _larger_dose(form: Form, parent: Form) -> str:
    # Whether a new dose is larger is seen where it is filmed (see ``doses``); "same" was meant.
    # And as many on each side is no more for a side than both did together.
    if form.dose is None or form.dose == parent.dose or form.dose.dose or form.dose.amount == 1:
        return ""
    if form.dose.kind == "each":
        return ""
    before = [parent.dose.apply(dose) if parent.dose else dose for dose in _USUAL_DOSES]
    after = [form.dose.apply(dose) for dose in _USUAL_DOSES]
    if not any(is_larger(one, other) for one, other in zip(after, before, strict=True)):
        return ""
    return f"the regression {form.name!r} has a larger dose than {parent.name!r}: {form.dose}"


def check_unused(material: Material) -> Iterator[Problem]:
    """An exercise that no episode shows, and that no exercise in use has as a variant.

    A library is written before the episodes: in a new series most of it is still waiting for its turn.
    """
    if len(material.series.sessions) < _EPISODES_OF_A_NEW_SERIES:
        return
    used = _used(material.series)
    for exercise in material.series.exercises.values():
        of_library = material.series.in_its_folder(exercise.location.file) != exercise.location.file
        if exercise.id not in used and not of_library:
            message = f"{exercise.name!r} is in no episode, and no variant of an exercise in use is it"
            advice = "use it, remove it, or write silence: {unused: the reason}"
            yield found("warning", "unused", exercise.location.at("name"), message, advice)


def _used(series: Series) -> set[str]:
    # An exercise in use leads on to those that its variants are.
    used: set[str] = set()
    waiting = [exercise for episode in series.episodes for exercise in episode.exercises]
    while waiting:
        exercise = waiting.pop()
        if exercise not in used:
            used.add(exercise)
            waiting += series.exercise(exercise).links
    return used


def check_cautions(material: Material) -> Iterator[Problem]:
    """A caution about a demand of the exercise that none of its variants does without."""
    forms = material.forms
    for exercise in material.series.exercises.values():
        main, *variants = [forms[FormKey(exercise.id, v)] for v in (None, *(v.id for v in exercise.variants))]
        for index, caution in enumerate(exercise.cautions):
            own = {*main.demands, *main.kit}
            asked = [word for word in caution.about if word in own]
            if asked and not any(_heeds(form, caution) for form in variants):
                message = f"no variant of {exercise.name!r} heeds the caution about {', '.join(asked)}"
                advice = f"add a variant that does without {', '.join(caution.about)}"
                others = _alike(exercise, caution, forms.values())
                advice += f", or one that is another exercise: {', '.join(others)}" if others else ""
                location = exercise.location.at("cautions", index)
                yield found("warning", "unheeded-caution", location, message, advice)


def check_cautions_in_doubt(material: Material) -> Iterator[Problem]:
    """A caution about a demand or piece of kit that no form to which it belongs has."""
    for exercise in material.series.exercises.values():
        forms = material.forms.of(exercise.id).values()
        owners: list[Exercise | Variant] = [exercise, *exercise.variants]
        for owner in owners:
            for index, caution in enumerate(owner.cautions):
                for word in untold_of(caution, forms):
                    location = owner.location.at("cautions", index)
                    yield _in_doubt(exercise, location, word, is_kit=word in material.series.details.kit)


def _in_doubt(exercise: Exercise, location: Location, word: str, *, is_kit: bool) -> Problem:
    message = f"this caution is about {word}, which no form of {exercise.name!r} with this caution declares"
    add = f"add {word} to the kit: of each form that needs it"
    if not is_kit:
        add = (
            f"add {word} to the demands: of each form that asks for it: who avoids it is not given that form"
        )
    advice = f"{add}; or leave out about:. Until then it is shown with all of them"
    return found("warning", "caution-in-doubt", location, message, advice)


def _heeds(form: Form, caution: Caution) -> bool:
    own = {*form.demands, *form.kit}
    return own.isdisjoint(caution.about) and all(is_told(word, form.demands) for word in caution.about)


def _alike(exercise: Exercise, caution: Caution, forms: Iterable[Form]) -> list[str]:
    """Other exercises of the same pattern with a form that heeds the caution."""
    heeding = (f for f in forms if f.pattern == exercise.pattern and _heeds(f, caution))
    others = dict.fromkeys(form.exercise for form in heeding if form.exercise != exercise.id)
    return [repr(other) for other in list(others)[:_NAMED]]
