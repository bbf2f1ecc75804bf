"""The demo series in a folder of its own, with stand-ins for its videos, for tests to change."""

import shutil
from pathlib import Path

from sitegen.resources import demo_folder


def copy_demo(root: Path, episodes: int = 12) -> Path:
    """Copy the demo's content with its first episodes; videos are replaced by a few bytes."""
    content = root / "content"
    shutil.copytree(demo_folder(), content, ignore=shutil.ignore_patterns("*.webm", "*.mp4", "schema"))
    for video in demo_folder().glob("media/[0-9][0-9].[mw][pe]*"):
        (content / "media" / video.name).write_bytes(b"video " + video.name.encode())
    for path in sorted((content / "episodes").glob("*.yaml"))[episodes:]:
        path.unlink()
    return content


def replace(content: Path, file: str, old: str, new: str) -> None:
    """Replace words in a file; they must be there."""
    path = content / file
    text = path.read_text()
    if old not in text:
        raise AssertionError(f"{old!r} is not in {file}")
    path.write_text(text.replace(old, new, 1))
