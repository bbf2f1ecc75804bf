"""What earlier builds wrote: each file's key and stamp, to know it again and to clean up after it."""

import json
from dataclasses import dataclass
from pathlib import Path

Stamp = tuple[int, int]
"""Size and time of change (ns) of a written file: a file touched since has another."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One written file."""

    key: str
    stamp: Stamp


class Manifest:
    """Entries by address. The file is JSON: it may lie where others can write."""

    def __init__(self, entries: dict[str, Entry] | None = None) -> None:
        self.entries = entries if entries is not None else {}

    @classmethod
    def load(cls, path: Path) -> "Manifest":
        """The manifest in a file; an empty one where there is none or it is damaged."""
        try:
            raw = json.loads(path.read_bytes())
            return cls({address: Entry(key, (size, time)) for address, (key, size, time) in raw.items()})
        except (OSError, ValueError, TypeError, AttributeError):
            return cls()

    def save(self, path: Path) -> None:
        """Write to a file, whole or not at all."""
        raw = {address: (entry.key, *entry.stamp) for address, entry in self.entries.items()}
        part = path.with_suffix(".part")
        part.write_text(json.dumps(raw, separators=(",", ":")))
        part.replace(path)
