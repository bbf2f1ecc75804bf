"""Shapes that hold other values: lists, records of known keys, records of the trainer's own keys."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from sitegen.reading.schemas.losses import warn_of_commas
from sitegen.reading.schemas.report import BAD, FieldsDisagree, Path, Reading, name_of
from sitegen.reading.schemas.scalars import Scalar
from sitegen.reading.schemas.shape import Shape
from sitegen.reading.source import MappingNode, Node, ScalarNode, SequenceNode, is_null
from sitegen.reading.suggestions import nearest


class ListOf(Shape):
    """A list; a single value may stand for a list of one. Bounds are far above what anybody writes: they stop
    slips and files made to do harm, as those of texts do."""

    reads_nothing = True

    def __init__(self, inner: Shape, *, least: int = 0, most: int = 1000, sentences: bool = False) -> None:
        """``sentences``: each entry is a sentence, so one that begins in the middle is noticed."""
        self.inner, self.least, self.most, self.sentences = inner, least, most, sentences
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
            advice = f"write at least {self.least} and at most {self.most}"
            reading.report(node, "wrong-number", f"{name_of(path)} has {len(nodes)} entries", advice)
            return BAD
        if self.sentences and isinstance(node, SequenceNode) and bool(node.flow_style):
            warn_of_commas(node, name_of(path), reading)
        inner = self.inner
        values = [inner.read(child, reading, (*path, index)) for index, child in enumerate(nodes)]
        return BAD if BAD in values else tuple(values)

    def schema(self) -> dict[str, Any]:
        inner = self.inner.schema()
        return {"anyOf": [{"type": "array", "items": inner, "minItems": self.least}, inner]}


class MapOf(Shape):
    """A record whose keys are the trainer's own."""

    reads_nothing = True

    def __init__(self, key: Scalar, inner: Shape) -> None:
        self.key, self.inner = key, inner
        self.says = f"a record of {inner.says}"

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        if isinstance(node, ScalarNode) and is_null(node):
            return {}
        if not isinstance(node, MappingNode):
            advice = "write lines of the form key: value"
            reading.report(node, "wrong-kind", f"{name_of(path)} is not a record", advice)
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
            if reading.lenient and BAD in (key, value):
                continue
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


