"""The episodes of a content folder, changed one step at a time, with the way back.

Only files directly in ``episodes`` are written, whole, and never through a link; the file as it was when
the first change came is kept beside it as ``.old``.
"""

import codecs
import threading
from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from typing import Any

from slugify import slugify

from sitegen.drafting.structure.planned_session import text_of
from sitegen.reading.files import digest_of
from sitegen.reading.source import MAX_BYTES, child_at, compose
from sitegen.reading.textfile import BadFile, decode
from sitegen.system.whole_files import free_name, write_whole
from sitegen.watching.changes import ChangeRefused, RowChange, changed, first_text
from sitegen.watching.lines import Lines

_FILMS = (".webm", ".mp4", ".m4v", ".mov", ".ogv")
_STEPS_BACK = 500
"""Changes that can be taken back: more than an evening beside a film makes (our choice)."""


class EditedEpisodes:
    """Shared by the threads that serve; one change at a time."""

    def __init__(self, content: Path) -> None:
        self.content = content.resolve()
        self._lock = threading.Lock()
        self._steps: dict[str, list[tuple[bytes, bytes]]] = {}
        """By episode, its file before and after each change."""
        self._kept: set[str] = set()

    # -- what is there

    def episodes(self) -> list[str]:
        """The names of the episode files, without their ending."""
        return sorted(path.stem for path in self._files("episodes", (".yaml",)))

    def films_without_episode(self) -> list[str]:
        """Films in ``media`` that no episode names, below the content folder."""
        named = set()
        for name in self.episodes():
            try:
                named.add(Lines(self._text(name)[1], name).film())
            except (BadFile, OSError):
                continue
        return sorted(
            film
            for path in self._files("media", _FILMS)
            if (film := path.relative_to(self.content).as_posix()) not in named
        )

    def exercises(self) -> dict[str, str]:
        """The names of the library's exercises, by id."""
        return {path.stem: _name_in(path) for path in self._files("exercises", (".yaml",))}

    def film(self, name: str) -> Path | None:
        """The film of an episode, or the one of this name in ``media``; None where there is none."""
        try:
            below = name if name in self.films_without_episode() else Lines(self._text(name)[1], name).film()
        except (BadFile, OSError, KeyError):
            return None
        path = (self.content / (below or "")).resolve()
        good = path.is_relative_to(self.content) and path.suffix.lower() in _FILMS
        return path if good and path.is_file() else None

    def state(self, name: str) -> dict[str, Any]:
        """What a page shows of an episode. Raises KeyError where there is none, BadFile for a broken one."""
        data, text = self._text(name)
        return {
            "rows": [asdict(row) for row in Lines(text, f"episodes/{name}.yaml").rows],
            "seen": digest_of(data),
            "undo": len(self._steps.get(name, ())),
        }

    # -- changing it

    def change(self, name: str, action: str, wish: RowChange, seen: str) -> dict[str, Any]:
        """Make one change; the state behind it. Raises ChangeRefused where it cannot be made."""
        with self._lock:
            data, text = self._text(name)
            if seen != digest_of(data):
                raise ChangeRefused("the file was changed meanwhile; this is how it is now")
            new = changed(text, f"episodes/{name}.yaml", action, wish, self.exercises())
            try:
                Lines(new, f"episodes/{name}.yaml")
            except BadFile as error:
                raise ChangeRefused(
                    f"this would break the file ({error.problem.message}); do it by hand"
                ) from None
            after = _as_written(new, data)
            if after != data:
                self._keep(name, data)
                write_whole(self._path(name), after)
                steps = self._steps.setdefault(name, [])
                steps.append((data, after))
                del steps[:-_STEPS_BACK]
            return self.state(name)

    def undo(self, name: str) -> dict[str, Any]:
        """Take the last change back; the state behind it. Raises ChangeRefused where it cannot be."""
        with self._lock:
            steps = self._steps.get(name)
            if not steps:
                raise ChangeRefused("there is nothing to take back")
            before, after = steps[-1]
            if self._text(name)[0] != after:
                raise ChangeRefused(
                    "the file was changed by hand since; what was done before cannot be taken back"
                )
            write_whole(self._path(name), before)
            steps.pop()
            return self.state(name)

    def begin(self, film: str, title: str, exercise: str, at: int) -> str:
        """Write the file of an episode for a film that has none; its name. Raises ChangeRefused."""
        with self._lock:
            if film not in self.films_without_episode():
                raise ChangeRefused("an episode has this film already, or the film is gone")
            if exercise not in self.exercises():
                raise ChangeRefused(
                    f"{exercise!r} is not in the library; write exercises/{exercise}.yaml first"
                )
            number = 1 + max((_number(name) for name in self.episodes()), default=0)
            slug = slugify(Path(film).stem).lstrip("0123456789-")
            name = f"{number:02d}-{slug or 'session'}"
            path = self.content / "episodes" / f"{name}.yaml"
            if path.exists():
                raise ChangeRefused(f"{path.name} is there already")
            path.parent.mkdir(exist_ok=True)
            text = first_text(title=title, number=number, film=film, exercise=exercise, at=at)
            write_whole(path, text.encode())
            return name

    # -- files

    def _files(self, folder: str, endings: tuple[str, ...]) -> Iterator[Path]:
        """The files of a folder by name, without links and what is not ours to write."""
        root = self.content / folder
        if not root.is_dir() or root.resolve() != root:
            return
        for path in sorted(root.iterdir()):
            if path.suffix.lower() in endings and path.is_file() and not path.is_symlink():
                yield path

    def _path(self, name: str) -> Path:
        if name not in self.episodes():
            raise KeyError(name)
        return self.content / "episodes" / f"{name}.yaml"

    def _text(self, name: str) -> tuple[bytes, str]:
        path = self._path(name)
        data = path.read_bytes()
        return data, decode(data, f"episodes/{name}.yaml", MAX_BYTES)

    def _keep(self, name: str, data: bytes) -> None:
        """Keep the file as it was before the first change."""
        if name not in self._kept:
            write_whole(free_name(self._path(name)), data)
            self._kept.add(name)


def _as_written(text: str, like: bytes) -> bytes:
    """The bytes of a text, with the ends of lines and the byte order mark that the file had."""
    ends = text.replace("\n", "\r\n") if b"\r\n" in like else text
    return (codecs.BOM_UTF8 if like.startswith(codecs.BOM_UTF8) else b"") + ends.encode()


def _name_in(path: Path) -> str:
    try:
        return text_of(child_at(compose(path.read_bytes(), path.name), "name")) or path.stem
    except (BadFile, OSError):
        return path.stem


def _number(name: str) -> int:
    digits = name.partition("-")[0]
    return int(digits) if digits.isdecimal() else 0
