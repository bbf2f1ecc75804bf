"""Videos and captions that nothing uses: a key was forgotten, or a file is left over."""

from collections.abc import Iterator
from pathlib import PurePosixPath

from sitegen.model import Series
from sitegen.problems import Location, Problem, found
from sitegen.reading.folder import Inventory

_ENDINGS = {
    "media": frozenset({".webm", ".mp4", ".m4v", ".mov", ".mkv"}),
    "captions": frozenset({".vtt", ".srt", ".sbv"}),
}
"""Endings that are looked at, by folder: pictures may wait for a page in the trainer's own words."""


def unused_files(series: Series, inventory: Inventory) -> Iterator[Problem]:
    """Files of these kinds whose bytes no page is made from. Nothing is said of a series without episodes."""
    if not series.sessions:
        return
    # A file that something uses has a fingerprint in the series.
    for file in sorted(inventory.stamps.keys() - series.digests.keys()):
        path = PurePosixPath(file)
        if path.suffix.lower() in _ENDINGS.get(path.parts[0], ()):
            key = f"captions: {file}" if path.parts[0] == "captions" else f"video: {{file: {file}}}"
            advice = f"add {key} to its episode, or move the file out of the content folder"
            yield found("warning", "unused-file", Location(file), "no episode uses this file", advice)
