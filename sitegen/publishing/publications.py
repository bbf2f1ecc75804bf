"""What is known of earlier publications, read from the records at the target."""

from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import cached_property

from sitegen.publishing.headers import is_named_by_bytes
from sitegen.publishing.publication_record import (
    RECORDS,
    DamagedRecord,
    Publication,
    PublishedFile,
    number_of,
)
from sitegen.publishing.store import Store
from sitegen.publishing.target_errors import Missing

KEEP = 6
"""Finished publications that are remembered: the one that is out and the five before it."""


@dataclass(frozen=True)
class Publications:
    """The publications at a target."""

    finished: tuple[Publication, ...]
    """By number; the last is what visitors see, unless a later one was cut off."""
    unfinished: tuple[Publication, ...]
    """Begun and cut off: some of their files may be there."""
    damaged: tuple[str, ...] = ()
    """Addresses of records that cannot be read."""

    @property
    def current(self) -> Publication | None:
        """The publication that is out; None where none is on record."""
        return self.finished[-1] if self.finished else None

    @property
    def earlier(self) -> tuple[Publication, ...]:
        """Those that could be brought back: the last finished one too, where a later one was cut off."""
        last = self.current.number if self.current else 0
        # A record that cannot be read may be that of a publication which was cut off while it was written.
        cut_off = [one.number for one in self.unfinished] + [number_of(one) or 0 for one in self.damaged]
        return self.finished if max(cut_off, default=0) > last else self.finished[:-1]

    @property
    def files(self) -> Mapping[str, PublishedFile]:
        """The files of the publication that is out."""
        return self.current.files if self.current else {}

    @cached_property
    def next_number(self) -> int:
        """A number above all that were ever used, damaged records included."""
        used = [p.number for p in (*self.finished, *self.unfinished)]
        used += [number_of(address) or 0 for address in self.damaged]
        return max(used, default=0) + 1

    @cached_property
    def ours(self) -> frozenset[str]:
        """Every address at which some publication put a file."""
        return frozenset(a for p in (*self.finished, *self.unfinished) for a in p.files)

    def known_digests(self, address: str) -> set[str]:
        """Fingerprints of what publications put at an address: anything else there came by hand."""
        candidates = (*self.finished[-1:], *self.unfinished)
        return {p.files[address].digest for p in candidates if address in p.files}

    def known_form(self, address: str) -> str:
        """The form in which a file at an address was stored last."""
        for publication in (*reversed(self.unfinished), *reversed(self.finished)):
            if address in publication.files:
                return publication.files[address].form
        return ""

    def remembered(self) -> tuple[Publication, ...]:
        """The finished publications that can still be brought back once one more is out."""
        return self.finished[-(KEEP - 1) :]

    def needed_names(self) -> frozenset[str]:
        """Addresses named by their bytes that those publications use; nothing else keeps their bytes."""
        return frozenset(a for p in self.remembered() for a in p.files if is_named_by_bytes(a))

    def same_as(self, other: "Publications") -> bool:
        """Whether nothing was published between the readings of two histories."""
        numbers = [[p.number for p in (*h.finished, *h.unfinished)] for h in (self, other)]
        return numbers[0] == numbers[1]


def read_history(store: Store) -> Publications:
    """Read every record at a target."""
    addresses = sorted(a for a in store.list(RECORDS) if number_of(a) is not None)
    with ThreadPoolExecutor(max(1, store.concurrency)) as pool:
        records = list(pool.map(lambda address: _read(store, address), addresses))
    good = [record for record in records if record is not None]
    return Publications(
        finished=tuple(record for record in good if record.finished),
        unfinished=tuple(record for record in good if not record.finished),
        damaged=tuple(a for a, record in zip(addresses, records, strict=True) if record is None),
    )


def _read(store: Store, address: str) -> Publication | None:
    try:
        publication = Publication.load(store.read(address))
    except (DamagedRecord, Missing):
        return None
    return publication if publication.address == address else None
