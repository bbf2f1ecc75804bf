"""Where the clients' files lie: in ``clients`` beside the content folder, out of version control."""

import os
from collections.abc import Iterator
from pathlib import Path

from sitegen.reading.folder import CLIENTS_FOLDER

_IGNORE = "# Health data: nothing of this folder goes into version control.\n*\n"
_PRIVATE = 0o700


def clients_folder(content: Path) -> Path:
    """The folder of the clients of a series."""
    return Path(os.path.abspath(content)).parent / CLIENTS_FOLDER


def keep_private(folder: Path) -> None:
    """Make the folder where it is missing; other users of the computer and version control keep out.

    The rule lies in the folder itself, so that it goes along wherever the folder goes.
    """
    if not folder.exists():
        folder.mkdir(mode=_PRIVATE)
    rule = folder / ".gitignore"
    if not rule.exists():
        rule.write_text(_IGNORE, encoding="utf-8")


def client_files(folder: Path) -> Iterator[Path]:
    """Every client's file, by name. Links are not followed."""
    if folder.is_dir():
        files = (path for path in folder.iterdir() if path.is_file() and not path.is_symlink())
        yield from sorted(path for path in files if path.suffix == ".yaml" and path.name[:1] not in ".~")
