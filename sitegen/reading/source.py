"""YAML as a tree of nodes with positions: limits enforced, nothing interpreted.

Scalars stay the characters that were written. YAML 1.1 reads ``1:30`` as 90 and ``no`` as
false, YAML 1.2 reads both as text; what a field means is decided by its shape, so neither
reading can change the meaning of a file.
"""

from typing import Any

import yaml

from sitegen.problems import Location, in_file
from sitegen.reading.textfile import BadFile, decode, refuse_other_ends
from sitegen.reading.yaml_faults import stops, yaml_problem

try:
    from yaml import CBaseLoader as _BaseLoader
except ImportError:  # PyYAML built without libyaml: slower, same result
    from yaml import BaseLoader as _BaseLoader  # type: ignore[assignment]

Node = yaml.nodes.Node
MappingNode = yaml.nodes.MappingNode
ScalarNode = yaml.nodes.ScalarNode
SequenceNode = yaml.nodes.SequenceNode

MAX_BYTES = 1_000_000
"""Largest YAML file read; an episode of a trainer's size has about 8,000."""
MAX_NODES = 100_000
"""Most values in one file once aliases are expanded; stops alias bombs."""

_PLAIN_TAG = "text"


class _Loader(_BaseLoader):
    """Composes nodes without resolving what plain scalars mean."""

    def resolve(self, kind: Any, value: Any, implicit: Any) -> str:
        return _PLAIN_TAG

    def descend_resolver(self, current_node: Any, current_index: Any) -> None:
        pass  # the library keeps the way to a node here, for rules that go by it: there are none

    def ascend_resolver(self) -> None:
        pass


def compose(data: bytes, file: str) -> Node:
    """The root node of a YAML file. Raises BadFile with the one problem that stopped it."""
    text = decode(data, file, MAX_BYTES)
    refuse_other_ends(text, file)
    loader = None
    try:
        loader = _Loader(text)
        root = loader.get_single_node()
    except yaml.YAMLError as error:
        raise BadFile(yaml_problem(error, text, file), stops(error, text)) from None
    finally:
        if loader is not None:
            loader.dispose()
    if root is None:
        advice = "fill it in (content/README.md shows how) or delete it"
        raise BadFile(in_file("empty-file", file, "the file is empty", advice, 1, 1))
    if "&" in text:  # only an anchor can make a document grow or refer to itself
        _enforce_growth(root, file)
    return root


def is_null(node: Node) -> bool:
    """True for a value left empty (or written ``~`` or ``null``)."""
    return isinstance(node, ScalarNode) and not node.style and node.value in ("", "~", "null")


def place(node: Node) -> tuple[int, int]:
    """Line and column of a node, from 1."""
    mark = node.start_mark
    return mark.line + 1, mark.column + 1


def locate(data: bytes, location: Location) -> tuple[int, int] | None:
    """Line and column of a location, or of the nearest enclosing value that is written.

    None where the file cannot be read any more.
    """
    try:
        node = compose(data, location.file)
    except BadFile:
        return None
    found = node
    for step in location.path:
        inner = child_at(found, step)
        if inner is None:
            break
        found = inner
    return place(found)


def child_at(node: Node | None, step: str | int) -> Node | None:
    """The value of a key of a record, or of a place in a list; None where there is none."""
    if isinstance(node, MappingNode):
        return next((value for key, value in node.value if key.value == step), None)
    if isinstance(node, SequenceNode) and isinstance(step, int) and step < len(node.value):
        child: Node = node.value[step]
        return child
    return None


def _enforce_growth(root: Node, file: str) -> None:
    """Refuse documents that are too large once their aliases are expanded."""
    sizes: dict[int, int] = {}
    open_nodes: set[int] = set()

    def size_of(node: Node) -> int:
        if isinstance(node, ScalarNode):
            return 1
        key = id(node)
        if key in open_nodes:
            raise _limit(node, file, "an alias refers to itself", "write the value out instead")
        if key not in sizes:
            open_nodes.add(key)
            children = (
                node.value if isinstance(node, SequenceNode) else [n for pair in node.value for n in pair]
            )
            sizes[key] = 1 + sum(size_of(child) for child in children)
            open_nodes.discard(key)
            if sizes[key] > MAX_NODES:
                advice = "write the values out, or split the file"
                raise _limit(node, file, f"the file grows to more than {MAX_NODES:,} values", advice)
        return sizes[key]

    try:
        size_of(root)
    except RecursionError:
        raise _limit(root, file, "values are nested too deep", "flatten them") from None


def _limit(node: Node, file: str, message: str, advice: str) -> BadFile:
    return BadFile(in_file("too-large", file, message, advice, *place(node)))
