"""Warnings about what the text of a need promises, and its demands and forms do not keep.

A client reads the advice of a need and relies on it. "No jumping" in it has to be an avoided demand, and
where it promises a hand on the counter, every form on the feet that steps needs a hold.
"""

import re
from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.model import Need
from sitegen.problems import Problem, found
from sitegen.study.body.movement import movement_of
from sitegen.study.body.reaching import TOUCHED
from sitegen.study.demand_words import reader_for
from sitegen.study.forms import Form

_HOLD = {
    "en": re.compile(
        r"\b(?:hands?|fingertips?|palms?|forearms?|fists?) (?:is |are |rests? |lightly |light |stays? )*"
        r"(?:on|along|near|on to)\b|\bhold(?:s|ing)? (?:on|the (?:chair|rail|counter))\b|\brail\b|\bcounter\b"
        r"|\bhand glides\b|\bfeet (?:stay )?(?:\w+ and )?planted\b",
        re.I,
    )
}
"""Words, by language, for a hand that holds on to something that stands fast, or for feet that stay put."""
_STEPPING = ("locomotion", "step", "lunge")
"""Patterns in which one foot after the other leaves its place."""


def check_promises(material: Material) -> Iterator[Problem]:
    """Advice that says "no" to a demand which the need does not avoid."""
    series = material.series
    reader = reader_for(series.details.language)
    for need in series.details.needs.values():
        kept = {*need.avoids, *need.rather_without}
        for demand, word in reader.denied(need.advice):
            if demand not in kept:
                location = series.details.location_at("needs", need.id, "advice")
                message = f"the advice of {need.name!r} rules out {word!r}, but it does not avoid {demand}"
                advice = f"add {demand} to its avoids:, or word the advice in another way"
                yield found("warning", "promise-not-kept", location, message, advice)


def check_holds(material: Material) -> Iterator[Problem]:
    """A form that steps with nothing to hold, given for a need whose advice promises a hold."""
    series = material.series
    said = _HOLD.get(series.details.language.split("-")[0])
    needs = [need for need in series.details.needs.values() if said and said.search(need.advice)]
    if said is None or not needs:
        return
    told: set[tuple[str, object]] = set()
    for number, need, form in _given(material, needs):
        steps = "standing" in form.demands and form.pattern in _STEPPING
        if steps and not _holds(form, said) and (need.id, form.key) not in told:
            told.add((need.id, form.key))
            location = series.details.location_at("needs", need.id, "advice")
            message = (
                f"the advice of {need.name!r} promises a hold, but it is given {form.name!r}, which steps "
                f"with nothing to hold (episode {number})"
            )
            advice = f"write a form of {form.key.exercise!r} with a hand on something, and for: [{need.id}]"
            yield found("warning", "promise-of-a-hold", location, message, advice)


def _given(material: Material, needs: list[Need]) -> Iterator[tuple[int, Need, Form]]:
    for need in needs:
        for episode in material.series.episodes:
            for versions in material.suitability.session(episode, [need.id]):
                for version in versions:
                    if version is not None:
                        yield episode.number, need, version.form


def _holds(form: Form, said: re.Pattern[str]) -> bool:
    """Whether a hand is drawn on something that stands fast, or the words say that it is."""
    movement = movement_of(form.poses)
    # A hand on something in one pose of the movement is enough: it may let go on the way.
    drawn = movement is not None and any(
        place in TOUCHED for figure in movement.figures for place in figure.pose.hands
    )
    return drawn or any(map(said.search, (*form.cues, form.note)))
