"""Warnings about exercises of which nothing tells what they ask of a body: no need is given them."""

from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.problems import Problem, found
from sitegen.study.demand_words import reader_for
from sitegen.vocabulary import UNTOLD


def check_untold(material: Material) -> Iterator[Problem]:
    """An exercise with neither ``demands:`` nor poses, told once for all its forms that are no better."""
    reader = reader_for(material.series.details.language)
    for exercise in material.series.exercises.values():
        untold = [form for form, _ in material.own_forms(exercise) if UNTOLD in form.demands]
        if not untold:
            continue
        first, *others = (repr(form.name) for form in untold)
        also = f" (nor {', '.join(others)})" if others else ""
        message = f"nothing says what {first}{also} asks of a body, so nobody with a need is given it"
        words = [exercise.name, exercise.summary, *(cue for f in untold for cue in (f.name, *f.cues))]
        told = dict.fromkeys(demand for text in words for demand, _ in reader.demands(text))
        example = f"by its own words at least demands: [{', '.join(told)}]"
        example = example if told else "for example demands: [standing, grip]"
        advice = (
            f"write {example} (the list with the meaning of each word is in content/README.md), "
            "demands: [] if it truly asks nothing of it, or its poses"
        )
        yield found("warning", "untold-demands", material.location_of(untold[0]), message, advice)
