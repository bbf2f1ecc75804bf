"""What earlier builds wrote: how each file was made, from what, and its stamp, to know it again.

The file is lines of JSON: it may lie where others can write. The first line says of every batch of pages
(``pages.page.Batch``) what all of it was made from; each further line holds the files of one batch, and is
read only where one of them is asked about. Pages that belong to no batch stand together in one more.
"""

import json
import zlib
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

from sitegen.building.site_state import session_folder
from sitegen.pages.inputs import Inputs
from sitegen.system.whole_files import write_whole

Stamp = tuple[int, int]
"""Size and time of change (ns) of a written file: a file touched since has another."""

SINGLE = ""
"""Name of what holds the pages that belong to no batch."""

_UNREADABLE = (ValueError, TypeError, AttributeError, LookupError, RecursionError)
"""What comes of JSON that is none, or says something else."""


@dataclass(frozen=True, slots=True)
class BuiltFile:
    """One written file."""

    recipe: str
    """How it was made (``Page.recipe``)."""
    stamp: Stamp


@dataclass(frozen=True, slots=True)
class FileGroup:
    """What some files were made from."""

    key: str
    """What the names stood for when they were made."""
    read: tuple[str, ...]
    """Names that were noted (``sitegen.system.noted_reads``)."""

    @classmethod
    def of(cls, read: Collection[str], inputs: Inputs) -> "FileGroup":
        """A group of files that were made now."""
        names = tuple(sorted(inputs.shortened(read)))
        return cls(inputs.key(names), names)


def group_of(address: str) -> str:
    """Files of one session are made from much the same, and are noted together; others each by itself.

    A PDF file is by itself too: to print one takes as long as to make a hundred pages.
    """
    parts = address.split("/", 2)
    return f"episodes/{parts[1]}" if parts[0] == "episodes" and not address.endswith(".pdf") else address


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchHead:
    """What is known of a batch without looking at its files."""

    recipe: str = ""
    """How its pages were planned (``Batch.recipe``)."""
    key: str = ""
    """What all that was read for it stood for: to plan it, and to make its files."""
    read: tuple[str, ...] = ()
    """Names of that."""
    addresses: str = ""
    """Fingerprint of its addresses (``Taken.fingerprint``)."""
    count: int = 0
    """How many files it has."""
    folders: tuple[str, ...] = ()
    """Folders of its sessions (``site_state.session_folder``)."""
    loose: tuple[str, ...] = ()
    """Addresses of its files that lie elsewhere."""
    states: str = ""
    """Fingerprint of the states of its files as the build left them."""


class BuiltBatch:
    """A batch of pages as a build left it. Its files stay packed until one is asked about."""

    def __init__(self, head: BatchHead, packed: bytes) -> None:
        self.head, self.packed = head, packed

    @classmethod
    def of(
        cls, head: BatchHead, files: Mapping[str, BuiltFile], groups: Mapping[str, FileGroup]
    ) -> "BuiltBatch":
        """A batch whose files were looked at now; ``head.read`` begins with all that the groups read."""
        places = {name: place for place, name in enumerate(head.read)}
        raw = {
            "files": {address: (entry.recipe, *entry.stamp) for address, entry in files.items()},
            "groups": {
                name: (group.key, [places[one] for one in group.read]) for name, group in groups.items()
            },
        }
        return cls(head, json.dumps(raw, separators=(",", ":")).encode())

    @property
    def files(self) -> Mapping[str, BuiltFile]:
        """By address."""
        return self._opened[0]

    @property
    def groups(self) -> Mapping[str, FileGroup]:
        """By name (:func:`group_of`)."""
        return self._opened[1]

    @cached_property
    def _opened(self) -> tuple[Mapping[str, BuiltFile], Mapping[str, FileGroup]]:
        try:
            raw, read = json.loads(self.packed), self.head.read
            files = {
                address: BuiltFile(recipe, (size, time))
                for address, (recipe, size, time) in raw["files"].items()
            }
            groups = {
                name: FileGroup(key, tuple(read[place] for place in places))
                for name, (key, places) in raw["groups"].items()
            }
        except _UNREADABLE:  # no build of ours wrote that, for the line has its right checksum
            return {}, {}
        return files, groups


@dataclass
class Manifest:
    """The files of one site in their batches, and what they were made from."""

    site_key: str = ""
    """What all of them were made from (``Site.key``)."""
    batches: Mapping[str, BuiltBatch] = field(default_factory=dict)
    damaged: bool = False
    """True where there is a file that cannot be read: which files the build wrote is lost."""

    @classmethod
    def load(cls, path: Path) -> "Manifest":
        """The manifest in a file; an empty one where there is none or it is damaged."""
        try:
            first, *lines = path.read_bytes().split(b"\n")
            raw = json.loads(first)
            batches = {}
            for (name, told, check), packed in zip(raw["batches"], lines, strict=True):
                if zlib.crc32(packed) != check:
                    return cls(damaged=True)
                batches[name] = BuiltBatch(_head(*told), packed)
            return cls(raw["site"], batches)
        except FileNotFoundError:
            return cls()
        except (OSError, *_UNREADABLE):
            return cls(damaged=True)

    def save(self, path: Path) -> None:
        """Write to a file, whole or not at all."""
        told = [(name, _told(one.head), zlib.crc32(one.packed)) for name, one in self.batches.items()]
        first = json.dumps({"site": self.site_key, "batches": told}, separators=(",", ":")).encode()
        write_whole(path, b"\n".join([first, *(one.packed for one in self.batches.values())]))

    @property
    def addresses(self) -> Iterator[str]:
        """Of all files."""
        for batch in self.batches.values():
            yield from batch.files

    def file(self, address: str) -> BuiltFile | None:
        """What is known of a file."""
        return next((batch.files[address] for batch in self._where(address) if address in batch.files), None)

    def group(self, name: str) -> FileGroup | None:
        """What is known of a group."""
        return next((batch.groups[name] for batch in self._where(name) if name in batch.groups), None)

    def _where(self, address: str) -> Iterator[BuiltBatch]:
        """The batches that may hold an address."""
        for name in (self._by_place.get(session_folder(address) or address, SINGLE), SINGLE):
            if name in self.batches:
                yield self.batches[name]

    @cached_property
    def _by_place(self) -> Mapping[str, str]:
        return {
            place: name
            for name, batch in self.batches.items()
            for place in (*batch.head.folders, *batch.head.loose)
        }


def _told(head: BatchHead) -> tuple[Any, ...]:
    lists = (head.read, head.folders, head.loose)
    return (head.recipe, head.key, head.addresses, head.count, head.states, *map("\n".join, lists))


def _head(recipe: str, key: str, addresses: str, count: int, states: str, *lists: str) -> BatchHead:
    read, folders, loose = (tuple(filter(None, text.split("\n"))) for text in lists)
    return BatchHead(
        recipe=recipe,
        key=key,
        read=read,
        addresses=addresses,
        count=int(count),
        folders=folders,
        loose=loose,
        states=states,
    )
