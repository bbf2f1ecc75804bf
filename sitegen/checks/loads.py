"""Warnings about loads that a client cannot measure at home."""

from collections.abc import Iterator, Mapping

from sitegen.checks.material import Material
from sitegen.model import Kit
from sitegen.notation import Load, LoadPart
from sitegen.problems import Location, Problem, found
from sitegen.study.vessels import is_container


def check_mass_in_container(material: Material) -> Iterator[Problem]:
    """A mass in a container whose volume is known: of what it is filled nobody says, and a home has no scales
    for a jug."""
    kit = material.series.details.kit
    told: set[Location] = set()
    for episode in material.series.sessions:
        for block in episode.blocks:
            for index, item in enumerate(block.items):
                location = block.item_location(index, "load")
                for part in _unmeasured(item.load, kit):
                    if location not in told:
                        told.add(location)
                        yield _unsaid(part, kit[part.piece or ""], location)


def _unmeasured(load: Load | None, kit: Mapping[str, Kit]) -> Iterator[LoadPart]:
    for one in (load.sets or (load,)) if load else ():
        for part in one.parts:
            piece = kit.get(part.piece or "")
            if piece is not None and is_container(piece) and part.quantity.kind == "mass":
                yield part


def _unsaid(part: LoadPart, piece: Kit, location: Location) -> Problem:
    # One kilogram of water is a litre within half a per cent (see study/load.py).
    message = f"{part} in {piece.name!r} does not say of what, and clients measure litres"
    advice = f"write for example {part.quantity.base:.2g} l water, or how many litres of sand"
    return found("warning", "load-of-what", location, message, advice)
