"""Whether anything at all has changed since the last build, found out by looking at time stamps only.

A build that has nothing to do should take no longer than starting Python: this module and what
it imports are all that such a build loads.
"""

import hashlib
import json
import os
from dataclasses import asdict, dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Snapshot:
    """The state of everything a build reads and writes, and what it said at the end."""

    fingerprint: str
    summary: str
    """The last build's words about the series."""
    files: int
    """Files of the site."""
    since: str = ""
    """First day (2026-09-07) on which the same episodes are out; empty for any."""
    until: str = ""
    """First day on which one more is; empty for none."""

    @classmethod
    def load(cls, path: Path) -> "Snapshot | None":
        """The snapshot in a file; None where there is none that can be used."""
        try:
            return cls(**json.loads(path.read_bytes()))
        except (OSError, ValueError, TypeError):
            return None

    def holds_on(self, day: str) -> bool:
        """Whether the same episodes are out on that day as when it was taken."""
        return self.since <= day and (not self.until or day < self.until)

    def save(self, path: Path) -> None:
        """Write to a file, whole or not at all."""
        part = path.with_suffix(".part")
        part.write_text(json.dumps(asdict(self)), encoding="utf-8")
        part.replace(path)


def fingerprint_of(folders: list[Path], *options: object) -> str:
    """Fingerprint of the names, sizes and times of all files below some folders, and of options."""
    digest = hashlib.blake2b(repr(options).encode(), digest_size=16)
    for folder in folders:
        digest.update(f"\0{folder}\0".encode())
        waiting = [str(folder)]
        while waiting:
            lines = []
            try:
                entries = os.scandir(waiting.pop())
            except OSError:
                continue
            with entries:
                for entry in entries:
                    if entry.is_dir(follow_symlinks=False):
                        waiting.append(entry.path)
                    elif not entry.name.endswith(".pyc"):
                        status = entry.stat(follow_symlinks=False)
                        lines.append(f"{entry.path}\0{status.st_size}\0{status.st_mtime_ns}\0{status.st_ino}")
            waiting.sort()
            digest.update("\n".join(sorted(lines)).encode())
    return digest.hexdigest()
