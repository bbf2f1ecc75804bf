"""The shape of an item's dose: one for every set, or a list with the dose of each set."""

from typing import Any

from sitegen.notation import Dose, NotationError
from sitegen.reading.schemas.report import BAD, Path, Reading
from sitegen.reading.schemas.scalars import Short
from sitegen.reading.schemas.shape import Shape
from sitegen.reading.source import Node, SequenceNode

_MOST_SETS = 20
"""Sets in a list, one dose each: nobody does more of one exercise in a session (our choice)."""


class DoseOfSets(Shape):
    """A dose such as ``8-12``, or one for each set: ``[12, 10, 8]``."""

    def __init__(self, dose: Short) -> None:
        self.dose = dose
        self.says = dose.says

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        if not isinstance(node, SequenceNode):
            return self.dose.read(node, reading, path)
        if not 1 <= len(node.value) <= _MOST_SETS:
            message = f"'dose' has {len(node.value)} entries"
            reading.report(node, "wrong-number", message, "write one dose for each set, such as [12, 10, 8]")
            return BAD
        doses = [self.dose.read(child, reading, (*path, index)) for index, child in enumerate(node.value)]
        if BAD in doses:
            return BAD
        try:
            return Dose.of_sets(doses)
        except NotationError as error:
            reading.report(node, "malformed", f"'dose': {error.what}", error.instead)
            return BAD

    def schema(self) -> dict[str, Any]:
        one = self.dose.schema()
        return {"anyOf": [one, {"type": "array", "items": one, "minItems": 1, "maxItems": _MOST_SETS}]}
