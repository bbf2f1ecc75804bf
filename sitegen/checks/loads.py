"""Warnings about loads that a client cannot measure, or of which nobody knows whether they are any."""

from collections.abc import Iterator, Mapping

from sitegen.checks.material import Material
from sitegen.model import Kit
from sitegen.notation import Load, LoadPart
from sitegen.problems import Problem, found
from sitegen.study.untold_loads import untold_load, untold_loads
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


def check_untold_loads(material: Material) -> Iterator[Problem]:
    """A piece of kit that may be a load, where a need limits what is held."""
    details = material.series.details
    limited = [
        need.name
        for need in details.needs.values()
        if (need.limits.load, need.limits.load_share) != (None, None)
    ]
    for piece in untold_loads(details, material.forms) if limited else ():
        message, advice = untold_load(piece, ", ".join(limited))
        yield found("warning", "untold-load", details.location_at("kit", piece.id), message, advice)


def _unmeasured(load: Load | None, kit: Mapping[str, Kit]) -> Iterator[LoadPart]:
    for one in (load.sets or (load,)) if load else ():
        for part in one.parts:
            piece = kit.get(part.piece or "")
            if piece is not None and is_container(piece) and part.quantity.kind == "mass":
                yield part
