"""What every shape can do: read a node into a value, and give its JSON Schema.

A shape reports every problem at its place and never raises. Where a value is unusable it returns
:data:`~sitegen.reading.schemas.report.BAD`, and whatever contains it becomes bad too, so that one run
reports the problems of a whole file.
"""

from typing import Any

from sitegen.reading.schemas.report import Path, Reading
from sitegen.reading.source import Node


class Shape:
    """What a value may be."""

    says = "a value"
    """How messages name it."""
    reads_nothing = False
    """Whether it is asked about a key with nothing behind it; otherwise that is as good as no key."""

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        """The value of ``node``, or BAD with a problem reported."""
        raise NotImplementedError

    def schema(self) -> dict[str, Any]:
        """Its JSON Schema (2020-12)."""
        raise NotImplementedError
