"""Shapes: what a value in a content file may be, how it is read, and its JSON Schema.

A shape reads a node into a value and reports every problem at its place; it never raises.
Where a value is unusable it returns :data:`BAD`, and whatever contains it becomes bad too,
so that one run reports the problems of a whole file.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from enum import Enum
from functools import lru_cache
from typing import Any, ClassVar, Final

from sitegen.notation import NotationError
from sitegen.problems import Problem
from sitegen.reading.source import MappingNode, Node, ScalarNode, SequenceNode, is_null, place


class _Bad(Enum):
    BAD = "bad"


BAD: Final = _Bad.BAD
"""Stands for a value that could not be read; None is a legal value."""

Path = tuple[str | int, ...]


class Wrong(Exception):
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
    problems: list[Problem] = field(default_factory=list)

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
        self.problems.append(
            Problem(
                severity=severity,
                check=check,
                file=self.file,
                line=line,
                column=column,
                message=message,
                advice=advice,
            )
        )


class Shape:
    """What a value may be."""

    says = "a value"
    """How messages name it."""

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        """The value of ``node``, or BAD with a problem reported."""
        raise NotImplementedError

    def schema(self) -> dict[str, Any]:
        """Its JSON Schema (2020-12)."""
        raise NotImplementedError


class Scalar(Shape):
    """A shape written as one word or text; subclasses parse the characters."""

    def parse(self, text: str) -> Any:
        """The value of the characters. Raises NotationError."""
        raise NotImplementedError

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        if not isinstance(node, ScalarNode):
            kind = "a list" if isinstance(node, SequenceNode) else "a record"
            reading.report(
                node, "wrong-kind", f"{_name(path)} is {kind}, not {self.says}", f"write {self.says}"
            )
            return BAD
        if node.tag != "text":
            reading.report(node, "tag", f"{_name(path)} has a YAML tag ({node.tag})", "remove the tag")
            return BAD
        try:
            return self.parse(node.value)
        except NotationError as error:
            reading.report(node, "malformed", f"{_name(path)}: {error.what}", error.instead)
            return BAD


class Short(Scalar):
    """A short form of the notation package, such as a dose."""

    def __init__(
        self, says: str, parse: Callable[[str], Any], pattern_example: str, *, number: bool = False
    ) -> None:
        self.says = says
        # Doses and rests repeat over a series; the parsed values are immutable.
        self.parse = lru_cache(maxsize=4096)(parse)  # type: ignore[method-assign]
        self._example = pattern_example
        self._number = number

    def schema(self) -> dict[str, Any]:
        kinds = ["string", "integer"] if self._number else "string"
        return {"type": kinds, "description": self.says, "examples": [self._example]}


class Whole(Scalar):
    """A whole number within bounds."""

    def __init__(self, least: int, most: int) -> None:
        self.least, self.most = least, most
        self.says = f"a whole number from {least} to {most}"

    def parse(self, text: str) -> int:
        if not text.strip().isdecimal() or not self.least <= int(text) <= self.most:
            raise NotationError(f"{text!r} is not {self.says}", f"write {self.says}")
        return int(text)

    def schema(self) -> dict[str, Any]:
        return {"type": "integer", "minimum": self.least, "maximum": self.most}


class Decimal(Scalar):
    """A number within bounds."""

    def __init__(self, least: float, most: float) -> None:
        self.least, self.most = least, most
        self.says = f"a number from {least:g} to {most:g}"

    def parse(self, text: str) -> float:
        try:
            value = float(text)
        except ValueError:
            value = float("nan")
        if not self.least <= value <= self.most:
            raise NotationError(f"{text!r} is not {self.says}", f"write {self.says}")
        return value

    def schema(self) -> dict[str, Any]:
        return {"type": "number", "minimum": self.least, "maximum": self.most}


class Flag(Scalar):
    """Yes or no."""

    says = "true or false"
    _words: ClassVar = {"true": True, "yes": True, "false": False, "no": False}

    def parse(self, text: str) -> bool:
        if text.strip().lower() not in self._words:
            raise NotationError(f"{text!r} is neither true nor false", "write true or false")
        return self._words[text.strip().lower()]

    def schema(self) -> dict[str, Any]:
        return {"type": "boolean"}


class Choice(Scalar):
    """One of a set of words; the nearest is suggested."""

    def __init__(self, says: str, words: tuple[str, ...]) -> None:
        self.says = f"one of {', '.join(words)}" if len(words) < 9 else says
        self.words = words
        self._what = says
        self._known = frozenset(words)

    def parse(self, text: str) -> str:
        if text in self._known:
            return text
        near = nearest(text, self.words)
        advice = f"did you mean {near!r}?" if near else f"write one of {', '.join(self.words)}"
        raise NotationError(f"{text!r} is not {self._what}", advice)

    def schema(self) -> dict[str, Any]:
        return {"enum": list(self.words)}


class ListOf(Shape):
    """A list; a single value may stand for a list of one."""

    def __init__(self, inner: Shape, *, least: int = 0, most: int = 1000) -> None:
        self.inner, self.least, self.most = inner, least, most
        self.says = f"a list of {inner.says}"

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        if isinstance(node, ScalarNode) and is_null(node):
            nodes = []
        elif isinstance(node, SequenceNode):
            nodes = node.value
        else:
            value = self.inner.read(node, reading, path)
            return BAD if value is BAD else (value,)
        if not self.least <= len(nodes) <= self.most:
            reading.report(node, "wrong-number", f"{_name(path)} has {len(nodes)} entries", self._bounds())
            return BAD
        inner = self.inner
        values = [inner.read(child, reading, (*path, index)) for index, child in enumerate(nodes)]
        return BAD if BAD in values else tuple(values)

    def _bounds(self) -> str:
        return f"write at least {self.least} and at most {self.most}"

    def schema(self) -> dict[str, Any]:
        inner = self.inner.schema()
        return {"anyOf": [{"type": "array", "items": inner, "minItems": self.least}, inner]}


class MapOf(Shape):
    """A record whose keys are the trainer's own."""

    def __init__(self, key: Scalar, inner: Shape) -> None:
        self.key, self.inner = key, inner
        self.says = f"a record of {inner.says}"

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        if isinstance(node, ScalarNode) and is_null(node):
            return {}
        if not isinstance(node, MappingNode):
            reading.report(
                node, "wrong-kind", f"{_name(path)} is not a record", "write lines of the form key: value"
            )
            return BAD
        values: dict[Any, Any] = {}
        good = True
        for key_node, value_node in node.value:
            key = self.key.read(key_node, reading, path)
            if key in values:
                _report_duplicate(key_node, reading)
                good = False
                continue
            value = self.inner.read(value_node, reading, (*path, key_node.value))
            good = good and key is not BAD and value is not BAD
            values[key] = value
        return values if good else BAD

    def schema(self) -> dict[str, Any]:
        return {"type": "object", "additionalProperties": self.inner.schema()}


