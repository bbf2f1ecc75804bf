"""Whether anything at all has changed since the last build, found out by looking at time stamps only.

A build that has nothing to do should take no longer than starting Python: this module and what
it imports are all that such a build loads.
"""

import hashlib
import json
import time
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from sitegen.system.file_states import digest, scan_inputs
from sitegen.system.whole_files import write_whole


@dataclass(frozen=True, slots=True, kw_only=True)
class Snapshot:
    """The state of everything a build reads and writes, and what it said at the end."""

    inputs: str
    """Fingerprint of all that the build read."""
    site: str
    """Fingerprint of what it left."""
    summary: str
    """The last build's words about the series."""
    files: int
    """Files of the site."""
    since: str = ""
    """First day (2026-09-07) on which the same episodes are out; empty for any."""
    until: str = ""
    """First day on which one more is; empty for none."""
    library: Mapping[str, Any] | None = None
    """The shared library that was read (``library_told.LibraryAsBuilt`` as plain data); None for none."""

    @classmethod
    def load(cls, path: Path) -> "Snapshot | None":
        """The snapshot in a file; None where there is none that can be used."""
        try:
            return cls(**json.loads(path.read_bytes()))
        except (OSError, ValueError, TypeError, RecursionError):
            return None

    def holds_on(self, day: str) -> bool:
        """Whether the same episodes are out on that day as when it was taken."""
        return self.since <= day and (not self.until or day < self.until)

    def save(self, path: Path) -> None:
        """Write to a file, whole or not at all."""
        write_whole(path, json.dumps(asdict(self)).encode())


def fingerprint_of(folders: list[Path], *options: object) -> str:
    """Fingerprint of the names and states of all files below some folders, and of options.

    Empty where a file was written to so short a time ago that it may be written to again without a
    change of its state.
    """
    now = time.time_ns()
    parts = [repr(options)]
    for folder in folders:
        files = {path: state for path, state in scan_inputs(folder).items() if not path.endswith(".pyc")}
        if not all(state.is_settled(now) for state in files.values()):
            return ""
        parts.append(f"{folder}\0{digest(files)}")
    return hashlib.blake2b("\0".join(parts).encode("utf-8", "surrogateescape"), digest_size=16).hexdigest()
