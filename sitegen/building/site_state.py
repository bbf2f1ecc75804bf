"""The state of a site's files, told by the folders of its sessions: most files of a long series lie in them.

Imports nothing heavy: a build that has nothing to do loads this and little else.
"""

import hashlib
import os
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import NamedTuple

from sitegen.system.file_states import FileState


class FolderState(NamedTuple):
    """What lies in a folder, and in those below it."""

    fingerprint: str
    """Of the states of all files."""
    inodes: Mapping[str, int]
    """Of every file, by its path in the folder."""


def session_folder(address: str) -> str:
    """The folder of a single session in which an address lies, named by its slug or its number; empty for
    an address elsewhere."""
    first, _, rest = address.partition("/")
    if first == "episodes" and rest:
        return f"episodes/{rest.partition('/')[0]}"
    return first if rest and first.isdigit() else ""


def look_into(folder: str | Path) -> FolderState:
    """The state of a folder, as far as it can be looked into."""
    rows: list[str] = []
    inodes: dict[str, int] = {}
    waiting = [(str(folder), "")]
    while waiting:
        place, prefix = waiting.pop()
        try:
            entries = os.scandir(place)
        except OSError:
            continue
        with entries:
            for entry in entries:
                path = prefix + entry.name
                if entry.is_dir(follow_symlinks=False):
                    waiting.append((entry.path, f"{path}/"))
                else:
                    status = entry.stat(follow_symlinks=False)
                    # As of _row, without a call: half of what a build with nothing to do takes is this loop.
                    rows.append(f"{path}\0{status.st_size} {status.st_mtime_ns} {status.st_ino}")
                    inodes[path] = status.st_ino
    return FolderState(_digest(rows), inodes)


def _row(path: str, state: FileState) -> str:
    return f"{path}\0{state.size} {state.time_ns} {state.inode}"


def _digest(rows: Iterable[str]) -> str:
    # Sorted, for folders list their entries in any order.
    text = "\n".join(sorted(rows)).encode("utf-8", "surrogateescape")
    return hashlib.blake2b(text, digest_size=16).hexdigest()


def by_folder(files: Mapping[str, FileState]) -> tuple[dict[str, str], dict[str, FileState]]:
    """The fingerprints of the session folders of some files (see :func:`look_into`), and the other files."""
    folders: dict[str, list[str]] = {}
    others: dict[str, FileState] = {}
    for address, state in files.items():
        if folder := session_folder(address):
            folders.setdefault(folder, []).append(_row(address[len(folder) + 1 :], state))
        else:
            others[address] = state
    return {folder: _digest(rows) for folder, rows in folders.items()}, others


def fingerprint_of_site(folders: Mapping[str, str], others: Mapping[str, FileState]) -> str:
    """One fingerprint of a site, from those of its session folders and the states of its other files."""
    return _digest(
        [*(f"{folder} {one}" for folder, one in folders.items()), *map(_row, others, others.values())]
    )


def state_of_site(out: Path) -> str:
    """The fingerprint of a site, or of whatever is in its place, as far as it can be looked into."""
    folders: dict[str, str] = {}
    others: dict[str, FileState] = {}
    waiting = [(str(out), "")]
    while waiting:
        place, prefix = waiting.pop()
        try:
            entries = os.scandir(place)
        except OSError:
            continue
        with entries:
            for entry in entries:
                path = prefix + entry.name
                if not entry.is_dir(follow_symlinks=False):
                    others[path] = FileState.of(entry.stat(follow_symlinks=False))
                elif session_folder(f"{path}/-") == path:  # any file in it
                    folders[path] = look_into(entry.path).fingerprint
                else:
                    waiting.append((entry.path, f"{path}/"))
    return fingerprint_of_site(folders, others)
