"""Files that are there whole or not at all, whoever reads meanwhile and whatever ends the program."""

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO


@contextmanager
def replacing(path: Path) -> Iterator[BinaryIO]:
    """A stream whose bytes take the place of a file once all are written; raises OSError.

    What is being written lies beside it, under a name of this process: two runs at once do not write into
    one another's.
    """
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with part.open("wb") as stream:
            yield stream
        if path.exists():
            shutil.copymode(path, part)
        part.replace(path)
    except BaseException:
        part.unlink(missing_ok=True)
        raise


def write_whole(path: Path, data: bytes) -> None:
    """Put bytes in the place of a file. Raises OSError; the file is then as it was.

    The bytes are on the disk before the name is moved to them: some file systems would otherwise have an
    empty file after the power failed.
    """
    with replacing(path) as stream:
        stream.write(data)
        stream.flush()
        os.fsync(stream.fileno())


def write_once(path: Path, data: bytes) -> None:
    """Put bytes in a new file, for its owner alone; one that is there already stays as it is.

    No other run, and no crash, sees half of it, and of two runs at once the quicker one makes it. Raises
    OSError.
    """
    number, name = tempfile.mkstemp(prefix=f"{path.name}.", dir=path.parent)  # for its owner alone
    try:
        with open(number, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        try:
            os.link(name, path)  # unlike a move it leaves the file of a run that was quicker
        except FileExistsError:
            pass
        except OSError:  # a file system without links, such as that of a memory stick
            os.replace(name, path)
    finally:
        Path(name).unlink(missing_ok=True)


def free_name(path: Path) -> Path:
    """A name for the file as it was: ``name.yaml.old``, or ``.old-2`` and so on where that is taken."""
    old = path.with_name(f"{path.name}.old")
    count = 2
    while old.exists():
        old = path.with_name(f"{path.name}.old-{count}")
        count += 1
    return old
