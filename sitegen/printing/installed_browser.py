"""The browser on this computer that prints PDF files, where there is one."""

import hashlib
import os
import shutil
import sys
from dataclasses import dataclass
from pathlib import Path

VARIABLE = "SITEGEN_BROWSER"
"""Names the browser's program where it is not found by itself."""

_NAMES = (
    "chromium",
    "chromium-browser",
    "chromium-headless-shell",
    "google-chrome",
    "google-chrome-stable",
    "microsoft-edge",
    "microsoft-edge-stable",
)
_MAC_PROGRAMS = (
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
)
_WINDOWS_FOLDERS = ("ProgramFiles", "ProgramFiles(x86)", "LOCALAPPDATA")
"""Variables that name the folders of programs for everybody (of 64 and 32 bits) and for this user."""
_WINDOWS_PROGRAMS = (
    ("Chromium", "Application", "chrome.exe"),
    ("Google", "Chrome", "Application", "chrome.exe"),
    ("Microsoft", "Edge", "Application", "msedge.exe"),
)
_BEHIND_WRAPPER = Path("/usr/lib/chromium")
"""Where Debian keeps the programs that scripts on the PATH start."""


@dataclass(frozen=True, slots=True)
class InstalledBrowser:
    """A browser of the Chromium family."""

    program: Path
    key: str
    """Changes with the program: another version may write other bytes."""


def find_browser() -> InstalledBrowser | None:
    """The browser named in the environment, or the first one found; None where there is none."""
    named = os.environ.get(VARIABLE)
    candidates = [named] if named else [*filter(None, map(shutil.which, _NAMES)), *_off_the_path()]
    program = next((Path(path) for path in candidates if os.access(path, os.X_OK)), None)
    return InstalledBrowser(program, _key(program)) if program is not None else None


def _off_the_path() -> list[str]:
    """Where macOS and Windows keep programs that are on no PATH."""
    if sys.platform == "darwin":
        return list(_MAC_PROGRAMS)
    if sys.platform == "win32":
        folders = filter(None, map(os.environ.get, _WINDOWS_FOLDERS))
        return [os.path.join(folder, *program) for folder in folders for program in _WINDOWS_PROGRAMS]
    return []


def _key(program: Path) -> str:
    behind = _BEHIND_WRAPPER / program.name
    files = [program.resolve(), *([behind] if behind.is_file() else [])]
    stats = [file.stat() for file in files]
    known_by = [(str(file), stat.st_size, stat.st_mtime_ns) for file, stat in zip(files, stats, strict=True)]
    return hashlib.blake2b(repr(known_by).encode("utf-8", "surrogateescape"), digest_size=12).hexdigest()
