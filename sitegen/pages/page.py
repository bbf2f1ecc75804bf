"""A file of the site: its address, what it is made from, how it is made."""

import hashlib
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from sitegen.problems import ContentError, Problem


@dataclass(frozen=True, slots=True)
class Page:
    """One file to be written."""

    address: str
    """Path below the site's root, with ``/``."""
    key: str
    """Fingerprint of everything that goes into it: same key, same bytes."""
    make: Callable[[], bytes] | Path
    """Gives the bytes; or the file to copy them from."""


def fingerprint(*parts: object) -> str:
    """A key from the parts that a page depends on; each is known by its ``str``."""
    return hashlib.blake2b("\0".join(map(str, parts)).encode(), digest_size=12).hexdigest()


def check_address(address: str) -> str:
    """The address, if it stays inside the site; every write goes through here.

    Raises ContentError otherwise: a theme or a page kind made a mistake, or content slipped through.
    """
    parts = address.split("/")
    if "\\" in address or "\0" in address or any(part in ("", ".", "..") for part in parts):
        message = f"the address {address!r} leaves the site"
        raise ContentError([Problem(severity="problem", check="address", file=address, message=message)])
    return address
