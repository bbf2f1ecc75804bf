"""Files that come with the program: themes, the demo series, the series to start from."""

import hashlib
import os
import sys
from collections.abc import Iterator
from pathlib import Path

_PACKAGE = Path(__file__).parent


def _resource(inside: str, at_top: str) -> Path:
    """A folder inside an installed package, or at the top of the repository."""
    packaged = _PACKAGE / inside
    return packaged if packaged.is_dir() else _PACKAGE.parent / at_top


def program_folder() -> Path:
    """The folder of the program itself."""
    return _PACKAGE


def themes_folder() -> Path:
    """The folder that holds the themes."""
    return _resource("_themes", "themes")


def demo_folder() -> Path:
    """The content folder of the demo series."""
    return _resource("_demo", "content")


def starter_folder() -> Path:
    """The content folder that ``sitegen begin`` copies."""
    return _PACKAGE / "starter"


def code_fingerprint() -> str:
    """Tells one state of the program, its libraries and Python from another; caches are good for one."""
    text = repr((sys.version, libraries(), sorted(_own_files(_PACKAGE, ""))))
    return hashlib.blake2b(text.encode("utf-8", "surrogateescape"), digest_size=12).hexdigest()


def _own_files(folder: str | Path, inside: str) -> Iterator[tuple[str, int, int]]:
    """Path ``inside`` the program, size and time of each of its files, compiled modules left out.

    By the system's own listing: every run of a command begins with this, and with path objects it takes
    four times as long.
    """
    with os.scandir(folder) as entries:
        for entry in entries:
            name = f"{inside}/{entry.name}"
            if entry.is_dir(follow_symlinks=False):
                if entry.name != "__pycache__":
                    yield from _own_files(entry.path, name)
            elif entry.is_file():
                stat = entry.stat()
                yield name, stat.st_size, stat.st_mtime_ns


def libraries() -> list[tuple[str, int]]:
    """Every installed distribution, by the name of its folder of metadata and the time that was written.

    The name holds the version (``jinja2-3.1.6.dist-info``), and the time changes when a version is
    installed again. Nobody has to keep a list of the libraries that have a say in a page: a few builds
    too many, after other libraries changed, cost less than a page that is out of date.
    """
    found = []
    for folder in filter(os.path.isdir, sys.path):
        with os.scandir(folder) as entries:
            for entry in entries:
                if entry.name.endswith((".dist-info", ".egg-info")):
                    found.append((entry.name, entry.stat().st_mtime_ns))
    return sorted(found)
