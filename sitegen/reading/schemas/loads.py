"""The shapes of what is held: a load with or without its piece of kit, and what a piece holds."""

from typing import Any

from sitegen.notation import Load, NotationError, Quantity
from sitegen.notation.load import FILLS
from sitegen.reading.schemas.report import BAD, Path, Reading
from sitegen.reading.schemas.scalars import Short
from sitegen.reading.schemas.set_by_set import SetBySet
from sitegen.reading.schemas.shape import Shape
from sitegen.reading.schemas.shapes import MapOf
from sitegen.reading.schemas.shared_scalars import LOAD
from sitegen.reading.schemas.texts import Ident
from sitegen.reading.source import MappingNode, Node


class _Held(Shape):
    """The load of every set, or of one."""

    says = "a load such as 5 l water, or one for each piece such as {bucket: 10 l sand, jug: 4 l water}"

    def __init__(self) -> None:
        self._by_piece = MapOf(Ident(), LOAD)

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        if not isinstance(node, MappingNode):
            return LOAD.read(node, reading, path)
        loads = self._by_piece.read(node, reading, path)
        if loads is BAD:
            return BAD
        try:
            return Load.of_pieces(loads)
        except NotationError as error:
            reading.report(node, "malformed", error.what, error.instead)
            return BAD

    def schema(self) -> dict[str, Any]:
        return {"anyOf": [LOAD.schema(), self._by_piece.schema() | {"minProperties": 1, "maxProperties": 2}]}


HELD = SetBySet(_Held(), Load.of_sets, "such as load: [4 kg, 5 kg]")


def _holds(text: str) -> Quantity:
    """A volume or a mass; what a volume is filled with may be said and does not matter."""
    words, _, last = text.strip().rpartition(" ")
    quantity = Quantity.parse(words if words and last.lower() in FILLS else text)
    if quantity.kind == "length" or quantity.amount == 0:
        raise NotationError(f"{text!r} says nothing of what it holds", _EXAMPLE)
    return quantity


_EXAMPLE = "write 5 l for a container, or 15 kg for a bag"

HOLDS = Short("what it holds, such as 5 l or 15 kg", _holds, "5 l")


def _weighs(text: str) -> Quantity:
    quantity = Quantity.parse(text)
    if quantity.kind != "mass" or quantity.amount == 0:
        raise NotationError(f"{text!r} is not a mass", "write for example 400 g")
    return quantity


WEIGHS = Short("a mass such as 400 g", _weighs, "400 g")
