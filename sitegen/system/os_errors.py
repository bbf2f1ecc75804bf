"""Errors of the system that say where they happened."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def naming(path: str | Path) -> Iterator[None]:
    """Give an OSError that names no file this one.

    A full disk is noticed while writing to an open file, and the system then says only that there is no
    space left: not on which of several disks.
    """
    try:
        yield
    except OSError as error:
        if error.filename is None:
            error.filename = str(path)
        raise
