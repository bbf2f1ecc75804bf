"""While a build runs: content that changes, a second build, and a user who may not write everywhere."""

import json
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


CLOSED = {
    "a cache that may not be written to": ("caches", 0o555, ["built"]),
    "no right to write beside the output folder": ("site", 0o555, ["Permission denied"]),
    "a file of the content": ("content/exercises/chair-squat.yaml", 0, ["cannot be read"]),
    "a folder of the content": ("content/exercises", 0, [""]),
    "an output folder of others": ("site/build", 0o555, ["cannot be moved", "Permission"]),
}
"""What somebody else may not use, the rights that it has, and what a build may say of it."""

_AS_SOMEBODY = """
import encodings.unicode_escape, json, os, sys, traceback, pathlib
from sitegen.building.build import Builder
from sitegen.problems import ContentError

def build(content, out):
    builder = Builder(content, out, jobs=1)
    builder.build()
    builder.remember()

def said_by_somebody(folder, closed, mode):
    os.chmod(folder / closed, mode)
    if os.geteuid() == 0:
        os.setgroups([]), os.setgid(65534), os.setuid(65534)
    os.environ["XDG_CACHE_HOME"] = str(folder / "caches")
    try:
        build(folder / "content", folder / "site/build")
    except ContentError as error:
        return "\\n".join(map(str, error.problems))
    except OSError as error:
        return f"{error.filename}: {error.strerror}"
    return "built"

warm = pathlib.Path(sys.argv[1])
build(warm / "content", warm / "build")  # loads every module, which another user might not be able to read
for folder, closed, mode in json.loads(sys.argv[2]):
    if os.fork() == 0:  # rights that are given up do not come back
        try:
            print(json.dumps([folder, said_by_somebody(pathlib.Path(folder), closed, mode)]), flush=True)
        except BaseException:
            traceback.print_exc()
        finally:
            os._exit(0)
    os.wait()
"""


@pytest.fixture
def open_folder() -> Any:
    """A folder that every user of this computer can look into."""
    with tempfile.TemporaryDirectory(prefix="sitegen-rights-") as name:
        os.chmod(name, 0o755)
        yield Path(name)


@pytest.mark.skipif(sys.platform == "win32", reason="rights are other things there")
def test_a_user_without_rights_loses_nothing(open_folder: Path) -> None:
    """Each in a folder of its own; one program tries them all, for to start it takes longer."""
    warm = open_folder / "warm"
    before = tree(SeriesFolder(warm).root)
    cases = []
    for what, (closed, mode, _) in CLOSED.items():
        folder = open_folder / what
        assert tree(SeriesFolder(folder).root) == before
        for name in ("caches", "site", "site/build"):
            (folder / name).mkdir()
            (folder / name).chmod(0o777)
        cases.append([str(folder), closed, mode])
    words = [sys.executable, "-c", _AS_SOMEBODY, str(warm), json.dumps(cases)]
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    for folder, closed, _ in cases:
        Path(folder, closed).chmod(0o755)
    assert (done.returncode, done.stderr) == (0, "")
    told = dict(map(json.loads, done.stdout.splitlines()))
    whole = tree(warm / "build")
    for what, (_, _, allowed) in CLOSED.items():
        folder = open_folder / what
        said, site = told[str(folder)], tree(folder / "site/build")
        assert any(word in said for word in allowed), (what, said)
        assert tree(folder / "content") == before, what
        assert site == (whole if said == "built" else {}), what
