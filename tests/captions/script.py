"""Reading the hand-written scripts from which the caption files of the measurement are made.

A script is a header in YAML, a line ``---``, and what is said. Lines that begin with ``@`` are the
truth, placed by hand before the sentence that opens the block, shows the exercise or hands over to
the viewer, or they stand for what is not talk: a pause, counting aloud, cheering.
"""

import shlex
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

FOLDER = Path(__file__).parent
SCRIPTS = FOLDER / "scripts"


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One line of a script: ``say`` with its text, or a mark with its words and settings."""

    kind: str
    text: str = ""
    words: tuple[str, ...] = ()
    settings: dict[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Script:
    """One recording: how it is captioned, and its steps."""

    name: str
    header: dict[str, Any]
    steps: tuple[Step, ...]

    @property
    def half(self) -> str:
        """``dev`` for development, ``held`` for the half that is only measured."""
        return self.name.split("-")[0]


def read_script(path: Path) -> Script:
    """The script of a file."""
    head, _, body = path.read_text(encoding="utf-8").partition("\n---\n")
    steps = tuple(_step(line) for line in body.splitlines() if line.strip())
    return Script(name=path.stem, header=yaml.safe_load(head), steps=steps)


def all_scripts() -> list[Script]:
    """Every script, by name."""
    return [read_script(path) for path in sorted(SCRIPTS.glob("*.txt"))]


def _step(line: str) -> Step:
    if not line.startswith("@"):
        return Step(kind="say", text=line, settings={})
    kind, *words = shlex.split(line[1:])
    settings = dict(word.split("=", 1) for word in words if "=" in word)
    return Step(kind=kind, words=tuple(word for word in words if "=" not in word), settings=settings)
