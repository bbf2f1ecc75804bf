"""What ffprobe tells of a video and what ffmpeg makes of it, where they are installed.

Both are asked for local files only, with a time limit: a video may come from somebody else.
"""

import os
import shutil
import subprocess
from pathlib import Path

_SECONDS_TO_WAIT = 60
"""Either tool is done within a few; a broken or hostile file may keep it for ever (our choice)."""
_LOCAL_ONLY = ("-protocol_whitelist", "file")
POSTER_WIDTH = 1280
"""Widest poster, in pixels."""


class MediaFault(Exception):
    """The tool is there, but cannot make sense of the video."""


def can_probe() -> bool:
    """True where ffprobe is installed."""
    return shutil.which("ffprobe") is not None


def can_draw() -> bool:
    """True where ffmpeg is installed."""
    return shutil.which("ffmpeg") is not None


def probe_length(video: Path) -> int:
    """Length of a video in whole seconds, cut. Raises MediaFault where ffprobe finds none."""
    entries = ("-show_entries", "format=duration", "-of", "csv=print_section=0")
    written = _run("ffprobe", "-v", "error", *_LOCAL_ONLY, *entries, _local(video))
    try:
        return int(float(written))
    except (ValueError, OverflowError):
        raise MediaFault("ffprobe finds no length in it") from None


def draw_poster(video: Path, second: float, target: Path) -> None:
    """Write the picture at ``second`` as a JPEG, the same bytes every time.

    Raises MediaFault where ffmpeg cannot. ``target`` is complete or not there.
    """
    # A name that no other process writes to at the same time.
    part = target.with_name(f"{target.name}.{os.getpid()}.part")
    picture = ("-frames:v", "1", "-vf", f"scale='min({POSTER_WIDTH},iw)':-2", "-q:v", "4")
    same_bytes = ("-threads", "1", "-fflags", "+bitexact", "-flags:v", "+bitexact", "-map_metadata", "-1")
    source = ("-ss", f"{second:g}", *_LOCAL_ONLY, "-i", _local(video))
    try:
        quietly = ("-v", "error", "-nostdin", "-y")
        _run("ffmpeg", *quietly, *source, *picture, *same_bytes, "-f", "mjpeg", str(part))
        if not part.is_file() or part.stat().st_size == 0:
            raise MediaFault(f"ffmpeg finds no picture at {second:g} s")
        part.replace(target)
    finally:
        part.unlink(missing_ok=True)


def _local(video: Path) -> str:
    # With its scheme a name is never an option or another protocol.
    return f"file:{os.path.abspath(video)}"


def _run(*command: str) -> str:
    try:
        done = subprocess.run(
            command, stdin=subprocess.DEVNULL, capture_output=True, timeout=_SECONDS_TO_WAIT, check=False
        )
    except subprocess.TimeoutExpired:
        raise MediaFault(f"{command[0]} took more than {_SECONDS_TO_WAIT} seconds") from None
    except OSError as error:
        raise MediaFault(f"{command[0]} cannot be run ({error.strerror or error})") from None
    if done.returncode:
        said = done.stderr.decode(errors="replace").strip().splitlines()
        # The last line says why, and its end; before it stands how ffmpeg was built.
        raise MediaFault(said[-1][-200:] if said else f"{command[0]} failed")
    return done.stdout.decode(errors="replace").strip()
