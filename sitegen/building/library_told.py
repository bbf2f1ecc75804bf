"""Which version of a shared library a site was built with, and what has changed in it since then."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import PurePosixPath

from sitegen.model import SharedLibrary
from sitegen.reading.suggestions import listed

_MOST_NAMED = 6
"""Names of one sort in a line; beyond them their number is said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LibraryAsBuilt:
    """The library of a site when it was last built, as the snapshot keeps it."""

    folder: str
    version: str
    day: str
    """When a build first used that version, such as 2026-11-26."""
    files: Mapping[str, str]
    """Fingerprint of each file by its path below the library's folder."""


def as_built(library: SharedLibrary | None, before: LibraryAsBuilt | None, day: str) -> LibraryAsBuilt | None:
    """What to remember of a build on that day; None for a series without a library."""
    if library is None:
        return None
    if before is not None and (before.folder, before.version) == (library.folder, library.version):
        day = before.day
    return LibraryAsBuilt(folder=library.folder, version=library.version, day=day, files=library.files)


def library_line(library: SharedLibrary | LibraryAsBuilt, before: LibraryAsBuilt | None) -> str:
    """The version, and what has changed since the build before where that used another."""
    line = f"library {library.folder}: version {library.version}"
    if before is None or before.folder != library.folder:
        return line
    if before.version == library.version:
        return f"{line}, unchanged since {before.day}"
    changes = "; ".join(_changes(before.files, library.files))
    return f"{line}; the site had {before.version} of {before.day} until now: {changes}"


def _changes(before: Mapping[str, str], now: Mapping[str, str]) -> Iterator[str]:
    changed = [file for file in sorted(before.keys() & now.keys()) if before[file] != now[file]]
    for word, files in (
        ("changed", changed),
        ("new", sorted(now.keys() - before.keys())),
        ("gone", sorted(before.keys() - now.keys())),
    ):
        if files:
            yield f"{word} {listed((PurePosixPath(file).stem for file in files), _MOST_NAMED)}"
