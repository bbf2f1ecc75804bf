"""The files below a folder as the system sees them: by these a change is noticed without reading.

Imports nothing heavy: a build that has nothing to do loads this and little else.
"""

import hashlib
import os
from collections.abc import Callable, Collection, Mapping
from pathlib import Path
from typing import NamedTuple, TypeVar

State = TypeVar("State")


_SECOND_NS = 1_000_000_000  # nanoseconds
_COARSE_TICK_NS = 2 * _SECOND_NS
"""FAT counts in steps of 2 seconds (HFS+ and older network file systems in whole seconds)."""
_FINE_TICK_NS = 50_000_000
"""Others take the time of the system's last tick: every 10 ms on a Linux of 100 Hz, 15.6 ms on Windows."""


class FileState(NamedTuple):
    """What changes when a file of ours is written to or replaced.

    Without the time of change of its entry: that is another with each link made to the file.
    """

    size: int
    time_ns: int
    inode: int

    @classmethod
    def of(cls, status: os.stat_result) -> "FileState":
        """The state in what the system says of a file."""
        return cls(status.st_size, status.st_mtime_ns, status.st_ino)


class InputState(NamedTuple):
    """What changes when a file that somebody else writes is written to or replaced.

    With the time of change of the file's entry, which no program can set: a file of equal size can be
    given its old time of writing (``cp -p``, archives), not its old time of change.
    """

    size: int
    time_ns: int
    changed_ns: int
    inode: int

    @classmethod
    def of(cls, status: os.stat_result) -> "InputState":
        """The state in what the system says of a file."""
        return cls(status.st_size, status.st_mtime_ns, status.st_ctime_ns, status.st_ino)

    def is_settled(self, read_ns: int) -> bool:
        """Whether a file read at that moment must have another state once it is written to again.

        One written to just before may be written to again within the same tick of the clock, and would
        look the same; Git calls such an entry "racily clean" and compares the bytes
        (Documentation/technical/racy-git.txt). A time in the future (another computer's clock) is never
        settled.
        """
        written = max(self.time_ns, self.changed_ns)
        # A time in whole seconds is that of a file system that keeps no fractions.
        tick = _FINE_TICK_NS if self.changed_ns % _SECOND_NS else _COARSE_TICK_NS
        return written < read_ns - tick


def state_of(path: str | Path) -> FileState | None:
    """The state of one file; None where there is none."""
    try:
        return FileState.of(os.lstat(path))
    except FileNotFoundError:
        return None


def scan_inodes(root: str | Path, leaving_out: Collection[str] = ()) -> dict[str, int]:
    """The inode of every file below a folder by its path there, but in the folders with the paths left out;
    empty where there is no folder.

    Folders hold them beside the names, so that it costs half of what :func:`scan` does. On one disk two names
    with the same inode are one file.
    """
    return _scan(root, FileNotFoundError, lambda entry: entry.inode(), leaving_out)


def scan(
    root: str | Path, passing_over: type[OSError] = FileNotFoundError, leaving_out: Collection[str] = ()
) -> dict[str, FileState]:
    """The state of every file below a folder by its path there, with ``/``, but in the folders with the paths
    left out; empty where there is no folder.

    Raises OSError for a folder that cannot be looked into, but for errors to be passed over.
    """
    return _scan(
        root, passing_over, lambda entry: FileState.of(entry.stat(follow_symlinks=False)), leaving_out
    )


def scan_statuses(root: str | Path) -> dict[str, os.stat_result]:
    """What the system says of every file below a folder, as far as it can be looked into."""
    return _scan(root, OSError, lambda entry: entry.stat(follow_symlinks=False))


def scan_inputs(root: str | Path) -> dict[str, InputState]:
    """The state of every input file below a folder, as far as it can be looked into."""
    return _scan(root, OSError, lambda entry: InputState.of(entry.stat(follow_symlinks=False)))


def _scan(
    root: str | Path,
    passing_over: type[OSError],
    state: Callable[["os.DirEntry[str]"], State],
    leaving_out: Collection[str] = (),
) -> dict[str, State]:
    found: dict[str, State] = {}
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
                    if prefix + entry.name not in leaving_out:
                        folders.append((entry.path, f"{prefix}{entry.name}/"))
                else:
                    found[prefix + entry.name] = state(entry)
    return found


def digest(files: Mapping[str, tuple[int, ...]]) -> str:
    """One fingerprint for the states of some files, in whatever order they were found."""
    lines = [f"{path}\0{tuple(state)}" for path, state in files.items()]
    text = "\n".join(sorted(lines)).encode("utf-8", "surrogateescape")
    return hashlib.blake2b(text, digest_size=16).hexdigest()
