"""Warnings about amounts far beyond what is usual, such as a digit too many, and about sets to failure."""

from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.problems import Location, Problem, found
from sitegen.study.unusual_amounts import (
    UnusualAmount,
    unusual_in_block,
    unusual_in_dose_and_load,
    unusual_in_item,
)


def check_unusual_amounts(material: Material) -> Iterator[Problem]:
    """Amounts of sessions, shared blocks and forms that go far beyond what is usual at home."""
    for location, amount in _all(material):
        advice = f"{amount.advice}, or silence: {{{amount.check}: the reason}}"
        yield found("warning", amount.check, location.at(*amount.keys), amount.message, advice)


def _all(material: Material) -> Iterator[tuple[Location, UnusualAmount]]:
    for episode in material.series.sessions:
        for place, block in enumerate(episode.blocks):
            for amount in unusual_in_block(block):  # a session may give a shared block other sets and rests
                yield episode.location.at("blocks", place), amount
    for _, block, index, item in material.items():
        for amount in unusual_in_item(item):
            yield block.item_location(index), amount
    for exercise in material.series.exercises.values():
        for variant in exercise.variants:
            dose = variant.dose.dose if variant.dose is not None else None
            for amount in unusual_in_dose_and_load(dose, None):
                yield variant.location, amount
