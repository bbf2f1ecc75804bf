"""What earlier builds wrote: how each file was made, from what, and its stamp, to know it again.

The files are JSON: they may lie where others can write.
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from sitegen.pages.inputs import Inputs
from sitegen.pages.page import Page
from sitegen.system.whole_files import write_whole

Stamp = tuple[int, int]
"""Size and time of change (ns) of a written file: a file touched since has another."""


@dataclass(frozen=True, slots=True)
class BuiltFile:
    """One written file."""

    recipe: str
    """How it was made (``Page.recipe``)."""
    stamp: Stamp


@dataclass(frozen=True, slots=True)
class Group:
    """What some files were made from."""

    key: str
    """What the names stood for when they were made."""
    read: tuple[str, ...]
    """Names that were noted (``sitegen.system.reads``)."""

    @classmethod
    def of(cls, read: Iterable[str], inputs: Inputs) -> "Group":
        """A group of files that were made now."""
        names = tuple(sorted(read))
        return cls(inputs.key(names), names)


def group_of(address: str) -> str:
    """Files of one session are made from much the same, and are noted together; others each by itself.

    A PDF file is by itself too: to print one takes as long as to make a hundred pages.
    """
    parts = address.split("/", 2)
    return f"episodes/{parts[1]}" if parts[0] == "episodes" and not address.endswith(".pdf") else address


@dataclass
class Manifest:
    """The files of one site by address, and what they were made from."""

    site_key: str = ""
    """What all of them were made from (``Site.key``)."""
    entries: dict[str, BuiltFile] = field(default_factory=dict)
    groups: dict[str, Group] = field(default_factory=dict)
    damaged: bool = False
    """True where there is a file that cannot be read: which files the build wrote is lost."""

    @classmethod
    def load(cls, path: Path) -> "Manifest":
        """The manifest in a file; an empty one where there is none or it is damaged."""
        try:
            raw = json.loads(path.read_bytes())
            entries = {
                address: BuiltFile(recipe, (size, time))
                for address, (recipe, size, time) in raw["files"].items()
            }
            groups = {
                name: Group(key, tuple(filter(None, read.split("\n"))))
                for name, (key, read) in raw["groups"].items()
            }
            return cls(raw["site"], entries, groups)
        except FileNotFoundError:
            return cls()
        except (OSError, ValueError, TypeError, AttributeError, KeyError, RecursionError):
            return cls(damaged=True)

    def save(self, path: Path) -> None:
        """Write to a file, whole or not at all."""
        files = {address: (entry.recipe, *entry.stamp) for address, entry in self.entries.items()}
        groups = {name: (group.key, "\n".join(group.read)) for name, group in self.groups.items()}
        _write(path, {"site": self.site_key, "groups": groups, "files": files})


class KnownSite:
    """What is known of the site in place; from two manifests where a crash left it open which one holds."""

    def __init__(self, manifests: Iterable[Manifest], site_key: str, inputs: Inputs) -> None:
        self._manifests = list(manifests)
        self.site_key = site_key
        self.inputs = inputs
        self._current: dict[tuple[int, str], bool] = {}

    @property
    def damaged(self) -> bool:
        """Whether a manifest cannot be read."""
        return any(manifest.damaged for manifest in self._manifests)

    def addresses(self) -> set[str]:
        """Of all files that builds are known to have written."""
        return {address for manifest in self._manifests for address in manifest.entries}

    def is_current(self, page: Page, stamp: Stamp | None = None) -> bool:
        """Whether a page that is made now would be the one in place, which has the stamp if one is given."""
        for manifest in self._manifests:
            entry = manifest.entries.get(page.address)
            if (
                entry is not None
                and entry.recipe == page.recipe
                and stamp in (None, entry.stamp)
                and manifest.site_key == self.site_key
                and self._group_is_current(manifest, group_of(page.address))
            ):
                return True
        return False

    def _group_is_current(self, manifest: Manifest, name: str) -> bool:
        known = self._current.get((id(manifest), name))
        if known is None:
            group = manifest.groups.get(name)
            known = group is not None and group.key == self.inputs.key(group.read)
            self._current[id(manifest), name] = known
        return known

    def groups_with(self, addresses: Iterable[str], made: Mapping[str, Iterable[str]]) -> dict[str, Group]:
        """The groups of the next site: ``made`` gives what was read for files made now, by address."""
        read: dict[str, set[str]] = {}
        for address, names in made.items():
            read.setdefault(group_of(address), set()).update(names)
        before = {name: group for manifest in self._manifests for name, group in manifest.groups.items()}
        groups = {}
        for group in set(map(group_of, addresses)):
            # Some files of a group may be as they were, made from what was read for them then.
            known, now = before.get(group), read.get(group)
            if now is not None:
                groups[group] = Group.of(now.union(known.read if known else ()), self.inputs)
            elif known is not None:
                groups[group] = known
        return groups


def _write(path: Path, raw: Any) -> None:
    write_whole(path, json.dumps(raw, separators=(",", ":")).encode())
