"""Warnings about a series that does not tell its clients when to stop, and what number to call then."""

from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.checks.placeholders import starter_values
from sitegen.problems import Problem, found

_KEYS = {
    "call_if": "with what signs clients stop and call for help",
    "stop_if": "with what signs clients stop and rest",
}
"""The lists of series.yaml that pages and sheets show, and what is missing without them."""


def check_when_to_stop(material: Material) -> Iterator[Problem]:
    """Lists of reasons to stop that are not there. Without either of them nothing is published."""
    details = material.series.details
    missing = [key for key in _KEYS if not getattr(details, key)]
    if len(missing) == len(_KEYS):
        message = "nothing tells clients when to stop: no page and no sheet has a sign to stop with"
        yield found("warning", "never-stop", details.location, message, _lists(missing))
    else:
        for key in missing:
            message = f"nothing says {_KEYS[key]}"
            yield found("warning", "stop-unsaid", details.location, message, _lists([key]))


def check_ask_first(material: Material) -> Iterator[Problem]:
    """A series without a word on what to take care of, and on who has to ask before the first session."""
    details = material.series.details
    if not details.cautions:
        message = "nothing tells clients whom to ask before they start, and what to take care of"
        advice = f"write cautions: with a sentence such as {starter_values()['cautions'][0]!r}"
        yield found("warning", "caution-unsaid", details.location, message, advice)


def check_emergency_number(material: Material) -> Iterator[Problem]:
    """Which number clients call in an emergency: it differs by country, so nobody but the trainer knows."""
    details = material.series.details
    if not details.emergency_number:
        message = "nothing says which number clients call in an emergency"
        advice = 'write emergency_number: "112", or what your clients dial where they live'
        yield found("warning", "no-emergency-number", details.location, message, advice)


def _lists(keys: list[str]) -> str:
    """What to write: the lists of the starter series."""
    lists = " and ".join(f"{key}: [{', '.join(starter_values()[key])}]" for key in keys)
    return f"write {lists}, as the starter series has it, and what else your clients should look out for"