@dataclass(frozen=True, slots=True)
class Key:
    """One key of a record."""

    shape: Shape
    required: bool = False
    into: str | None = None
    """Name of the maker's argument where it is not the key itself."""
    help: str = ""


class Record(Shape):
    """A record with known keys, made into an object.

    ``make`` is called with the values of the keys that are written; ``spot_path`` asks for the
    path as well. It may raise :class:`Wrong`.
    """

    def __init__(
        self, says: str, keys: Mapping[str, Key], make: Callable[..., Any], *, wants_path: bool = False
    ) -> None:
        self.says, self.keys, self.make, self.wants_path = says, keys, make, wants_path
        self._required = [name for name, key in keys.items() if key.required]

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        if not isinstance(node, MappingNode):
            advice = f"write keys such as {', '.join(list(self.keys)[:3])}"
            reading.report(node, "wrong-kind", f"{_name(path)} is not a record ({self.says})", advice)
            return BAD
        nodes = self._pair_up(node, reading)
        if nodes is None:
            return BAD
        keys, good, values = self.keys, True, {}
        for name, value_node in nodes.items():
            key = keys[name]
            if (
                isinstance(value_node, ScalarNode)
                and is_null(value_node)
                and not isinstance(key.shape, ListOf | MapOf)
            ):
                if key.required:
                    reading.report(value_node, "empty-value", f"{name!r} is empty", f"write {key.shape.says}")
                    good = False
                continue
            value = key.shape.read(value_node, reading, (*path, name))
            if value is BAD:
                good = False
            else:
                values[key.into or name] = value
        return self._made(values, node, nodes, reading, path) if good else BAD

    def _pair_up(self, node: Node, reading: Reading) -> dict[str, Node] | None:
        """Value nodes by key; None where keys are unknown, twice there or missing."""
        nodes: dict[str, Node] = {}
        good = True
        for key_node, value_node in node.value:
            name = key_node.value if isinstance(key_node, ScalarNode) else ""
            if name in nodes:
                _report_duplicate(key_node, reading)
                good = False
            elif name not in self.keys:
                _report_unknown(key_node, name, self, reading)
                good = False
            else:
                nodes[name] = value_node
        for name in self._required:
            if name not in nodes:
                advice = f"add {name}: with {self.keys[name].shape.says}"
                reading.report(node, "missing-key", f"{name!r} is missing in {self.says}", advice)
                good = False
        # Unknown keys do not stop the known ones from being checked.
        if not good:
            for name, value_node in nodes.items():
                self.keys[name].shape.read(value_node, reading, (name,))
            return None
        return nodes

    def _made(
        self, values: dict[str, Any], node: Node, nodes: dict[str, Node], reading: Reading, path: Path
    ) -> Any:
        try:
            return self.make(**values, path=path) if self.wants_path else self.make(**values)
        except Wrong as wrong:
            at = nodes.get(wrong.key, node) if wrong.key else node
            reading.report(at, wrong.check, wrong.message, wrong.advice)
            return BAD

    def schema(self) -> dict[str, Any]:
        properties = {
            name: key.shape.schema() | ({"description": key.help} if key.help else {})
            for name, key in self.keys.items()
        }
        return {
            "type": "object",
            "properties": properties,
            "required": self._required,
            "additionalProperties": False,
        }


