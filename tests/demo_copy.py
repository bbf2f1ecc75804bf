"""The demo series in a folder of its own, with stand-ins for its videos, for tests to change."""

import re
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


def shorten(content: Path) -> None:
    """Leave one item to each routine, and two to each block, of which there are four with the routines."""
    for path in sorted(content.glob("routines/*.yaml")):
        path.write_text(_few_entries(path.read_text(), "  - exercise: ", 1))
    for path in sorted(content.glob("episodes/*.yaml")):
        text = _few_entries(path.read_text(), "      - exercise: ", 2)
        head, *blocks = re.split(r"^(?=  - )", text[text.index("blocks:") :], flags=re.M)
        own = [block for block in blocks if "routine:" not in block]
        kept = [block for block in blocks if "routine:" in block or block in own[-2:]]
        text = text[: text.index("blocks:")] + head + "".join(kept)
        path.write_text(re.sub("format: (tri-set|giant set)", "format: superset", text))


def _few_entries(text: str, begins: str, most: int) -> str:
    """The text with no more than so many entries of each list whose entries begin so."""
    kept: list[str] = []
    depth = len(begins) - len(begins.lstrip())
    entries = 0
    for line in text.splitlines(keepends=True):
        inner = len(line) - len(line.lstrip())
        if line.startswith(begins):
            entries += 1
        elif inner <= depth:
            entries = 0
        if entries <= most:
            kept.append(line)
    return "".join(kept)
