"""The shape of what every set has, or of a list with what each set has: doses, and loads."""

from collections.abc import Callable
from typing import Any

from sitegen.notation import NotationError
from sitegen.reading.schemas.report import BAD, Path, Reading, name_of
from sitegen.reading.schemas.shape import Shape
from sitegen.reading.source import Node, SequenceNode

_MOST_SETS = 20
"""Sets in a list, one value each: nobody does more of one exercise in a session (our choice)."""


class SetBySet(Shape):
    """A value such as ``8-12``, or one for each set: ``[12, 10, 8]``."""

    def __init__(self, one: Shape, joined: Callable[[list[Any]], Any], example: str) -> None:
        """``joined`` makes one value of those of the sets. It may raise NotationError."""
        self.one, self.joined, self.example = one, joined, example
        self.says = one.says

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        if not isinstance(node, SequenceNode):
            return self.one.read(node, reading, path)
        if not 1 <= len(node.value) <= _MOST_SETS:
            message, advice = (
                f"{name_of(path)} has {len(node.value)} entries",
                f"write one for each set, {self.example}",
            )
            reading.report(node, "wrong-number", message, advice)
            return BAD
        values = [self.one.read(child, reading, (*path, index)) for index, child in enumerate(node.value)]
        if BAD in values:
            return BAD
        try:
            return self.joined(values)
        except NotationError as error:
            reading.report(node, "malformed", f"{name_of(path)}: {error.what}", error.instead)
            return BAD

    def schema(self) -> dict[str, Any]:
        one = self.one.schema()
        return {"anyOf": [one, {"type": "array", "items": one, "minItems": 1, "maxItems": _MOST_SETS}]}