class Either(Shape):
    """A text, or a record where there is more to say."""

    def __init__(self, text: Scalar, record: Record, wrap: Callable[[Any], Any]) -> None:
        self.text, self.record, self.wrap = text, record, wrap
        self.says = f"{text.says} or {record.says}"

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        if isinstance(node, ScalarNode):
            value = self.text.read(node, reading, path)
            return BAD if value is BAD else self.wrap(value)
        return self.record.read(node, reading, path)

    def schema(self) -> dict[str, Any]:
        return {"anyOf": [self.text.schema(), self.record.schema()]}


def nearest(word: str, words: Any) -> str | None:
    """The known word most like ``word``, or None where none is near."""
    close = get_close_matches(word.lower(), list(words), n=1, cutoff=0.6)
    return close[0] if close else None


def _name(path: Path) -> str:
    """How messages name the value at a path: its last key, with its number in a list."""
    key = next((step for step in reversed(path) if isinstance(step, str)), None)
    if key is None:
        return "the file" if not path else f"entry {int(path[-1]) + 1}"
    return f"{key!r} entry {path[-1] + 1}" if path and isinstance(path[-1], int) else repr(key)


def _report_duplicate(key_node: Node, reading: Reading) -> None:
    advice = "keep one of the two"
    reading.report(key_node, "duplicate-key", f"the key {key_node.value!r} is there twice", advice)


def _report_unknown(key_node: Node, name: str, record: Record, reading: Reading) -> None:
    near = nearest(name, record.keys)
    advice = f"did you mean {near!r}?" if near else f"known keys: {', '.join(record.keys)}"
    reading.report(key_node, "unknown-key", f"{name!r} is not a key of {record.says}", advice)
