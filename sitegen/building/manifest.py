"""What earlier builds wrote: each file's key and stamp, to know it again and to clean up after it."""

import json
from dataclasses import dataclass
from pathlib import Path

from sitegen.system.scan import FileState

Stamp = tuple[int, int]
"""Size and time of change (ns) of a written file: a file touched since has another."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One written file."""

    key: str
    stamp: Stamp


@dataclass(frozen=True, slots=True)
class PreviousSite:
    """How the previous site differs from the site, so that its folder need not be looked through.

    Good for one build: what is known goes when the folder is touched, and comes back when a build
    is through.
    """

    site: str
    """Fingerprint of the site that it is compared with."""
    folder: FileState
    """Of the previous site's own folder: one that was made again has another."""
    different: frozenset[str]
    """Addresses that differ, or that only one of the two has."""

    @classmethod
    def take(cls, path: Path) -> "PreviousSite | None":
        """What a file says, which is then gone; None where there is none or it is damaged."""
        try:
            site, folder, different = json.loads(path.read_bytes())
            return cls(site, FileState(*folder), frozenset(different))
        except (OSError, ValueError, TypeError):
            return None
        finally:
            path.unlink(missing_ok=True)

    def save(self, path: Path) -> None:
        """Write to a file, whole or not at all."""
        _write(path, [self.site, self.folder, sorted(self.different)])


class Manifest:
    """Entries by address. The file is JSON: it may lie where others can write."""

    def __init__(self, entries: dict[str, Entry] | None = None, *, damaged: bool = False) -> None:
        self.entries = entries if entries is not None else {}
        self.damaged = damaged
        """True where there is a file that cannot be read: which files the build wrote is lost."""

    @classmethod
    def load(cls, path: Path) -> "Manifest":
        """The manifest in a file; an empty one where there is none or it is damaged."""
        try:
            raw = json.loads(path.read_bytes())
            return cls({address: Entry(key, (size, time)) for address, (key, size, time) in raw.items()})
        except FileNotFoundError:
            return cls()
        except (OSError, ValueError, TypeError, AttributeError):
            return cls(damaged=True)

    def save(self, path: Path) -> None:
        """Write to a file, whole or not at all."""
        _write(path, {address: (entry.key, *entry.stamp) for address, entry in self.entries.items()})


def _write(path: Path, raw: object) -> None:
    part = path.with_suffix(".part")
    part.write_text(json.dumps(raw, separators=(",", ":")))
    part.replace(path)
