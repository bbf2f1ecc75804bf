"""Put a finished folder in the place of another in one step."""

import ctypes
import errno
import functools
import os
import sys
from collections.abc import Callable
from pathlib import Path

_AT_FDCWD = -100  # linux/fcntl.h: paths count from the working directory
_RENAME_EXCHANGE = 2  # linux/fs.h; macOS has the same value for RENAME_SWAP
_UNSUPPORTED = (errno.ENOSYS, errno.EINVAL, errno.ENOTSUP)


@functools.cache
def _exchange_call() -> Callable[[bytes, bytes], int] | None:
    """The system's call that swaps two names atomically, where it has one."""
    if sys.platform == "win32":  # it has none, and no library of all calls that could be asked for one
        return None
    try:
        libc = ctypes.CDLL(None, use_errno=True)
        if sys.platform == "darwin":
            swap = libc.renamex_np
            return lambda one, two: int(swap(one, two, _RENAME_EXCHANGE))
        call = libc.renameat2
        return lambda one, two: int(call(_AT_FDCWD, one, _AT_FDCWD, two, _RENAME_EXCHANGE))
    except (OSError, AttributeError):
        return None


def swap(finished: Path, place: Path) -> None:
    """Make ``finished`` stand at ``place`` and what stood there at ``finished``.

    On Linux and macOS this is one system call: a reader, or a crash, sees the old or the new
    folder. Elsewhere two renames leave a moment without either; :func:`recover` mends a crash
    in it. Raises OSError where the system refuses.
    """
    if not place.exists():
        os.rename(finished, place)
        return
    call = _exchange_call()
    if call is not None:
        if call(os.fsencode(finished), os.fsencode(place)) == 0:
            return
        code = ctypes.get_errno()
        if code not in _UNSUPPORTED:
            raise OSError(code, os.strerror(code), str(place))
    aside = finished.with_name("aside")
    os.rename(place, aside)
    os.rename(finished, place)
    os.rename(aside, finished)


def recover(finished: Path, place: Path) -> None:
    """Undo a swap by renames that a crash cut in two."""
    aside = finished.with_name("aside")
    if not aside.exists():
        return
    if not place.exists():
        os.rename(aside, place)
    elif not finished.exists():
        os.rename(aside, finished)
