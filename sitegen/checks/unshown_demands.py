"""Warnings about exercises told by their poses alone: who avoids what these cannot show is not given them."""

from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.model import Details
from sitegen.notation.english import listed
from sitegen.problems import Problem, found
from sitegen.study.forms import Form, FormKey
from sitegen.study.suitability import avoided_by
from sitegen.vocabulary import SHOWN_BY_POSES, UNSHOWN


def check_unshown(material: Material) -> Iterator[Problem]:
    """An exercise told by its poses alone, where a need avoids what these cannot show; once for all forms."""
    details = material.series.details
    concerned = [need.name for need in details.needs.values() if UNSHOWN in avoided_by(details, need)]
    if not concerned:
        return
    for exercise in material.series.exercises.values():
        unshown = [form for form, _ in material.own_forms(exercise) if UNSHOWN in form.demands]
        if unshown:
            first, *others = (repr(form.name) for form in unshown)
            also = f" (nor those of {', '.join(others)})" if others else ""
            message = (
                f"the poses of {first}{also} cannot show {_hidden(details)}, so nobody is given it with: "
                f"{', '.join(concerned)}"
            )
            location = material.location_of(unshown[0])
            yield found("warning", "unshown-demands", location, message, _lines(details, unshown))


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
