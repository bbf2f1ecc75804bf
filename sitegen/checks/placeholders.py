"""Warnings about what waits to be replaced: texts and session of the starter series, and a dose of one."""

from collections.abc import Iterator
from functools import cache
from typing import Any

from sitegen.checks.material import Material
from sitegen.model import Details, Episode, Series
from sitegen.problems import Problem, found
from sitegen.reading.files import digest_of_file
from sitegen.resources import starter_folder

_STARTER_TEXTS = (
    ("title",),
    ("summary",),
    ("address",),
    ("trainer", "name"),
    ("trainer", "about"),
)
"""Keys of series.yaml whose text in the starter series says nothing of anybody's own series."""
_MOST_SHOWN = 40
"""Characters of such a text in a message: what fits behind the place in a line of a terminal."""


def check_starter_texts(material: Material) -> Iterator[Problem]:
    """Texts of the starter series that nobody has replaced; they are never published."""
    details = material.series.details
    starter = starter_values()
    for path in _STARTER_TEXTS:
        text = _value(details, path)
        # The address is read with a slash at its end, whether one is written or not.
        if text and text.rstrip("/") == str(_value(starter, path)).rstrip("/"):
            short = text if len(text) <= _MOST_SHOWN else f"{text[: _MOST_SHOWN - 1]}…"
            message = f"{'.'.join(path)} is still the text of the starter series: {short!r}"
            yield found("warning", "placeholder", details.location.at(*path), message, "write your own")


def check_starter_sessions(material: Material) -> Iterator[Problem]:
    """The example session that ``sitegen begin`` writes, as long as nobody has changed a letter of it."""
    for episode in material.series.sessions:
        if is_example(material.series, episode):
            message = f"{episode.title!r} is still the example session of the starter series"
            advice = "make it your own, or delete the file"
            yield found("warning", "placeholder", episode.location, message, advice)


def is_example(series: Series, episode: Episode) -> bool:
    """Whether a session is the starter's, byte for byte."""
    return series.digests.get(episode.location.file) in _starter_sessions()


def check_dose_of_one(material: Material) -> Iterator[Problem]:
    """A dose of one repetition, which a draft writes where it heard none."""
    for _, block, index, item in material.items():
        if item.dose is not None and str(item.dose) == "1":
            location = block.item_location(index, "dose")
            message = f"{item.exercise!r} has a dose of one repetition: is that what is meant?"
            advice = "write the dose that is done, or silence: {dose-of-one: the reason}"
            yield found("warning", "dose-of-one", location, message, advice)


@cache
def starter_values() -> dict[str, Any]:
    """What series.yaml of the starter series says."""
    import yaml

    text = (starter_folder() / "series.yaml").read_text(encoding="utf-8")
    values: dict[str, Any] = yaml.safe_load(text)
    return values


@cache
def _starter_sessions() -> frozenset[str]:
    return frozenset(digest_of_file(path) for path in (starter_folder() / "episodes").iterdir())


def _value(of: Details | dict[str, Any], path: tuple[str, ...]) -> str:
    value: Any = of
    for step in path:
        value = value.get(step, "") if isinstance(value, dict) else getattr(value, step)
    return str(value).strip()
