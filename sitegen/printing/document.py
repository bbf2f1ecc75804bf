"""What is printed, and on what: a page with all that it loads, and a size of paper."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple


class Paper(NamedTuple):
    """A size of paper in millimetres."""

    width: float
    height: float


class Resource(NamedTuple):
    """What the browser is given for an address."""

    data: bytes
    type: str
    """Media type."""


@dataclass(frozen=True, slots=True)
class Document:
    """A page to print, with all that it loads; nothing else is loaded, from anywhere."""

    key: str
    """Tells documents and their states apart."""
    base: str
    """The site's address; links in the PDF file lead below it."""
    address: str
    """Of the page, below ``base``."""
    files: Callable[[str], Resource | None]
    """The page and what it loads by address below ``base``; None for what it must do without."""
