"""Fingerprints of what lists and titles show of a record, without what is only read on its own page."""

import hashlib
from collections.abc import Collection
from dataclasses import fields
from typing import Any


def outline_of(record: Any, inner: Collection[str]) -> str:
    """Fingerprint of the fields of a record but for inner ones; variants count by their outlines."""
    shown = repr(_shown(record, inner))
    return hashlib.blake2b(shown.encode(), digest_size=12).hexdigest()


def _shown(record: Any, inner: Collection[str]) -> list[object]:
    found: list[object] = []
    for one in fields(record):
        if one.init and one.name not in inner:
            value = getattr(record, one.name)
            found.append([_shown(v, inner) for v in value] if one.name == "variants" else value)
    return found
