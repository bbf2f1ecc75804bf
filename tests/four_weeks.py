"""The demo's first four weeks, twelve sessions: the series that tests count and look at.

The demo goes on after them; what it has to say as a whole is asked of ``demo_folder()`` in
``tests/checks/test_demo.py``. So a session more costs the suite a check of it, and no number changes.
"""

import atexit
import shutil
import tempfile
from functools import cache
from pathlib import Path

from sitegen.resources import demo_folder

SESSIONS = 12


@cache
def four_weeks() -> Path:
    """A content folder with these sessions, made once in a process; nobody may change it."""
    folder = Path(tempfile.mkdtemp(prefix="four-weeks-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)

    def later(_: str, names: list[str]) -> list[str]:
        return [name for name in names if name[:2].isdigit() and int(name[:2]) > SESSIONS]

    return Path(shutil.copytree(demo_folder(), folder / "content", ignore=later))
