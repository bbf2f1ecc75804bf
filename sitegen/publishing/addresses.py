"""Addresses that were published stay: which ones a publication would drop, and what to write instead."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

_FEW = 12
"""Most addresses listed one by one."""


@dataclass(frozen=True, slots=True)
class DroppedAddress:
    """An address, as clients have it, that would lead nowhere."""

    address: str
    """Without ``index.html``, as in ``moved:``."""
    files: int
    """Files there and below that go with it."""
    moved_to: str | None
    """The new address that looks most like it; None where none does."""


def group_dropped(
    dropped: Sequence[str], wanted: Iterable[str], published: Iterable[str]
) -> list[DroppedAddress]:
    """Dropped files by the folder that goes with them, each with a guess at where it went.

    ``published`` are the addresses that are out: a place that was there before is no new home.
    """
    kept = set(wanted)
    fresh = sorted({_place(a) for a in kept - set(published) if a.endswith("/index.html")})
    tops: dict[str, int] = {}
    for address in dropped:
        top = _gone_folder(address, kept)
        tops[top] = tops.get(top, 0) + 1
    return [DroppedAddress(top, files, _likeliest(top, fresh)) for top, files in sorted(tops.items())]


def _gone_folder(address: str, kept: set[str]) -> str:
    """The outermost folder of a file of which nothing is left; the file itself where there is none.

    Not a whole section: each of its pages has an address of its own.
    """
    parts = address.split("/")
    for length in range(min(2, len(parts) - 1), len(parts)):
        folder = "/".join(parts[:length])
        if not any(a.startswith(f"{folder}/") for a in kept):
            return folder
    return _place(address)


def _place(address: str) -> str:
    return address.removesuffix("index.html").rstrip("/")


def _likeliest(old: str, fresh: Sequence[str]) -> str | None:
    """The new place of the same kind with the most similar name."""
    kind = old.rpartition("/")[0]
    rivals = [place for place in fresh if place.rpartition("/")[0] == kind]
    if len(rivals) == 1:
        return rivals[0]
    return max(rivals, key=lambda place: SequenceMatcher(None, old, place).ratio(), default=None)


def suggestion(dropped: Sequence[DroppedAddress]) -> list[str]:
    """The lines to add to series.yaml."""
    return ["moved:", *(f"  {d.address}: {d.moved_to or _unknown(d.address)}" for d in dropped[:_FEW])]


def _unknown(address: str) -> str:
    kind = address.partition("/")[0]
    return f"{kind}/…" if "/" in address else "…"
