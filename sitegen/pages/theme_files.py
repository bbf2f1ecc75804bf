"""The files of a theme: its own, and for what it leaves out those of the theme below it.

Files are known by their path in the theme, such as ``styles/site.css``. What is wrong with one is told as a
problem with its file and line, for whoever makes a theme.
"""

import os
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

import yaml

from sitegen.problems import ContentError, Problem

_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
"""The quick one, where PyYAML was built with libyaml."""


class ThemeFiles:
    """The files of one theme folder, laid over those of others."""

    def __init__(self, folders: Sequence[Path]) -> None:
        """``folders`` begin with the theme's own; each is asked before those behind it."""
        self.folders = tuple(folders)
        self._layers = [dict(_read_below(folder)) for folder in folders]
        self.data: Mapping[str, bytes] = {
            name: data for layer in reversed(self._layers) for name, data in layer.items()
        }
        """The bytes of every file that holds, by name."""

    def path(self, name: str) -> Path:
        """Where a file lies. Raises KeyError where there is none of that name."""
        for layer, folder in zip(self._layers, self.folders, strict=True):
            if name in layer:
                return folder / name
        raise KeyError(name)

    def names(self, start: str) -> list[str]:
        """The names that begin with some letters, in order."""
        return sorted(name for name in self.data if name.startswith(start))

    def merged(self, name: str) -> dict[str, Any]:
        """What a YAML file says, over what the ones of that name below it say. Raises ContentError."""
        found: dict[str, Any] = {}
        for layer, folder in reversed(list(zip(self._layers, self.folders, strict=True))):
            if name in layer:
                found = laid_over(found, _record(layer[name], folder, name))
        return found

    def shown(self, path: str | Path) -> str:
        """How messages name a file: ``themes/harbour/templates/home.html``."""
        return shown(path, self.folders)


def shown(path: str | Path, folders: Sequence[Path]) -> str:
    """The path from the folder that holds the themes on; the whole path for a file of no theme."""
    for folder in folders:
        if Path(path).is_relative_to(folder):
            return f"themes/{folder.name}/{_name(Path(path), folder)}"
    return str(path)


def problem(
    file: str, line: int | None, message: str, advice: str = "", column: int | None = None
) -> Problem:
    """What is wrong with a theme: nothing is built."""
    return Problem(
        severity="problem", check="theme", file=file, line=line, column=column, message=message, advice=advice
    )


def _record(data: bytes, folder: Path, name: str) -> dict[str, Any]:
    file = f"themes/{folder.name}/{name}"
    try:
        value = yaml.load(data, Loader=_LOADER)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line, column = (mark.line + 1, mark.column + 1) if mark else (None, None)
        message = f"this is no YAML: {error.problem or error.context or error}"
        raise ContentError(
            [problem(file, line, message, "write lines of the form key: value", column)]
        ) from None
    except (yaml.YAMLError, UnicodeDecodeError) as error:
        raise ContentError([problem(file, None, f"this is no YAML: {error}", "save it as UTF-8")]) from None
    if not isinstance(value, dict):
        if value is None:
            return {}
        raise ContentError([problem(file, 1, "this is no record", "write lines of the form key: value")])
    return value


def laid_over(below: dict[str, Any], above: dict[str, Any]) -> dict[str, Any]:
    """Both, key by key; where both have one that is no record, the one above holds."""
    both = dict(below)
    for key, value in above.items():
        old = both.get(key)
        both[key] = laid_over(old, value) if isinstance(old, dict) and isinstance(value, dict) else value
    return both


def _name(path: Path, folder: Path) -> str:
    return path.relative_to(folder).as_posix()


def _read_below(folder: str | Path, inside: str = "") -> Iterator[tuple[str, bytes]]:
    """Name and bytes of the files in and below a folder; hidden ones are none of the theme."""
    with os.scandir(folder) as entries:
        for entry in entries:
            name = inside + entry.name
            if entry.is_dir(follow_symlinks=False):
                yield from _read_below(entry.path, f"{name}/")
            elif entry.is_file() and not entry.name.startswith("."):
                with open(entry.path, "rb") as file:
                    yield name, file.read()