class RecordShape(Shape):
    """A record with known keys, made into an object.

    ``make`` is called with the values of the keys that are written; ``location_path`` asks for the
    path as well. It may raise :class:`FieldsDisagree`.
    """

    def __init__(
        self,
        says: str,
        keys: Mapping[str, Key],
        make: Callable[..., Any],
        *,
        wants_path: bool = False,
        elsewhere: Mapping[str, str] | None = None,
        short: str | None = None,
    ) -> None:
        """``elsewhere`` says for keys that people write here by habit what to write instead; ``short``
        what to write where somebody gave one value instead of the record (``{}`` is the value)."""
        self.says, self.keys, self.make, self.wants_path = says, keys, make, wants_path
        self.elsewhere, self.short = elsewhere or {}, short
        self._required = [name for name, key in keys.items() if key.required]

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        if not isinstance(node, MappingNode):
            advice = f"write keys such as {', '.join(list(self.keys)[:3])}"
            if self.short and isinstance(node, ScalarNode) and not is_null(node):
                advice = f"write {self.short.replace('{}', node.value)}"
            reading.report(node, "wrong-kind", f"{name_of(path)} is not a record ({self.says})", advice)
            return BAD
        nodes = self._pair_up(node, reading, path)
        if nodes is None:
            return BAD
        values = self._values(nodes, reading, path)
        return BAD if values is None else self._made(values, node, nodes, reading, path)

    def fields(self, node: Node, reading: Reading) -> dict[str, Any]:
        """What can be read of the keys of a file, made into nothing; the reading is lenient."""
        nodes = self._pair_up(node, reading, ()) if isinstance(node, MappingNode) else None
        return self._values(nodes or {}, reading, ()) or {}

    def _values(self, nodes: dict[str, Node], reading: Reading, path: Path) -> dict[str, Any] | None:
        """The values by the names that the maker knows; None where one is wrong."""
        keys, good, values = self.keys, True, {}
        for name, value_node in nodes.items():
            key = keys[name]
            if isinstance(value_node, ScalarNode) and is_null(value_node) and not key.shape.reads_nothing:
                if key.required:
                    reading.report(value_node, "empty-value", f"{name!r} is empty", f"write {key.shape.says}")
                    good = False
                continue
            value = key.shape.read(value_node, reading, (*path, name))
            if value is BAD:
                # A lenient reading takes what can be read and leaves the rest out.
                good = good and reading.lenient and not key.required
            else:
                values[key.into or name] = value
        return values if good else None

    def _pair_up(self, node: MappingNode, reading: Reading, path: Path) -> dict[str, Node] | None:
        """Value nodes by key; None where keys are unknown, twice there or missing."""
        nodes: dict[str, Node] = {}
        good = True
        before = None
        for key_node, value_node in node.value:
            name = key_node.value if isinstance(key_node, ScalarNode) else ""
            if _follows_comma(node, key_node, value_node) and before is not None and name not in self.keys:
                _report_comma(*before, key_node, reading)
                good = False
                continue
            before = key_node, value_node
            if name in nodes:
                _report_duplicate(key_node, reading)
                good = False
            elif name not in self.keys:
                _report_unknown(key_node, name, self, reading)
                good = False
            else:
                nodes[name] = value_node
        missing = [name for name in self._required if name not in nodes]
        if reading.lenient and (not missing or not path):
            return nodes
        for name in missing:
            advice = f"add {name}: with {self.keys[name].shape.says}"
            reading.report(node, "missing-key", f"{name!r} is missing in {self.says}", advice)
            good = False
        # Unknown keys do not stop the known ones from being checked.
        if not good:
            for name, value_node in nodes.items():
                self.keys[name].shape.read(value_node, reading, (*path, name))
            return None
        return nodes

    def _made(
        self, values: dict[str, Any], node: Node, nodes: dict[str, Node], reading: Reading, path: Path
    ) -> Any:
        try:
            return self.make(**values, path=path) if self.wants_path else self.make(**values)
        except FieldsDisagree as wrong:
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

    def __init__(self, text: Scalar, record: RecordShape, wrap: Callable[[Any], Any]) -> None:
        self.text, self.record, self.wrap = text, record, wrap
        self.says = f"{text.says} or {record.says}"

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        if isinstance(node, ScalarNode):
            value = self.text.read(node, reading, path)
            return BAD if value is BAD else self.wrap(value)
        return self.record.read(node, reading, path)

    def schema(self) -> dict[str, Any]:
        return {"anyOf": [self.text.schema(), self.record.schema()]}


def _report_duplicate(key_node: Node, reading: Reading) -> None:
    advice = "keep one of the two"
    reading.report(key_node, "duplicate-key", f"the key {key_node.value!r} is there twice", advice)


def _report_unknown(key_node: Node, name: str, record: RecordShape, reading: Reading) -> None:
    advice = record.elsewhere.get(name.lower())
    if advice is None:
        near = nearest(name, record.keys) if reading.may_suggest() else None
        advice = f"did you mean {near!r}?" if near else f"known keys: {', '.join(record.keys)}"
    reading.report(key_node, "unknown-key", f"{name!r} is not a key of {record.says}", advice)


def _follows_comma(record: MappingNode, key: Node, value: Node) -> bool:
    """True for the rest of a text with a comma in it, which in ``{ }`` looks like a key without a value."""
    if not (record.flow_style and isinstance(key, ScalarNode) and isinstance(value, ScalarNode)):
        return False
    return not (key.style or value.style) and value.start_mark.index == value.end_mark.index


def _report_comma(key: Node, value: Node, rest: Node, reading: Reading) -> None:
    gap = " " * (rest.start_mark.column - value.end_mark.column - 1)  # none in "4,5 kg"
    text = f"{value.value},{gap}{rest.value}".replace('"', "'")
    message = f"in {{ }} a comma ends the text: {rest.value!r} is taken for a key"
    reading.report(rest, "comma-in-text", message, f'put the text in quotes: {key.value}: "{text}"')
