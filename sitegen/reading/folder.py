"""Which files a content folder holds, and of which kind they are."""

import os
import re
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from slugify import slugify

from sitegen.problems import ContentError, Problem, in_file
from sitegen.reading.schemas.texts import ID_PATTERN
from sitegen.system.file_states import InputState

SERIES_FILE = "series.yaml"
CALENDAR_FILE = "calendar.yaml"
CLIENTS_FOLDER = "clients"
"""Holds the clients' files, beside the content folder and never in it."""
_OTHER_NAMES = ("series.yml", "Series.yaml", "series.YAML", "series.yaml.txt")
"""How the file of the series is called by mistake."""
MAX_FILES = 200_000
"""Twenty for each of ten thousand episodes, the most that is aimed at: more is the wrong folder (our
choice)."""

_EPISODE_STEM = re.compile(rf"(?:\d+-)?(?P<slug>{ID_PATTERN})")  # the number is for the order in the folder
_ID_STEM = re.compile(ID_PATTERN)

_FOLDERS = {"exercises": ".yaml", "routines": ".yaml", "episodes": ".yaml", "pages": ".md"}
"""Folders of text that is read whole, and the ending of their files."""


@dataclass(frozen=True, slots=True)
class Inventory:
    """The files of a content folder, by path below it with ``/``."""

    root: Path
    stamps: dict[str, InputState]
    problems: list[Problem] = field(default_factory=list)
    taken_ns: int = field(default_factory=time.time_ns)
    """When it was begun, in ns since 1970: what is read later may be newer than a state says."""

    def texts(self) -> Iterator[tuple[str, str]]:
        """``(kind, file)`` of every file that is read whole; in the top folder a file is its own kind."""
        for file in sorted(self.stamps):
            folder, _, name = file.rpartition("/")
            if file == SERIES_FILE:
                yield "series", file
            elif file == CALENDAR_FILE:
                yield "calendar", file
            elif name.endswith(_FOLDERS.get(kind := _meant_folder(folder) or folder, "\0")):
                yield kind, file

    def data(self, file: str) -> bytes:
        """The bytes of a file; OSError where it cannot be read."""
        return (self.root / file).read_bytes()


def take_inventory(root: Path) -> Inventory:
    """List a content folder. Raises ContentError where it is none."""
    if not (root / SERIES_FILE).is_file():
        other = next((name for name in _OTHER_NAMES if (root / name).is_file()), None)
        advice = (
            "go to the folder that holds it, name it with --content, or start one: sitegen begin my-series"
        )
        if other is not None:
            advice = f"call {other} {SERIES_FILE}"
        message = f"there is no {SERIES_FILE} in {root}"
        raise ContentError([in_file("no-series", SERIES_FILE, message, advice)])
    inventory = Inventory(root, {})
    _list_folder(inventory, str(root), "")
    return inventory


_OF_LIBRARY = ("exercises", "routines", "media")
"""Folders of a shared library that are looked into: its episodes are no matter of another series."""


def take_library(root: Path) -> Inventory:
    """List what a series may use of a library, with the paths below its folder."""
    inventory = Inventory(root, {})
    series = root / SERIES_FILE
    inventory.stamps[SERIES_FILE] = InputState.of(series.lstat())
    for folder in _OF_LIBRARY:
        place = root / folder
        if place.is_symlink():
            inventory.problems.append(_is_link(folder))
        elif place.is_dir():
            _list_folder(inventory, str(place), f"{folder}/")
    return inventory


def _is_link(file: str) -> Problem:
    # A link could lead out of the content folder.
    message = "this is a link or a special file and is not read"
    return in_file("not-a-file", file, message, "copy the file here")


def _list_folder(inventory: Inventory, folder: str, prefix: str) -> None:
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.name.startswith((".", "~")) or entry.name.endswith("~"):
                continue
            # Python marks bytes of a name that are no text, and nothing can print these.
            shown = entry.name.encode("utf-8", "surrogateescape").decode("utf-8", "replace")
            if shown != entry.name:
                message = "the name holds bytes that are not UTF-8 text"
                inventory.problems.append(in_file("bad-name", prefix + shown, message, "rename it"))
            elif not prefix and entry.name.lower() == CLIENTS_FOLDER:
                inventory.problems.append(_clients_inside(entry.name))
            elif entry.is_dir(follow_symlinks=False):
                _list_folder(inventory, entry.path, f"{prefix}{entry.name}/")
            elif entry.is_file(follow_symlinks=False):
                status = entry.stat(follow_symlinks=False)
                inventory.stamps[prefix + entry.name] = InputState.of(status)
                _check_name(inventory, prefix, entry.name)
            else:
                inventory.problems.append(_is_link(prefix + entry.name))
    if len(inventory.stamps) > MAX_FILES:
        message = f"more than {MAX_FILES:,} files"
        raise ContentError([in_file("too-large", prefix, message, "is it the right folder?")])


def _clients_inside(name: str) -> Problem:
    message = "clients' files lie in the content folder, which is built and published"
    advice = f"move the folder {name} out of it, beside the content folder: sitegen client finds it there"
    return in_file("clients-in-content", name, message, advice)


