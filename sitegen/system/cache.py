"""Results cached between runs in the user's caches: a mapping in several files, of which a change writes one.

The files are pickles and must lie where only the user writes (see ``sitegen.system.cache_folders``). An
entry says by its key or its value what it is good for, so that files of different ages do no harm.
"""

import pickle
import zlib
from collections.abc import Hashable, Iterable, Mapping
from pathlib import Path
from typing import Any

from sitegen.system.parallel import map_in_chunks
from sitegen.system.whole_files import replacing

_FILES = 32
"""Into so many files what is cached is spread by its key, so that a change writes a share of them: one file
instead costs more than a tenth of an edit (measured, see DEVELOPERS.md)."""


def load_cached(folder: Path, good_for: str) -> dict[Hashable, Any]:
    """What is cached there for the same purpose (the same program, say); what is damaged is left aside."""
    cached: dict[Hashable, Any] = {}
    for number in range(_FILES):
        try:
            with _path(folder, number).open("rb") as stream:
                if pickle.load(stream) == good_for:
                    cached |= pickle.load(stream)
        except Exception:  # whatever is wrong with a file of ours: it can be worked out again
            continue
    return cached


def save_cached(
    folder: Path, good_for: str, entries: Mapping[Any, Any], changed: Iterable[Hashable], jobs: int = 1
) -> None:
    """Write the files that hold changed entries (new, other or gone), each whole or not at all."""
    parts: dict[int, dict[Hashable, Any]] = {_file_of(key): {} for key in changed}
    if not parts:
        return
    folder.mkdir(parents=True, exist_ok=True)
    for key, value in entries.items():
        number = _file_of(key)
        if number in parts:
            parts[number][key] = value

    def save(number: int) -> None:
        with replacing(_path(folder, number)) as stream:
            pickle.dump(good_for, stream)
            pickle.dump(parts[number], stream, protocol=pickle.HIGHEST_PROTOCOL)

    for _ in map_in_chunks(save, sorted(parts), jobs, pays_from=_FILES // 2):
        pass  # nothing comes back, but the work is done as results are asked for


def _file_of(key: Hashable) -> int:
    return zlib.crc32(repr(key).encode()) % _FILES


def _path(folder: Path, number: int) -> Path:
    return folder / f"{number:02d}"
