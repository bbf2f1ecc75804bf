"""The files below a folder as the system sees them: by these a change is noticed without reading.

Imports nothing heavy: a build that has nothing to do loads this and little else.
"""

import hashlib
import os
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple


class FileState(NamedTuple):
    """What changes when a file is written to or replaced."""

    size: int
    time_ns: int
    inode: int

    @classmethod
    def of(cls, status: os.stat_result) -> "FileState":
        """The state in what the system says of a file."""
        return cls(status.st_size, status.st_mtime_ns, status.st_ino)


def state_of(path: str | Path) -> FileState | None:
    """The state of one file; None where there is none."""
    try:
        return FileState.of(os.lstat(path))
    except FileNotFoundError:
        return None


def scan(root: str | Path, passing_over: type[OSError] = FileNotFoundError) -> dict[str, FileState]:
    """Every file below a folder by its path there, with ``/``; empty where there is no folder.

    Raises OSError for a folder that cannot be looked into, but for errors to be passed over.
    """
    found: dict[str, FileState] = {}
    folders = [(str(root), "")]
    while folders:
        folder, prefix = folders.pop()
        try:
            entries = os.scandir(folder)
        except passing_over:
            continue
        with entries:
            for entry in entries:
                if entry.is_dir(follow_symlinks=False):
                    folders.append((entry.path, f"{prefix}{entry.name}/"))
                else:
                    found[prefix + entry.name] = FileState.of(entry.stat(follow_symlinks=False))
    return found


def digest(files: Mapping[str, FileState]) -> str:
    """One fingerprint for the states of some files, in whatever order they were found."""
    lines = [f"{path}\0{size}\0{time}\0{inode}" for path, (size, time, inode) in files.items()]
    text = "\n".join(sorted(lines)).encode("utf-8", "surrogateescape")
    return hashlib.blake2b(text, digest_size=16).hexdigest()
