"""What was read before: results by file, valid while the file's size and time are the same."""

import pickle
import time
from pathlib import Path
from typing import Any

from sitegen.content.folder import Stamp

_SETTLED_NS = 50_000_000
"""A file changed within this time before it was read may change again without a new time stamp."""


class Memory:
    """A store of results, kept in a file between runs or only in this process.

    The file is a pickle and must lie where only the user writes (see ``sitegen.state``).
    """

    def __init__(self) -> None:
        self._kept: dict[tuple[str, str], tuple[Stamp | None, Any]] = {}
        self.linked: Any = None
        """What was linked last (see ``content.library``)."""
        self.changed = False
        """True where something was added since loading."""

    def recall(self, kind: str, file: str, stamp: Stamp) -> Any:
        """The result kept for an unchanged file, or None."""
        known = self._kept.get((kind, file))
        if known is None or known[0] != stamp:
            return None
        return known[1]

    def keep(self, kind: str, file: str, stamp: Stamp, result: Any) -> None:
        """Remember a result."""
        self._kept[kind, file] = (stamp, result)
        self.changed = True

    @classmethod
    def load(cls, path: Path, code: str) -> "Memory":
        """The memory in a file; an empty one where there is none, or it is another program's."""
        memory = cls()
        try:
            with path.open("rb") as stream:
                if pickle.load(stream) == code:
                    memory._kept, memory.linked = pickle.load(stream)
        except Exception:
            return cls()
        return memory

    def save(self, path: Path, code: str) -> None:
        """Write the memory to a file, whole or not at all, where there is something new."""
        if not self.changed:
            return
        self.changed = False
        newest = time.time_ns() - _SETTLED_NS
        settled = {key: pair for key, pair in self._kept.items() if pair[0] and pair[0].mtime_ns < newest}
        part = path.with_suffix(".part")
        with part.open("wb") as stream:
            pickle.dump(code, stream)
            pickle.dump((settled, self.linked), stream, protocol=pickle.HIGHEST_PROTOCOL)
        part.replace(path)
