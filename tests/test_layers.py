"""The rooms of the program import each other in one direction only, as the table in DEVELOPERS.md says."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
PACKAGE = ROOT / "sitegen"


def allowed() -> dict[str, set[str]]:
    """By room, the rooms that it may import: the rows ``| `room` | `one`, `two` |`` of the table."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    table = text.partition("| room | may import |")[2].partition("\n\n")[0]
    rows = (line.split("|")[1:3] for line in table.splitlines()[2:])
    return {_words(room)[0]: set(_words(rooms)) for room, rooms in rows}


def _words(cell: str) -> list[str]:
    return re.findall(r"`(\w+)`", cell)


def imports() -> Iterator[tuple[Path, str, str]]:
    """Every import of one room by another: the file, its room and the room imported."""
    for path in sorted(PACKAGE.rglob("*.py")):
        inside = path.relative_to(PACKAGE).with_suffix("").parts
        room = inside[0]
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            for module in _modules(node):
                name = module.split(".")[1] if "." in module else "__init__"
                if name not in (room, "__init__", "__version__"):
                    yield path, room, name


def _modules(node: ast.AST) -> list[str]:
    if isinstance(node, ast.Import):
        return [alias.name for alias in node.names if alias.name.split(".")[0] == "sitegen"]
    if isinstance(node, ast.ImportFrom) and node.module and node.module.split(".")[0] == "sitegen":
        return [node.module] if "." in node.module else [f"sitegen.{alias.name}" for alias in node.names]
    return []


def test_rooms_import_only_what_the_table_allows() -> None:
    table = allowed()
    wrong = [
        f"{path.relative_to(ROOT)}: {room} may not import {other}"
        for path, room, other in imports()
        if other not in table.get(room, set())
    ]
    assert wrong == []


def test_the_table_has_no_circle() -> None:
    """Each row imports rooms of rows above it only."""
    seen: set[str] = set()
    for room, rooms in allowed().items():
        assert rooms <= seen, f"{room} comes before {', '.join(sorted(rooms - seen))}"
        seen.add(room)


@pytest.mark.parametrize("statement", ["import sitegen.pages.page", "from sitegen.pages import page"])
def test_an_import_is_seen_however_it_is_written(statement: str) -> None:
    (node,) = ast.parse(statement).body
    assert [module.split(".")[1] for module in _modules(node)] == ["pages"]
