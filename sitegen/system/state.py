"""Where this user's caches lie: never beside content that may come from somebody else."""

import hashlib
import os
import sys
import tempfile
from pathlib import Path


def cache_folder(out: Path) -> Path:
    """A private folder for what a site's builds remember; made if need be.

    Caches are Python pickles, which run code when loaded: a folder that came with somebody
    else's content must not be able to supply one.
    """
    return _made(hashlib.blake2b(os.path.realpath(out).encode(), digest_size=10).hexdigest())


def template_cache() -> Path:
    """A private folder for the compiled templates of all sites: they depend on nothing of a site."""
    return _made("templates")


def _made(name: str) -> Path:
    folder = _user_caches() / "sitegen" / name
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError:  # a home that cannot be written: remember nothing beyond this run
        folder = Path(tempfile.mkdtemp(prefix="sitegen-"))
    return folder


def _user_caches() -> Path:
    if os.environ.get("XDG_CACHE_HOME"):
        return Path(os.environ["XDG_CACHE_HOME"])
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches"
    if sys.platform == "win32" and os.environ.get("LOCALAPPDATA"):
        return Path(os.environ["LOCALAPPDATA"])
    return Path.home() / ".cache"
