"""The record of one publication, as it is kept at the target.

A gzip-compressed JSON file: a number that counts up, when, whether it was finished, and for every
file of the site its fingerprint, size, stored form and the target's tag. A seal over the rest
tells a damaged record from a good one. Nothing in it is secret and nothing names a person: the
target may serve it to anybody.
"""

import gzip
import hashlib
import json
import re
import zlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from sitegen.pages.page import check_address
from sitegen.problems import ContentError

OWN = ".published/"
"""Folder at the target that holds what publishing remembers."""
RECORDS = f"{OWN}publications/"
KEPT = f"{OWN}kept/"
BY_HAND = f"{OWN}by-hand/"
INCOMING = f"{OWN}incoming/"
LEASE = f"{OWN}lease.json"

_FORMAT = 1
"""Of the records: another program may have written them, and an unknown format is refused."""
_GZIP = 31
"""What zlib calls a gzip file (16) with the largest window (15)."""
_MOST_BYTES = 1 << 27
"""Of an unpacked record: a million files take so much. A few kilobytes can hold gigabytes of nothing."""


class DamagedRecord(Exception):
    """A record cannot be read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedFile:
    """A file of the site."""

    digest: str
    """Fingerprint of its bytes (:func:`~sitegen.publishing.store.digest_of`)."""
    size: int
    """Bytes, before any compression."""
    form: str = ""
    """How it is stored: a content coding, or empty."""
    tag: str = ""
    """The target's tag when it was read back; empty until then."""

    @property
    def kept_at(self) -> str:
        """Where its bytes are kept once something else stands at its address."""
        return f"{KEPT}{self.digest}{'.' + self.form if self.form else ''}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Publication:
    """What one publication put, or is putting, at the target."""

    number: int
    at: str
    """Date and time (ISO 8601, UTC) by the clock of who published: for reading only."""
    finished: bool
    files: Mapping[str, PublishedFile]
    title: str = ""
    """What was done, in a few words."""
    again: int | None = field(default=None)
    """The number of the earlier publication that it brought back, if it did."""

    @property
    def address(self) -> str:
        """Where the record is."""
        return f"{RECORDS}{self.number:06d}.json.gz"

    def dump(self) -> bytes:
        """The record as bytes."""
        body: dict[str, Any] = {
            "format": _FORMAT,
            "number": self.number,
            "at": self.at,
            "finished": self.finished,
            "title": self.title,
            "again": self.again,
            "files": {a: [e.digest, e.size, e.form, e.tag] for a, e in sorted(self.files.items())},
        }
        return gzip.compress(
            json.dumps({"seal": _seal(body), **body}, separators=(",", ":")).encode(), mtime=0
        )

    @classmethod
    def load(cls, data: bytes) -> "Publication":
        """The record in some bytes. Raises DamagedRecord."""
        try:
            body = json.loads(_unpacked(data))
            seal = body.pop("seal")
            if body["format"] != _FORMAT or seal != _seal(body):
                raise DamagedRecord
            return cls(
                number=_whole(body["number"]),
                at=str(body["at"]),
                finished=bool(body["finished"]),
                title=str(body["title"]),
                again=None if body["again"] is None else _whole(body["again"]),
                files={check_address(address): _entry(raw) for address, raw in body["files"].items()},
            )
        except (OSError, EOFError, zlib.error, ValueError, KeyError, TypeError, AttributeError, ContentError):
            raise DamagedRecord from None
        except RecursionError:  # the reader of JSON goes one call deeper with each bracket
            raise DamagedRecord from None


def _unpacked(data: bytes) -> bytes:
    """The bytes in a gzip file. Raises DamagedRecord where they are cut off or more than a record has."""
    unpacking = zlib.decompressobj(wbits=_GZIP)
    unpacked = unpacking.decompress(data, _MOST_BYTES)
    if not unpacking.eof:
        raise DamagedRecord
    return unpacked


def number_of(address: str) -> int | None:
    """The number in the address of a record; None for another file."""
    name = address.removeprefix(RECORDS)
    digits = name.removesuffix(".json.gz")
    is_record = address.startswith(RECORDS) and re.fullmatch("[0-9]{6,12}", digits) and digits != name
    return int(digits) if is_record else None


def _entry(raw: list[Any]) -> PublishedFile:
    digest, size, form, tag = raw
    # 32 hexadecimal digits: a BLAKE2b digest of 16 bytes.
    if not isinstance(digest, str) or len(digest) != 32 or not set(digest) <= set("0123456789abcdef"):
        raise DamagedRecord
    if form not in ("", "gzip", "br"):
        raise DamagedRecord
    return PublishedFile(digest=digest, size=_whole(size), form=form, tag=str(tag))


def _whole(raw: object) -> int:
    """A whole number from 0 that a file or a count of publications may have; JSON allows Infinity, too."""
    if not isinstance(raw, int) or not 0 <= raw < 1 << 53:  # beyond, a reader with floats loses digits
        raise DamagedRecord
    return raw


def _seal(body: Mapping[str, Any]) -> str:
    text = json.dumps(body, separators=(",", ":"), sort_keys=True)
    return hashlib.blake2b(text.encode(), digest_size=8).hexdigest()
