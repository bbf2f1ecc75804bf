"""The demo series in a folder of its own, with stand-ins for its videos, for tests to change."""

import shutil
from collections.abc import Collection
from pathlib import Path

from sitegen.reading.reader import read_series
from tests.four_weeks import four_weeks


def copy_demo(root: Path, episodes: int = 12) -> Path:
    """Copy the demo's content with its first episodes; videos are replaced by a few bytes."""
    content = root / "content"
    shutil.copytree(four_weeks(), content, ignore=shutil.ignore_patterns("*.webm", "*.mp4", "schema"))
    for video in four_weeks().glob("media/[0-9][0-9].[mw][pe]*"):
        (content / "media" / video.name).write_bytes(b"video " + video.name.encode())
    for path in sorted((content / "episodes").glob("*.yaml"))[episodes:]:
        path.unlink()
    return content


def leave_out_unused(content: Path, but: Collection[str] = (), spare: int = 0) -> None:
    """Leave out exercises that no session or routine needs, some named ones and ``spare`` others excepted.

    Most pages are of exercises: what is left takes half as long to build.
    """
    series = read_series(content)
    waiting = [exercise for episode in series.episodes for exercise in episode.exercises]
    routines = "".join(path.read_text() for path in content.glob("routines/*.yaml"))
    waiting += [exercise for exercise in series.exercises if f"exercise: {exercise}" in routines]
    used: set[str] = set()
    while waiting:
        exercise = waiting.pop()
        if exercise not in used:
            used.add(exercise)
            waiting += series.exercises[exercise].links
    for exercise in sorted(series.exercises.keys() - used - {*but})[spare:]:
        (content / f"exercises/{exercise}.yaml").unlink()


def replace(content: Path, file: str, old: str, new: str) -> None:
    """Replace words in a file; they must be there."""
    path = content / file
    text = path.read_text()
    if old not in text:
        raise AssertionError(f"{old!r} is not in {file}")
    path.write_text(text.replace(old, new, 1))
