"""Warnings about a line beside an exercise that names a reason to stop and does not say to stop.

The pages say what to do with such a sign: sit down, train no more today, ask a doctor before the next
session. A client follows the line that stands beside what she is doing, so that line must not send her on in
an easier form.
"""

import re
from collections.abc import Iterator
from typing import NamedTuple

from sitegen.checks.material import Material
from sitegen.model import Block, Episode, Exercise, Variant
from sitegen.problems import Location, Problem, found

_SIGNS = {
    "dizziness": r"dizz|\bfaint|light-?headed|giddy",
    "pain in the chest": r"chest pain|(?:pain|pressure|tightness) in (?:the|your) chest",
    "breathlessness": r"breathless|short of breath",
    "numbness or tingling": r"\bnumb(?:ness)?\b|tingl|pins and needles",
    "a heart that stumbles or races": r"heart (?:stumbles|races|skips|flutters)|palpitation",
    "a joint that gives way": r"(?:joint|knee|hip|ankle|shoulder|leg)s? gives? way",
}
"""The signs of common lists of reasons to stop, as trainers write them (common practice, no source). A series
may name others; these are the ones that an easier form of an exercise is likely to be offered for."""

_HEEDED = re.compile(
    r"\bstop\b|\bcall\b|\bask\b.*\b(?:first|before)\b|\b(?:first|before)\b.*\bask\b"
    r"|\b(?:doctor|physiotherapist|midwife)\b.*\b(?:first|before)\b",
    re.I | re.S,
)
"""Says to stop, or who has to be asked before one goes on. To talk to a doctor some time is not enough."""


class _Line(NamedTuple):
    """A text that is shown by itself beside an exercise."""

    text: str
    location: Location


def check_stop_signs(material: Material) -> Iterator[Problem]:
    """A caution (long or short), a cue or a note that names such a sign without saying to stop."""
    for line in _lines(material):
        sign = next((name for name, said in _SIGNS.items() if re.search(said, line.text, re.I)), "")
        if sign and not _HEEDED.search(line.text):
            message = f"this line speaks of {sign}, a reason to stop, and does not say to stop"
            advice = (
                "say what comes first: stop, sit down, and ask the doctor before the next session; an easier "
                "form is for whoever knows beforehand, never for going on"
            )
            yield found("warning", "goes-on", line.location, message, advice)


def _lines(material: Material) -> Iterator[_Line]:
    exercises = material.series.exercises.values()
    variants = [variant for exercise in exercises for variant in exercise.variants]
    owners: list[Exercise | Variant | Episode] = [*exercises, *variants, *material.series.sessions]
    forms: list[Exercise | Variant] = [*exercises, *variants]
    noted: list[Variant | Block] = [*variants, *(b for e in material.series.sessions for b in e.blocks)]
    for owner in owners:
        for index, caution in enumerate(owner.cautions):
            yield _Line(caution.text, owner.location.at("cautions", index))
            yield _Line(caution.short, owner.location.at("cautions", index, "short"))
    for form in forms:
        for index, cue in enumerate(form.cues):
            yield _Line(cue, form.location.at("cues", index))
    for one in noted:
        yield _Line(one.note, one.location.at("note"))
    for _, block, index, item in material.items():
        yield _Line(item.note, block.item_location(index, "note"))
