"""The state of a site's files, told by the folders of its sessions: most files of a long series lie in them.

Imports nothing heavy: a build that has nothing to do loads this and little else.
"""

import hashlib
import os
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

from sitegen.system.file_states import FileState, scan, scan_statuses


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


_ROW = "%s\0%d %d %d"
"""A path, and the size, time and inode of its file."""


def look_into(folder: str | Path) -> FolderState:
    """The state of a folder, as far as it can be looked into."""
    # Statuses, not states: a record made of each would cost a build with nothing to do a tenth more.
    files = scan_statuses(folder)
    rows = [_ROW % (path, one.st_size, one.st_mtime_ns, one.st_ino) for path, one in files.items()]
    return FolderState(_digest(rows), {path: one.st_ino for path, one in files.items()})


def _row(path: str, state: FileState) -> str:
    return _ROW % (path, *state)


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
    folders = {path: look_into(f"{out}/{path}").fingerprint for path in _session_folders(out)}
    return fingerprint_of_site(folders, scan(out, OSError, folders))


def _session_folders(out: Path) -> Iterator[str]:
    for above in ("", "episodes/"):
        try:
            entries = os.scandir(out / above)
        except OSError:
            continue
        with entries:
            for entry in entries:
                path = above + entry.name
                # Any file in it tells whether it is one.
                if session_folder(f"{path}/-") == path and entry.is_dir(follow_symlinks=False):
                    yield path
