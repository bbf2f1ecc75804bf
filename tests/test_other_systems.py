"""The program on other systems: run where what only POSIX or Linux has is missing, as on Windows."""

import errno
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from sitegen.building import swap as swapping
from sitegen.building.build import Builder
from sitegen.printing.installed_browser import VARIABLE, find_browser
from sitegen.system import cache_folders, parallel
from tests.browser.printed import read_pages
from tests.building.scratch import made_from_scratch
from tests.demo_copy import replace
from tests.folders import SeriesFolder
from tests.trees import differences, tree

_AS_ON_WINDOWS = """
import ctypes, fcntl, importlib, importlib.abc, os, pkgutil, sys, types
import sitegen

OPTIONAL = ("sitegen.publishing.sftp", "sitegen.publishing.bucket")  # their libraries choose by the system
MISSING = ("fcntl", "grp", "pwd", "resource", "termios", "tty")
CALLS = ("fork", "geteuid", "getuid", "killpg", "posix_spawn", "sched_getaffinity")

def load_all():
    for module in pkgutil.walk_packages(sitegen.__path__, "sitegen."):
        if module.name not in OPTIONAL and module.name != "sitegen.__main__":
            importlib.import_module(module.name)

class Missing(importlib.abc.MetaPathFinder):
    def find_spec(self, name, path=None, target=None):
        if name in MISSING:
            raise ModuleNotFoundError(f"No module named {name!r}", name=name)

def locking(descriptor, mode, count):
    fcntl.lockf(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB, count, os.lseek(descriptor, 0, os.SEEK_CUR))

def no_library_of_all(name, **_):
    raise TypeError("argument of type 'NoneType' is not iterable")

def no_link(*_, **__):
    raise NotImplementedError("link: follow_symlinks unavailable on this platform")

# Libraries have been loaded for this system and stay; our own modules are loaded again for the other.
load_all()
for name in [name for name in sys.modules if name in MISSING or name.startswith("sitegen.")]:
    del sys.modules[name]
sys.meta_path.insert(0, Missing())
sys.modules["msvcrt"] = types.ModuleType("msvcrt")
sys.modules["msvcrt"].locking, sys.modules["msvcrt"].LK_NBLCK = locking, 2
sys.platform, ctypes.CDLL, os.link = "win32", no_library_of_all, no_link
for name in CALLS:
    delattr(os, name)
load_all()
"""

_BUILD = """
from sitegen.cli import main
sys.exit(main(["build", "--content", sys.argv[1], "--out", *sys.argv[2:]]))
"""

_BUILD_TWICE_AND_HOLD_THE_LOCK = """
from pathlib import Path
from sitegen.building.build_directory import BuildDirectory
from sitegen.cli import main
for words in (["--pages-only"], []):
    status = main(["build", "--content", sys.argv[1], "--out", sys.argv[2], *words])
    print(f"\\nbuilt {status}", flush=True)
    sys.stdin.readline()
with BuildDirectory(Path(sys.argv[2])):
    print("\\nlocked", flush=True)
    sys.stdin.readline()
"""
"""Says how far it is, and waits each time for a line."""


def as_on_windows(script: str, *words: str) -> list[str]:
    return [sys.executable, "-c", _AS_ON_WINDOWS + script, *words]


