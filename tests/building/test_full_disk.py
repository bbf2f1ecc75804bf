"""A disk that is full, at whatever point of a build that shows: a message, and the site as it was."""

import errno
import os
import sys
from pathlib import Path
from typing import Any

import pytest

from sitegen.building.build import Builder
from tests.building.kills import TITLES, entitle
from tests.folders import SeriesFolder
from tests.trees import tree

POINTS = [6, pytest.param(30, marks=pytest.mark.thorough)]
"""Steps of a build at which the disk is full, evenly spread over all of them."""


class Disk:
    """Counts what is written below a folder; from one step on there is no space left."""

    def __init__(self, folder: Path) -> None:
        self.folder = str(folder)
        self.steps = 0
        self.full_from: int | None = None
        self.is_watched = False
        # A hook cannot be taken away again: it looks whether it is wanted.
        sys.addaudithook(self._look)

    def _look(self, event: str, arguments: tuple[Any, ...]) -> None:
        if self.is_watched and self._writes(event, arguments):
            self.steps += 1
            if self.full_from is not None and self.steps >= self.full_from:
                raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    def _writes(self, event: str, arguments: tuple[Any, ...]) -> bool:
        if event == "open":
            writing = bool(arguments[2] & (os.O_WRONLY | os.O_RDWR | os.O_CREAT))
            return writing and str(arguments[0]).startswith(self.folder)
        places = {"os.mkdir": 0, "os.link": 1}
        return event in places and str(arguments[places[event]]).startswith(self.folder)


def build(content: Path, out: Path) -> None:
    """One build, as the command does it."""
    builder = Builder(content, out, jobs=1)
    builder.build()
    builder.remember()


@pytest.mark.parametrize("points", POINTS)
def test_a_disk_that_is_full_at_any_point_leaves_the_site_as_it_was(tmp_path: Path, points: int) -> None:
    content, out, disk = SeriesFolder(tmp_path).root, tmp_path / "build", Disk(tmp_path)
    for title in (*TITLES, *TITLES):
        build(entitle(content, title), out)
    old = tree(out)
    disk.is_watched = True
    build(entitle(content, TITLES[0]), out)
    disk.is_watched = False
    whole, new = disk.steps, tree(out)
    build(entitle(content, TITLES[1]), out)
    assert tree(out) == old
    for number in range(points):
        entitle(content, TITLES[0])
        disk.steps, disk.full_from, disk.is_watched = 0, 1 + number * whole // points, True
        try:
            with pytest.raises(OSError, match="No space left"):
                build(content, out)
        finally:
            disk.is_watched = False
        assert tree(out) in (old, new), disk.full_from
        build(entitle(content, TITLES[1]), out)
        assert tree(out) == old, disk.full_from
