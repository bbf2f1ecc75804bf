"""What is costly to make and only looked at is made once in a run, by the worker that needs it first."""

import fcntl
import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest


def made_once(factory: pytest.TempPathFactory, name: str, make: Callable[[Path], object]) -> Path:
    """The folder that ``make`` filled, for all workers: nobody may write to it.

    A test that has to write takes a copy. The others wait at a lock while one makes it; where making fails,
    the next worker tries, and fails as well. ``name`` is one for the whole suite.
    """
    base = factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        base = base.parent  # each worker has a folder in that of the run
    folder, whole = base / f"shared-{name}", base / f"shared-{name}.whole"
    with (base / f"shared-{name}.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not whole.exists():
            shutil.rmtree(folder, ignore_errors=True)
            folder.mkdir()
            make(folder)
            whole.touch()
    return folder