@pytest.fixture
def browser(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The browser of this system, without the sandbox that it cannot have for the superuser."""
    found = find_browser()
    if found is None:
        pytest.fail("these tests need Chromium: apt-get install chromium")
    program = tmp_path / "browser"
    program.write_text(f'#!/bin/sh\nexec {found.program} --no-sandbox "$@"\n')
    program.chmod(0o755)
    monkeypatch.setenv(VARIABLE, str(program))


@pytest.mark.usefixtures("browser")
def test_windows_builds_prints_and_keeps_a_second_build_out(tmp_path: Path) -> None:
    content, out, here = SeriesFolder(tmp_path).root, tmp_path / "build", tmp_path / "here"
    replace(content, "series.yaml", "title: ", "title: First ")
    program = as_on_windows(_BUILD_TWICE_AND_HOLD_THE_LOCK, str(content), str(out))
    pipes = dict.fromkeys(("stdin", "stdout", "stderr"), subprocess.PIPE)
    with subprocess.Popen(program, text=True, **pipes) as builder:
        assert builder.stdin is not None
        assert builder.stdout is not None
        said = (line.strip() for line in builder.stdout if line.startswith(("built", "locked")))
        assert next(said, "ended") == "built 0"
        replace(content, "series.yaml", "title: ", "title: Second ")
        print(file=builder.stdin, flush=True)
        assert next(said, "ended") == "built 0"

        Builder(content, here, jobs=1, pdf=True).build()
        papers = sorted(str(path.relative_to(here)) for path in here.rglob("*.pdf"))
        assert len(papers) == 3
        assert set(differences(tree(out), tree(here))) <= set(papers)
        for path in papers:
            assert is_set_alike(out / path, here / path), path

        print(file=builder.stdin, flush=True)
        assert next(said, "ended") == "locked"
        replace(content, "series.yaml", "title: ", "title: Third ")
        second = subprocess.run(
            as_on_windows(_BUILD, str(content), str(out)), capture_output=True, text=True, check=False
        )
        assert f"another build (process {builder.pid}) is writing" in second.stderr
        assert builder.communicate("\n")[1] == ""


def is_set_alike(one: Path, other: Path) -> bool:
    """Whether two PDF files have the same characters, within 0.5 mm: A4 is rounded in two ways."""
    pages = [read_pages(pdf.read_bytes()) for pdf in (one, other)]
    words, places = [
        [[extract(glyph) for page in pdf for glyph in page.glyphs] for pdf in pages]
        for extract in (lambda glyph: glyph.character, lambda glyph: (glyph.left, glyph.top))
    ]
    return words[0] == words[1] and len(pages[0]) == len(pages[1]) and np.allclose(*places, atol=1.4, rtol=0)


class Library:
    """The calls of a system: those of this one under the name that macOS has for it, or none."""

    def __init__(self, call: Callable[..., int] | None) -> None:
        if call is not None:
            self.renamex_np = call


def _exchange_as_on_macos(one: bytes, two: bytes, flags: int) -> int:
    os.rename(one, one + b".aside")
    os.rename(two, one)
    os.rename(one + b".aside", two)
    return 0


@pytest.mark.parametrize(
    ("platform", "library"),
    [
        pytest.param(sys.platform, None, id="here"),
        pytest.param("darwin", Library(_exchange_as_on_macos), id="macOS"),
        pytest.param("darwin", Library(None), id="a macOS before 10.12"),
        pytest.param("linux", Library(None), id="a Linux without the call"),
        pytest.param("win32", None, id="Windows"),
    ],
)
def test_two_folders_change_places(
    platform: str, library: Library | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(swapping, "sys", SimpleNamespace(platform=platform))
    if library is not None:
        monkeypatch.setattr(swapping.ctypes, "CDLL", lambda *_, **__: library)
    finished, place = tmp_path / "next", tmp_path / "build"
    for folder, word in ((finished, "new"), (place, "old")):
        folder.mkdir()
        (folder / "index.html").write_text(word)
    swapping._exchange_call.cache_clear()
    try:
        swapping.swap(finished, place)
    finally:
        swapping._exchange_call.cache_clear()
    assert [(path / "index.html").read_text() for path in (place, finished)] == ["new", "old"]
    assert sorted(path.name for path in tmp_path.iterdir()) == ["build", "next"]


@pytest.mark.parametrize(("code", "is_refused"), [(errno.EINVAL, False), (errno.EACCES, True)])
def test_a_file_system_that_cannot_exchange_is_helped_and_a_refusal_told(
    code: int, is_refused: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(swapping, "_exchange_call", lambda: lambda *_: -1)
    monkeypatch.setattr(swapping.ctypes, "get_errno", lambda: code)
    for name in ("next", "build"):
        (tmp_path / name).mkdir()
        (tmp_path / name / name).touch()
    if is_refused:
        with pytest.raises(PermissionError, match="build"):
            swapping.swap(tmp_path / "next", tmp_path / "build")
    else:
        swapping.swap(tmp_path / "next", tmp_path / "build")
    assert (tmp_path / "build" / "next").exists() is not is_refused


@pytest.mark.parametrize(
    ("platform", "variables", "folder"),
    [
        ("darwin", {}, "home/Library/Caches"),
        ("win32", {"LOCALAPPDATA": "local"}, "local"),
        ("win32", {}, "home/.cache"),
        ("linux", {}, "home/.cache"),
    ],
)
def test_caches_lie_where_the_system_has_them(
    platform: str, variables: dict[str, str], folder: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As the XDG specification, Apple's File System Programming Guide and Windows' profiles have it."""
    monkeypatch.delenv("XDG_CACHE_HOME", raising=False)
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    for name, value in variables.items():
        monkeypatch.setenv(name, str(tmp_path / value))
    monkeypatch.setattr(cache_folders, "sys", SimpleNamespace(platform=platform))
    if platform == "win32":  # who the user is cannot be asked there
        monkeypatch.delattr(os, "geteuid")
    assert cache_folders.template_cache() == tmp_path / folder / "sitegen" / "templates"


def test_the_number_of_cores_is_known_where_they_cannot_be_shared_out(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.delattr(os, "sched_getaffinity")
    assert parallel.usable_cores() == os.cpu_count()


_WITHOUT_LIBYAML = """
import sys
sys.modules["yaml._yaml"] = None
from sitegen.cli import main
sys.exit(main(["build", "--content", sys.argv[1], "--out", sys.argv[2], "--pages-only"]))
"""


def test_without_libyaml_the_site_is_the_same(tmp_path: Path) -> None:
    content, out = SeriesFolder(tmp_path).root, tmp_path / "build"
    command: list[Any] = [sys.executable, "-c", _WITHOUT_LIBYAML, content, out]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert differences(tree(out), made_from_scratch(content)) == []
