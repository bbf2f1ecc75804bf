"""While a build runs: content that changes, a second build, and a user who may not write everywhere."""

import os
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from sitegen.building.build import Builder
from sitegen.problems import ContentError
from tests.building.kills import TITLES, entitle
from tests.building.scratch import made_from_scratch
from tests.folders import SeriesFolder
from tests.trees import differences, tree

POINTS = [4, pytest.param(16, marks=pytest.mark.thorough)]
"""Moments at which the content changes: before one of the files that a build opens, evenly spread."""


class Opened:
    """Counts the files below a folder that are opened; before one of them something is done."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.count, self.at = str(folder), 0, -1
        self.act: Callable[[], object] | None = None
        # A hook cannot be taken away again: it looks whether it is wanted.
        sys.addaudithook(self._look)

    def _look(self, event: str, arguments: tuple[Any, ...]) -> None:
        if self.act and event == "open" and str(arguments[0]).startswith(self.folder):
            self.count += 1
            if self.count > self.at >= 0:
                act, self.act = self.act, None
                act()


def build(content: Path, out: Path) -> None:
    """One build, as the command does it."""
    builder = Builder(content, out, jobs=1)
    builder.build()
    builder.remember()


def _edit_all(content: Path) -> None:
    """Save files that are read early, late and twice: the series, an exercise and a picture."""
    entitle(content, TITLES[1])
    exercise = content / "exercises/backpack-row.yaml"
    exercise.write_text(exercise.read_text().replace("name: Backpack", "name: Rucksack"))
    (content / "media/row.svg").write_text('<svg xmlns="http://www.w3.org/2000/svg"><!-- redrawn --></svg>')


def _a_series(root: Path) -> Path:
    series = SeriesFolder(root)
    series.write("media/row.svg", '<svg xmlns="http://www.w3.org/2000/svg"/>')
    picture = "pictures:\n  - {file: media/row.svg, alt: A row}\n"
    exercise = "exercises/backpack-row.yaml"
    series.write(exercise, (series.root / exercise).read_text() + picture)
    return series.root


def _said_of(content: Path, out: Path) -> list[str]:
    """What problems a build had."""
    try:
        build(content, out)
    except ContentError as error:
        return [problem.check for problem in error.problems]
    return []


@pytest.mark.parametrize("points", POINTS)
def test_content_that_changes_during_a_build_is_in_the_next(tmp_path: Path, points: int) -> None:
    content = _a_series(tmp_path / "first")
    opened = Opened(tmp_path)
    opened.act = lambda: None
    build(content, tmp_path / "first/build")
    opened.act = None
    whole = sum(path.is_file() for path in content.rglob("*"))
    for number in range(points):
        root = tmp_path / f"{number}"
        content, out = _a_series(root), root / "build"
        opened.folder, opened.count, opened.at = str(content), 0, number * whole // points
        opened.act = lambda content=content: _edit_all(content)  # type: ignore[misc]
        said = _said_of(content, out)
        assert opened.act is None
        assert said in ([], ["replaced"])  # a picture, while it was copied: then nothing is built
        assert bool(said) is (tree(out) == {})
        build(content, out)
        assert differences(tree(out), made_from_scratch(content)) == [], number


def test_of_builds_at_once_one_builds_and_the_others_say_so(tmp_path: Path) -> None:
    """Into the same folder: one after another, or refused. Into folders of their own: all of them."""
    content, one = SeriesFolder(tmp_path).root, tmp_path / "build"
    program = [sys.executable, "-m", "sitegen", "build", "--pages-only", "--content", str(content), "--out"]
    places = [one, one, tmp_path / "other"]
    running = [
        subprocess.Popen([*program, str(out)], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        for out in places
    ]
    ends = [(process.communicate(), process.returncode) for process in running]
    assert [status for _, status in ends if status] in ([], [1])
    for (_, said), status in ends:
        assert "is writing to" in said if status else said == ""
    wanted = made_from_scratch(content)
    for out in (one, tmp_path / "other"):
        assert differences(tree(out), wanted) == []
        build(content, out)  # what all of them remembered is good for the next build
        entitle(content, TITLES[1])
        build(content, out)
        assert differences(tree(out), made_from_scratch(content)) == []
        entitle(content, TITLES[0])


_AS_SOMEBODY = """
import encodings.unicode_escape, os, sys, pathlib
from sitegen.building.build import Builder
from sitegen.problems import ContentError

def build(out):
    builder = Builder(content, pathlib.Path(out), jobs=1)
    builder.build()
    builder.remember()

content = pathlib.Path(sys.argv[1])
build(sys.argv[2])  # loads every module that a build needs, which another user might not be able to read
if os.geteuid() == 0:
    os.setgroups([]), os.setgid(65534), os.setuid(65534)
os.environ["XDG_CACHE_HOME"] = sys.argv[4]
try:
    build(sys.argv[3])
except ContentError as error:
    print(*error.problems)
except OSError as error:
    print(f"{error.filename}: {error.strerror}")
else:
    print("built")
"""


@pytest.fixture
def open_folder() -> Any:
    """A folder that every user of this computer can look into."""
    with tempfile.TemporaryDirectory(prefix="sitegen-rights-") as name:
        os.chmod(name, 0o755)
        yield Path(name)


@pytest.mark.skipif(sys.platform == "win32", reason="rights are other things there")
@pytest.mark.parametrize(
    ("closed", "mode", "said"),
    [
        pytest.param("caches", 0o555, "built", id="a cache that may not be written to"),
        pytest.param("site", 0o555, "Permission denied", id="no right to write beside the output folder"),
        pytest.param("content/exercises/chair-squat.yaml", 0, "cannot be read", id="a file of the content"),
        pytest.param("content/exercises", 0, "", id="a folder of the content"),
        pytest.param("site/build", 0o555, "cannot be moved|Permission", id="an output folder of others"),
    ],
)
def test_a_user_without_rights_loses_nothing(open_folder: Path, closed: str, mode: int, said: str) -> None:
    content = SeriesFolder(open_folder).root
    for name in ("caches", "site", "site/build"):
        (open_folder / name).mkdir()
        (open_folder / name).chmod(0o777)
    warm, out = open_folder / "warm/build", open_folder / "site/build"
    before = tree(content)
    place = open_folder / closed
    script = _AS_SOMEBODY.replace("if os.geteuid", f"os.chmod({str(place)!r}, {mode})\nif os.geteuid")
    words = [sys.executable, "-c", script, *map(str, (content, warm, out, open_folder / "caches"))]
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    place.chmod(0o755)
    assert done.returncode == 0, done.stderr
    assert any(word in done.stdout for word in said.split("|")), done.stdout
    assert tree(content) == before
    assert tree(out) in ({}, tree(warm))
    assert (tree(out) == {}) is (done.stdout != "built\n")
