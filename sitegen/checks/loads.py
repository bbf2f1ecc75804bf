"""Warnings about loads that a client cannot measure at home."""

from collections.abc import Iterator, Mapping

from sitegen.checks.material import Material
from sitegen.model import Kit
from sitegen.notation import Load, LoadPart
from sitegen.problems import Problem, found
from sitegen.study.vessels import is_container


def check_mass_in_container(material: Material) -> Iterator[Problem]:
    """A mass in a container whose volume is known: of what it is filled nobody says, and a home has no scales
    for a jug."""
    kit = material.series.details.kit
    for _, block, index, item in material.items():
        if part := next(_unmeasured(item.load, kit), None):
            # One kilogram of water is a litre within half a per cent (see study/load.py).
            message = (
                f"{part} in {kit[part.piece or ''].name!r} does not say of what, and clients measure litres"
            )
            advice = f"write for example {part.quantity.base:.2g} l water, or how many litres of sand"
            yield found("warning", "load-of-what", block.item_location(index, "load"), message, advice)


def _unmeasured(load: Load | None, kit: Mapping[str, Kit]) -> Iterator[LoadPart]:
    for one in (load.sets or (load,)) if load else ():
        for part in one.parts:
            piece = kit.get(part.piece or "")
            if piece is not None and is_container(piece) and part.quantity.kind == "mass":
                yield part
