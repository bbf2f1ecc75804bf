"""Where this user's caches lie: never beside content that may come from somebody else.

Caches are Python pickles, which run code when they are loaded: they load many times faster than
anything that checks what it builds (10,000 episodes have 700,000 records). So a cache is used
only from folders that belong to this user and that nobody else can write to.
"""

import atexit
import functools
import hashlib
import os
import shutil
import stat
import sys
import tempfile
from pathlib import Path


def cache_folder(*places: Path) -> Path:
    """A private folder for what builds remember of a content folder (and an output folder); made if need be.

    Where the user's caches cannot be used, it is a folder that goes at the end of the run.
    """
    name = "\0".join(os.path.realpath(place) for place in places)
    return _made(hashlib.blake2b(os.fsencode(name), digest_size=10).hexdigest())


def template_cache() -> Path:
    """A private folder for the compiled templates of all sites: they depend on nothing of a site."""
    return _made("templates")


def _made(name: str) -> Path:
    top = _user_caches() / "sitegen"
    folder = top / name
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        if _is_private(top) and _is_private(folder):
            return folder
    except OSError:  # a home that cannot be written to
        pass
    folder = passing_caches() / name
    try:
        folder.mkdir(parents=True, mode=0o700, exist_ok=True)
    except OSError:
        pass  # nothing is remembered: whoever reads finds nothing, whoever writes passes over it
    return folder


def _is_private(folder: Path) -> bool:
    """True for a folder that is this user's own and that nobody else can write to."""
    status = os.lstat(folder)
    if not stat.S_ISDIR(status.st_mode):
        return False
    if sys.platform == "win32":  # a user's profile is closed to others by the system
        return True
    return status.st_uid == os.geteuid() and not status.st_mode & (stat.S_IWGRP | stat.S_IWOTH)


@functools.cache
def passing_caches() -> Path:
    """A folder for this run only; whoever writes there makes it."""
    folder = Path(tempfile.gettempdir(), f"sitegen-{os.getpid()}-{os.urandom(6).hex()}")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return folder


def _user_caches() -> Path:
    """The folder for this user's caches (XDG Base Directory Specification: relative paths are ignored)."""
    if os.path.isabs(os.environ.get("XDG_CACHE_HOME", "")):
        return Path(os.environ["XDG_CACHE_HOME"])
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches"
    if sys.platform == "win32" and os.environ.get("LOCALAPPDATA"):
        return Path(os.environ["LOCALAPPDATA"])
    return Path.home() / ".cache"
