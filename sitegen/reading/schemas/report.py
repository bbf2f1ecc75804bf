"""What reading a file collects: problems at their places, and the value that stands for none."""

from dataclasses import dataclass, field
from enum import Enum
from typing import Final

from sitegen.problems import Problem, in_file
from sitegen.reading.source import Node, ScalarNode, place
from sitegen.reading.textfile import text_lines


class _Bad(Enum):
    BAD = "bad"


BAD: Final = _Bad.BAD
"""Stands for a value that could not be read; None is a legal value."""

Path = tuple[str | int, ...]

_MOST_SUGGESTIONS = 50
"""Most nearest words looked for in one file: a file of strangers is no list of slips."""


class FieldsDisagree(Exception):
    """Raised by a record's maker: its fields do not go together.

    ``key`` names the field the message is about (None: the whole record).
    """

    def __init__(self, key: str | None, check: str, message: str, advice: str = "") -> None:
        super().__init__(message)
        self.key, self.check, self.message, self.advice = key, check, message, advice


@dataclass(slots=True)
class Reading:
    """The file being read and what was found in it."""

    file: str
    data: bytes = b""
    """The file's bytes: what stands behind a value, such as a comment, is looked up in them."""
    problems: list[Problem] = field(default_factory=list)
    habits: list[tuple[Path, ScalarNode, str]] = field(default_factory=list)
    """Values that are written by habit: their path, node and documented form."""
    spellings: bool = False
    """Count among the habits also what is read as it stands and only spelled otherwise: ``30secs``."""
    lenient: bool = False
    """Leave out what is wrong and read the rest: for a second look, whose problems are told already."""
    references: list[tuple[str, Path, str]] = field(default_factory=list)
    """Ids of what is written elsewhere: of what kind, their path, the id."""
    _lines: list[str] | None = None
    _suggested: int = 0

    def report(
        self, node: Node, check: str, message: str, advice: str = "", *, severity: str = "problem"
    ) -> None:
        """Note a problem at the place of ``node``."""
        line, column = place(node)
        self.report_at(line, column, check, message, advice, severity=severity)

    def report_at(
        self, line: int, column: int, check: str, message: str, advice: str = "", *, severity: str = "problem"
    ) -> None:
        """Note a problem at a line and column."""
        self.problems.append(in_file(check, self.file, message, advice, line, column, severity=severity))

    def behind(self, node: Node) -> str:
        """What the line holds behind a value; nothing where the file's text is not at hand."""
        if self._lines is None:
            self._lines = text_lines(self.data)
        mark = node.end_mark
        return self._lines[mark.line][mark.column :] if mark.line < len(self._lines) else ""

    def may_suggest(self) -> bool:
        """True for the first slips of a file; looking for near words costs time."""
        self._suggested += 1
        return self._suggested <= _MOST_SUGGESTIONS


def name_of(path: Path) -> str:
    """How messages name the value at a path: its last key, with its number in a list."""
    key = next((step for step in reversed(path) if isinstance(step, str)), None)
    if key is None:
        return "the file" if not path else f"entry {int(path[-1]) + 1}"
    return f"{key!r} entry {path[-1] + 1}" if path and isinstance(path[-1], int) else repr(key)
