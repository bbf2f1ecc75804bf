"""Warnings about amounts that are likely to be a slip, such as a digit too many, and sets to failure."""

from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.model import Episode, Exercise
from sitegen.problems import Location, Problem, found
from sitegen.study.slips import Slip, slips_of_amounts, slips_of_block, slips_of_item


def check_slips(material: Material) -> Iterator[Problem]:
    """Amounts of sessions, shared blocks and forms that go far beyond what is usual at home."""
    told: set[tuple[Location, str]] = set()
    for location, slip in _all(material):
        if (location, slip.message) not in told:  # what several sessions share is told once
            told.add((location, slip.message))
            advice = f"{slip.advice}, or silence: {{{slip.check}: the reason}}"
            yield found("warning", slip.check, location, slip.message, advice)


def _all(material: Material) -> Iterator[tuple[Location, Slip]]:
    for episode in material.series.sessions:
        yield from _of_episode(episode)
    for exercise in material.series.exercises.values():
        yield from _of_exercise(exercise)


def _of_episode(episode: Episode) -> Iterator[tuple[Location, Slip]]:
    for place, block in enumerate(episode.blocks):
        for slip in slips_of_block(block):  # a session may give a shared block other sets and rests
            yield episode.location.at("blocks", place, *slip.keys), slip
        for index, item in enumerate(block.items):
            for slip in slips_of_item(item):
                yield block.item_location(index, *slip.keys), slip


def _of_exercise(exercise: Exercise) -> Iterator[tuple[Location, Slip]]:
    """The doses that its forms have of their own."""
    for variant in exercise.variants:
        dose = variant.dose.dose if variant.dose is not None else None
        for slip in slips_of_amounts(dose, None):
            yield variant.location.at(*slip.keys), slip
