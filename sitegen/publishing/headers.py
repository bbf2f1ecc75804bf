"""The headers of published files, for targets that keep them, and how text is stored there.

Cache lives follow RFC 9111 and RFC 8246 (``immutable``): a name that changes with its bytes may be kept for
a year, everything else is asked about before it is shown.
"""

import gzip
import re
import zlib
from dataclasses import dataclass
from typing import Any

from sitegen.destinations import BROTLI, GZIP
from sitegen.publishing.target_errors import MissingExtra
from sitegen.system.media_types import ending_of, media_type

_BY_NAME = {"feed.xml": "application/atom+xml"}

_FOR_EVER = "public, max-age=31536000, immutable"
_ASK_FIRST = "public, no-cache"

_COMPRESSED = frozenset(("html", "css", "js", "json", "svg", "vtt", "webmanifest"))
"""Endings of text that browsers load, and every browser asks for compressed. A store holds one
form only and gives it to everybody; so feeds, calendars and plain text stay as they are, for
some programs that fetch those cannot undo it."""

# Ten hexadecimal digits of a fingerprint before the ending, if there is one.
_NAMED_BY_BYTES = re.compile(r"(?:assets|media)/(?:.*\.)?[0-9a-f]{10}(?:\.[^./]*)?")

Form = str
"""How the bytes of a file are stored: a content coding of HTTP (``gzip``, ``br``), or empty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Headers:
    """What a server should say about a file."""

    content_type: str
    cache_control: str
    content_encoding: Form = ""


def is_named_by_bytes(address: str) -> bool:
    """Whether an address changes with the bytes there, so that what it holds never changes."""
    return _NAMED_BY_BYTES.fullmatch(address) is not None


def headers_for(address: str, form: Form = "") -> Headers:
    """The headers of a file of the site stored in a form."""
    kind = _BY_NAME.get(address) or media_type(address.rpartition("/")[2])
    cache = _FOR_EVER if is_named_by_bytes(address) else _ASK_FIRST
    return Headers(content_type=kind, cache_control=cache, content_encoding=form)


def form_for(address: str, compress: str) -> Form:
    """How a file is stored where ``compress`` is wanted (``gzip``, ``brotli`` or ``none``)."""
    if ending_of(address) not in _COMPRESSED:
        return ""
    if compress == BROTLI and _brotli() is not None:
        return "br"
    return "gzip" if compress in (GZIP, BROTLI) else ""


def encoded(data: bytes, form: Form) -> bytes:
    """Bytes in the form they are stored in; the same bytes always give the same."""
    if form == "gzip":
        return gzip.compress(data, compresslevel=9, mtime=0)
    if form == "br":
        return bytes(_brotli().compress(data))
    return data


def decoded(data: bytes, form: Form) -> bytes:
    """Stored bytes as they were; the bytes themselves where they are not in that form after all.

    Raises MissingExtra for brotli without its library.
    """
    if form == "gzip":
        try:
            return gzip.decompress(data)
        except (OSError, EOFError, zlib.error):
            return data  # damaged: its digest will tell
    if form == "br":
        library = _brotli()
        if library is None:
            raise MissingExtra("brotli", "publish-brotli")
        try:
            return bytes(library.decompress(data))
        except library.error:
            return data  # the same
    return data


def brotli_is_missing(compress: str) -> bool:
    """Whether brotli is wanted and its library is not there (text is then stored as gzip)."""
    return compress == BROTLI and _brotli() is None


def _brotli() -> Any:
    """The library, or None."""
    try:
        import brotli
    except ImportError:
        return None
    return brotli
