"""What was read before: results by file, valid while the state of the file is the same."""

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from sitegen.model import Episode, Exercise
from sitegen.system.cache import load_cached, save_cached
from sitegen.system.file_states import InputState

_LIBRARY = ("linked", "")


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkedBefore:
    """What was linked before without a problem, to be used again while nothing it rests on changes."""

    library: str
    """Fingerprint of all exercises, routines and series.yaml."""
    exercises: Mapping[str, Exercise]
    episodes: Mapping[tuple[str, str], Episode] = field(default_factory=dict)
    """By file and digest."""


class ReadCache:
    """A store of results, cached between runs or only in this process."""

    def __init__(self) -> None:
        self._cached: dict[tuple[str, str], tuple[InputState, Any]] = {}
        self._changed: set[Hashable] = set()
        self._linked: LinkedBefore | None = None

    @property
    def linked(self) -> LinkedBefore | None:
        """What was linked last."""
        return self._linked

    @linked.setter
    def linked(self, linked: LinkedBefore) -> None:
        before = self._linked.episodes if self._linked else {}
        if self._linked is None or self._linked.library != linked.library:
            self._changed |= {_LIBRARY, *(_place(file) for file, _ in linked.episodes)}
        # An episode with other bytes has another key: both its old and its new place are written.
        self._changed |= {_place(file) for file, _ in before.keys() ^ linked.episodes.keys()}
        self._linked = linked

    def recall(self, kind: str, file: str, state: InputState) -> Any:
        """The result cached for an unchanged file, or None."""
        known = self._cached.get((kind, file))
        if known is None or known[0] != state:
            return None
        return known[1]

    def keep(self, kind: str, file: str, state: InputState, result: Any, *, read_ns: int) -> None:
        """Remember the result of a file that was in this state at that time, if it was settled by then."""
        if state.is_settled(read_ns):
            self._cached[kind, file] = (state, result)
        elif self._cached.pop((kind, file), None) is None:
            return
        self._changed.add((kind, file))

    @classmethod
    def load(cls, folder: Path, code: str) -> "ReadCache":
        """The memory in a folder; an empty one where there is none, or it is another program's."""
        memory = cls()
        cached: dict[Any, Any] = load_cached(folder, code)
        library = cached.pop(_LIBRARY, None)
        # Episodes are cached one by one, so that an edited one is written alone.
        linked = {key: cached.pop(key) for key in [key for key in cached if key[0] == _LIBRARY[0]]}
        memory._cached = cached
        if library is not None:
            memory._linked = LinkedBefore(
                library=library[0],
                exercises=library[1],
                episodes={
                    (file, digest): episode
                    for (_, file), (of_library, digest, episode) in linked.items()
                    if of_library == library[0]
                },
            )
        return memory

    def save(self, folder: Path, code: str, jobs: int = 1) -> None:
        """Write to a folder what is new."""
        if not self._changed:
            return
        entries: dict[Hashable, Any] = dict(self._cached)
        if self._linked is not None:
            library = self._linked.library
            entries[_LIBRARY] = (library, self._linked.exercises)
            for (file, digest), episode in self._linked.episodes.items():
                entries[_place(file)] = (library, digest, episode)
        save_cached(folder, code, entries, self._changed, jobs)
        self._changed.clear()


def _place(file: str) -> tuple[str, str]:
    """Where a linked episode is cached."""
    return (_LIBRARY[0], file)
