"""Warnings about one thing under two names."""

import re
import unicodedata
from collections.abc import Iterable, Iterator
from difflib import SequenceMatcher
from itertools import combinations
from typing import NamedTuple

from sitegen.checks.material import Material
from sitegen.model import Exercise, Series
from sitegen.problems import Location, Problem, found
from sitegen.vocabulary import MUSCLE_REGIONS

_SMALL_WORDS = frozenset(["a", "an", "the", "with", "on", "in", "of", "for", "at", "to", "from", "and"])
_ALIKE = 0.85
"""Share of letters in common from which two words count as two spellings (tried on the known muscles,
of which no two are so near)."""


class _Named(NamedTuple):
    """A name, and what is called so."""

    name: str
    exercise: Exercise
    rank: int
    """0 for the name of an exercise, 1 for another name of it, 2 for a variant's."""
    location: Location


def check_same_names(material: Material) -> Iterator[Problem]:
    """An exercise that is in the library twice, or that is also written as a variant of another."""
    groups: dict[tuple[str, ...], list[_Named]] = {}
    for named in _names(material.series):
        groups.setdefault(name_key(named.name), []).append(named)
    for group in groups.values():
        yield from _same_name(group)


def check_file_numbers(material: Material) -> Iterator[Problem]:
    """An episode whose file's name begins with another number than the one it states."""
    for episode in material.series.sessions:
        begins = re.match(r"(?:.*/)?(\d+)-", episode.location.file)  # of an episode: 03-steady-pull.yaml
        if begins and int(begins[1]) != episode.number:
            message = f"the file's name begins with {begins[1]}, but the number is {episode.number}"
            advice = "the number in the file counts; rename the file, or correct number:"
            yield found("warning", "file-number", episode.location.at("number"), message, advice)


def _names(series: Series) -> Iterator[_Named]:
    for exercise in series.exercises.values():
        yield _Named(exercise.name, exercise, 0, exercise.location.at("name"))
        for index, name in enumerate(exercise.also):
            yield _Named(name, exercise, 1, exercise.location.at("also", index))
        for variant in exercise.variants:
            if variant.exercise is None:
                yield _Named(variant.name, exercise, 2, variant.location)


def _same_name(group: list[_Named]) -> Iterator[Problem]:
    first = min(group, key=lambda one: one.rank)
    for other in group:
        if other.exercise is first.exercise or first.rank == 2:
            continue
        message = f"{other.name!r} is also the exercise {first.exercise.id!r} ({first.name!r})"
        advice = (
            f"write exercise: {first.exercise.id} in this variant"
            if other.rank == 2
            else "join the two exercises"
        )
        yield found(
            "warning", "same-exercise", other.location, message, f"{advice}, or give one another name"
        )


def check_same_content(material: Material) -> Iterator[Problem]:
    """Two exercises alike in movement, muscles, kit and demands that also share a cue."""
    seen: dict[tuple[object, ...], Exercise] = {}
    for exercise in material.series.exercises.values():
        muscles, kit, demands = (
            frozenset(some) for some in (exercise.muscles.prime, exercise.kit, exercise.demands)
        )
        for cue in exercise.cues:
            first = seen.setdefault((exercise.pattern, muscles, kit, demands, name_key(cue)), exercise)
            if first is not exercise:
                message = f"{exercise.name!r} and {first.name!r} look like one exercise; both say {cue!r}"
                file = first.location.file
                advice = f"join them, with one of the names under also:, or make it a variant in {file}"
                yield found("warning", "same-exercise", exercise.location.at("name"), message, advice)
                break


def check_spellings(material: Material) -> Iterator[Problem]:
    """A muscle or a piece of kit of the series that looks like another one spelt differently."""
    details = material.series.details
    for own, other in _pairs(details.muscles, MUSCLE_REGIONS):
        message = f"the muscle {own!r} looks like {other!r} in another spelling"
        yield found(
            "warning", "two-spellings", details.location_at("muscles", own), message, f"use {other!r} only"
        )
    kit = {piece.name: piece.id for piece in details.kit.values()}
    for own, other in _pairs(kit, ()):
        message = f"the kit {own!r} looks like {other!r} in another spelling"
        location = details.location_at("kit", kit[own], "name")
        yield found("warning", "two-spellings", location, message, "keep one of them")


def _pairs(own: Iterable[str], known: Iterable[str]) -> Iterator[tuple[str, str]]:
    """Each of a series' own words that is near to a known one, or to one of its own before it."""
    words = list(own)
    for word in words:
        near = next((other for other in known if spelt_alike(word, other)), None)
        if near is not None:
            yield word, near
    yield from ((later, earlier) for earlier, later in combinations(words, 2) if spelt_alike(earlier, later))


def spelt_alike(one: str, other: str) -> bool:
    """Whether two names may be one, misspelt: but for spaces and signs they have nearly the same letters."""
    keys = ["".join(_words(word)) for word in (one, other)]
    return keys[0] == keys[1] or SequenceMatcher(a=keys[0], b=keys[1], autojunk=False).ratio() >= _ALIKE


def name_key(name: str) -> tuple[str, ...]:
    """The words of a name without regard to accents, small words, plurals and order: ``wall push-ups``
    is ``push-up on the wall``."""
    return tuple(sorted(_words(name)))


def _words(name: str) -> list[str]:
    # NFKD parts a letter from its accent, which is then left out.
    plain = unicodedata.normalize("NFKD", name.casefold())
    words = re.findall(r"\w+", "".join(letter for letter in plain if not unicodedata.combining(letter)))
    return [_singular(word) for word in words if word not in _SMALL_WORDS] or words


def _singular(word: str) -> str:
    # Words that end in s in the singular as well (press, focus, basis), and what is too short to be a plural.
    if len(word) < 3 or not word.endswith("s") or word.endswith(("ss", "us", "is")):
        return word
    return word[:-2] if word.endswith(("sses", "xes", "ches", "shes")) else word[:-1]
