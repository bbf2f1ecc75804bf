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
_BEHIND_WRAPPER = Path("/usr/lib/chromium")
"""Where Debian keeps the programs that scripts on the PATH start."""


@dataclass(frozen=True, slots=True)
class InstalledBrowser:
    """A browser of the Chromium family."""

    program: Path
    key: str
    """Changes with the program: another version may write other bytes."""


def find_browser() -> InstalledBrowser | None:
    """The browser named in the environment, or the first one found; None where there is none.

    Not on Windows: the browser is spoken to through two inherited pipes, for which Python there
    has no means.
    """
    if not hasattr(os, "posix_spawn"):
        return None
    named = os.environ.get(VARIABLE)
    candidates = [named] if named else [*filter(None, map(shutil.which, _NAMES)), *_on_mac()]
    program = next((Path(path) for path in candidates if os.access(path, os.X_OK)), None)
    return InstalledBrowser(program, _key(program)) if program is not None else None


def _on_mac() -> tuple[str, ...]:
    return _MAC_PROGRAMS if sys.platform == "darwin" else ()


def _key(program: Path) -> str:
    behind = _BEHIND_WRAPPER / program.name
    files = [program.resolve(), *([behind] if behind.is_file() else [])]
    stats = [file.stat() for file in files]
    known_by = [(str(file), stat.st_size, stat.st_mtime_ns) for file, stat in zip(files, stats, strict=True)]
    return hashlib.blake2b(repr(known_by).encode("utf-8", "surrogateescape"), digest_size=12).hexdigest()
