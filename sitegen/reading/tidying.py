"""Values that are written by habit, put into the one documented form: nothing else in the file changes."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from sitegen.reading.files import SHAPES
from sitegen.reading.schemas.report import Path, Reading
from sitegen.reading.source import MappingNode, Node, ScalarNode, child_at, compose
from sitegen.reading.textfile import BadFile


@dataclass(frozen=True, slots=True)
class Respelling:
    """One value to be written again, in its documented form."""

    line: int
    """From 1."""
    before: str
    after: str


def tidied(
    kind: str, file: str, data: bytes, ids: Mapping[Path, str] | None = None
) -> tuple[bytes, list[Respelling]]:
    """The bytes of a file with every habit in its documented form, and what was changed.

    ``ids`` are the ids to write where a name stands, by the path to it. A file that cannot be read, and a
    value that is not written on one line, stay as they are.
    """
    reading = Reading(file, data, spellings=True)
    try:
        root = compose(data, file)
    except BadFile:
        return data, []
    SHAPES[kind].read(root, reading, ())
    reading.habits += _named(root, ids or {})
    if not reading.habits:
        return data, []
    lines = data.decode("utf-8").split("\n")
    changes: list[Respelling] = []
    # From the end of each line, so that the columns before stay right; a value that is used by an alias once.
    found = {
        (node.start_mark.line, node.start_mark.column): (path, node, usual)
        for path, node, usual in reading.habits
    }
    for (line, column), (path, node, usual) in sorted(found.items(), reverse=True):
        # A byte-order mark is no part of what the parser counts.
        start = column + (line == 0 and lines[0].startswith("\ufeff"))
        written = _written(node, lines[line], start)
        if written is None:
            continue
        # Inside brackets or braces.
        in_flow = any(bool(getattr(one, "flow_style", False)) for one in _nodes(root, path))
        after = _documented(usual, path, root, in_flow=in_flow)
        lines[line] = lines[line][:start] + after + lines[line][start + len(written) :]
        changes.append(Respelling(line + 1, written, after))
    return "\n".join(lines).encode("utf-8"), changes[::-1]


def _named(root: Node, ids: Mapping[Path, str]) -> Iterator[tuple[Path, ScalarNode, str]]:
    """The values at these paths. A list of one may be written without its brackets."""
    for path, known in ids.items():
        node = _value_at(root, path) or (_value_at(root, path[:-1]) if path[-1:] == (0,) else None)
        if node is not None:
            yield path, node, known


def _value_at(root: Node, path: Path) -> ScalarNode | None:
    nodes = list(_nodes(root, path))
    return nodes[-1] if len(nodes) == len(path) + 1 and isinstance(nodes[-1], ScalarNode) else None


def _written(node: ScalarNode, line: str, start: int) -> str | None:
    """The value as it stands in its line, quotes included; None where it stands on several."""
    if node.start_mark.line != node.end_mark.line:
        return None
    written = line[start : start + node.end_mark.column - node.start_mark.column]
    bare = written[1:-1] if node.style in ("'", '"') else written
    return written if bare == node.value else None


def _documented(usual: str, path: Path, root: Node, *, in_flow: bool) -> str:
    """The documented form as YAML: doses set by set are a list, one for all sets where these are given.

    Where the block has another number of sets the list stays, so that the contradiction is not lost.
    """
    sets = usual.split(", then ")
    if len(sets) == 1:
        return _scalar(usual, in_flow=in_flow)
    if len(set(sets)) == 1 and _sets_of_block(root, path) == len(sets):
        return _scalar(sets[0], in_flow=in_flow)
    return f"[{', '.join(_scalar(one, in_flow=True) for one in sets)}]"


def _scalar(text: str, *, in_flow: bool) -> str:
    """The text with quotes where YAML needs them."""
    return f'"{text}"' if in_flow and re.search(r"[,\[\]{}]", text) else text


def _sets_of_block(root: Node, path: Path) -> int | None:
    """How many sets the block of an item says it has; None where it gives no single number."""
    *_, block = _nodes(root, path[: path.index("items")] if "items" in path else ())
    if not isinstance(block, MappingNode):
        return None
    given = (value for key, value in block.value if key.value in ("sets", "rounds"))
    written = next((value.value for value in given if isinstance(value, ScalarNode)), "")
    number = re.fullmatch(r"(\d{1,3})(?: (?:sets?|rounds?))?", written)
    return int(number[1]) if number else None


def _nodes(root: Node, path: Path) -> Iterator[Node]:
    """The nodes along a path, the root first."""
    yield (node := root)
    for step in path:
        if (inner := child_at(node, step)) is None:
            return
        yield (node := inner)
