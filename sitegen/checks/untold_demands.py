"""Warnings about exercises that do not tell all they ask of a body: they are kept from needs."""

from collections.abc import Iterator

from sitegen.checks.demands import reader_for
from sitegen.checks.material import Material
from sitegen.model import Details
from sitegen.notation.english import listed
from sitegen.problems import Problem, found
from sitegen.study.forms import Form, FormKey
from sitegen.study.suitability import avoided_by
from sitegen.vocabulary import SHOWN_BY_POSES, UNSHOWN, UNTOLD


def check_untold(material: Material) -> Iterator[Problem]:
    """An exercise with neither ``demands:`` nor poses, told once for all its forms that are no better."""
    reader = reader_for(material.series)
    forms = material.forms
    for exercise in material.series.exercises.values():
        own = {FormKey(exercise.id): exercise.location.at("name")}
        own |= {FormKey(exercise.id, v.id): v.location for v in exercise.variants if v.exercise is None}
        untold = [forms[key] for key in own if UNTOLD in forms[key].demands]
        if untold:
            words = (
                exercise.name,
                exercise.summary,
                *(cue for form in untold for cue in (form.name, *form.cues)),
            )
            heard = (
                dict.fromkeys(demand for text in words for demand, _ in reader.demands(text))
                if reader
                else {}
            )
            yield found(
                "warning", "untold-demands", own[untold[0].key], _message(untold), _advice(list(heard))
            )


def check_unshown(material: Material) -> Iterator[Problem]:
    """An exercise told by its poses alone, where a need avoids what these cannot show; once for all forms."""
    details, forms = material.series.details, material.forms
    concerned = [need.name for need in details.needs.values() if UNSHOWN in avoided_by(details, need)]
    if not concerned:
        return
    for exercise in material.series.exercises.values():
        silent = {FormKey(exercise.id): exercise.location.at("name")}
        silent |= {FormKey(exercise.id, v.id): v.location for v in exercise.variants if v.exercise is None}
        unshown = [forms[key] for key in silent if UNSHOWN in forms[key].demands]
        if unshown:
            first, *others = (repr(form.name) for form in unshown)
            also = f" (nor those of {', '.join(others)})" if others else ""
            message = (
                f"the poses of {first}{also} cannot show {_hidden(details)}, so nobody is given it with: "
                f"{', '.join(concerned)}"
            )
            yield found(
                "warning", "unshown-demands", silent[unshown[0].key], message, _lines(details, unshown)
            )


def _hidden(details: Details) -> str:
    return listed([word for word in details.demand_sentences if word not in SHOWN_BY_POSES], "or")


def _lines(details: Details, unshown: list[Form]) -> str:
    """What to write in each form; what is made from another takes over its line, where that is the same."""
    told: dict[FormKey, tuple[str, ...]] = {}
    lines = []
    for form in unshown:
        told[form.key] = shown = tuple(word for word in form.demands if word != UNSHOWN)
        if form.made_from is None or told.get(form.made_from) != shown:
            lines.append(f"demands: [{', '.join(shown)}] in {form.name!r}")
    what = f"what the poses show or leave open; add {_hidden(details)} where it applies"
    return f"write {', '.join(lines)}: {what}"


def _message(untold: list[Form]) -> str:
    first, *others = (repr(form.name) for form in untold)
    also = f" (nor {', '.join(others)})" if others else ""
    return f"nothing says what {first}{also} asks of a body, so nobody with a need is given it"


def _advice(heard: list[str]) -> str:
    example = ", ".join(heard) or "standing, grip"
    by_its_words = "by its own words at least " if heard else "for example "
    return (
        f"write {by_its_words}demands: [{example}] (the list with the meaning of each word is in "
        "content/README.md), demands: [] if it truly asks nothing of it, or its poses"
    )