def _check_name(inventory: Inventory, prefix: str, name: str) -> None:
    folder, _, inner = prefix.partition("/")
    ending = _FOLDERS.get(folder)
    if ending is None:
        _check_outside(inventory, prefix, name)
    elif inner:
        _check_inner(inventory, folder, prefix + name)
    else:
        _check_in_place(inventory, prefix, name, ending)


_LIKE_YAML = (".yaml", ".yml", ".yaml.txt", ".yml.txt")
_LIKE_TEXT = (*_LIKE_YAML, ".md", ".markdown", ".txt", ".rtf", ".doc", ".docx", ".odt", ".json")
"""Endings of files that somebody meant to be read; others, such as ``.old``, are left alone."""


def _check_outside(inventory: Inventory, prefix: str, name: str) -> None:
    """A content file in no folder that is read, or one whose folder has another name."""
    if not name.lower().endswith(_LIKE_YAML) or prefix.count("/") > 1:
        return
    folder = prefix.rstrip("/")
    if not folder and name in (SERIES_FILE, CALENDAR_FILE):
        return
    if near := _meant_folder(folder):
        # Its files are read nevertheless, so that nobody is told that they are not there.
        if not any(one.check == "folder-name" and one.file.startswith(prefix) for one in inventory.problems):
            message = f"the folder {folder} is called otherwise than the program knows it"
            inventory.problems.append(
                in_file("folder-name", prefix + name, message, f"call the folder {near}")
            )
        return
    if folder in ("captions", "media"):
        return
    message = f"the file is not read: it lies in {folder or 'the top folder'}"
    advice = "episodes, exercises and routines each have a folder of that name"
    inventory.problems.append(in_file("not-read", prefix + name, message, advice, severity="warning"))


def _meant_folder(folder: str) -> str | None:
    """The folder that one of another name is meant to be: ``exercise`` or ``Exercises``."""
    plain = folder.lower().rstrip("s")
    return None if folder in _FOLDERS else next((one for one in _FOLDERS if plain == one.rstrip("s")), None)


def _check_inner(inventory: Inventory, folder: str, path: str) -> None:
    """A file in a folder inside the folder that is read."""
    name = path.rpartition("/")[2]
    if name.lower().endswith(_LIKE_TEXT):
        message = f"the file is not read: it lies in a folder inside {folder}"
        inventory.problems.append(in_file("not-read", path, message, f"move it to {folder}/{name}"))


def _check_in_place(inventory: Inventory, prefix: str, name: str, ending: str) -> None:
    stem, dot, last = name.rpartition(".")
    pattern = _EPISODE_STEM if prefix == "episodes/" else _ID_STEM
    if not name.endswith(ending) and name.lower().endswith(_LIKE_TEXT):
        base = re.sub(r"(\.[a-z]+)+$", "", name, flags=re.IGNORECASE)
        message = f"the file is not read: its name does not end in {ending}"
        meant = name.lower().endswith(_LIKE_YAML if ending == ".yaml" else _LIKE_TEXT)
        meant = meant or _is_content(inventory.root / prefix / name, prefix)
        severity = "problem" if meant else "warning"
        advice = (
            f"call it {_in_form(base, prefix)}{ending}" if meant else f"what is read here ends in {ending}"
        )
        if meant and name.lower().endswith(_OF_WORD_PROCESSORS):
            advice = f"save it as plain text with the encoding UTF-8 and {advice}"
        inventory.problems.append(in_file("file-name", prefix + name, message, advice, severity=severity))
    elif dot + last == ending and not pattern.fullmatch(stem):
        advice = f"use lower-case words joined by hyphens: call it {_in_form(stem, prefix)}{ending}"
        message = f"{name!r} cannot be an address"
        inventory.problems.append(in_file("file-name", prefix + name, message, advice))


_OF_WORD_PROCESSORS = (".rtf", ".doc", ".docx", ".odt")
_NUMBERED = re.compile(r"\d+[-_ ].*")  # "03 Steady pull.txt"
_FIRST_KEYS = re.compile(
    rb"^(?:title|number|name|summary|blocks|kind|format|items|pattern|muscles|cues|kit)[ \t]*:", re.MULTILINE
)
_ENOUGH_KEYS = 2
"""Keys of content files after which a file is one: a note of the trainer's may begin with one."""


def _is_content(path: Path, prefix: str) -> bool:
    """True for a file of another ending that is a content file: by its number, or by what it begins with."""
    if prefix == "episodes/" and _NUMBERED.fullmatch(path.name):
        return True
    try:
        with path.open("rb") as stream:
            return len(set(_FIRST_KEYS.findall(stream.read(4_000)))) >= _ENOUGH_KEYS
    except OSError:
        return False


def _in_form(stem: str, prefix: str) -> str:
    """A name as it can be an address; an example where nothing of it can."""
    return slugify(stem) or ("03-steady-pull" if prefix == "episodes/" else "towel-row")


def id_of(file: str) -> str:
    """The id that a file's name gives: ``exercises/towel-row.yaml`` is ``towel-row``.

    A name that cannot be an id gives what it is to be called, so that nobody is told to write the wrong one.
    """
    stem = file.rpartition("/")[2].rpartition(".")[0]
    return stem if _ID_STEM.fullmatch(stem) else slugify(stem) or stem


def slug_of(file: str) -> str:
    """The slug that an episode file's name gives: without its number."""
    match = _EPISODE_STEM.fullmatch(id_of(file))
    return match["slug"] if match else id_of(file)
