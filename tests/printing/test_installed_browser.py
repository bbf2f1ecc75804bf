"""Finding the browser that prints."""

import os
from pathlib import Path
from types import SimpleNamespace

import pytest

from sitegen.printing import installed_browser
from sitegen.printing.installed_browser import VARIABLE, find_browser


@pytest.fixture
def program(tmp_path: Path) -> Path:
    path = tmp_path / "bin" / "chromium"
    path.parent.mkdir()
    path.write_text("#!/bin/sh\n")
    path.chmod(0o755)
    return path


def test_the_browser_on_the_path_is_found(program: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(VARIABLE, raising=False)
    monkeypatch.setenv("PATH", str(program.parent))
    engine = find_browser()
    assert engine is not None
    assert engine.program == program


def test_the_one_named_comes_first(program: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    named = program.with_name("my-browser")
    named.write_text("#!/bin/sh\n")
    named.chmod(0o755)
    monkeypatch.setenv("PATH", str(program.parent))
    monkeypatch.setenv(VARIABLE, str(named))
    engine = find_browser()
    assert engine is not None
    assert engine.program == named


def test_none_is_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.delenv(VARIABLE, raising=False)
    assert find_browser() is None
    monkeypatch.setenv(VARIABLE, str(tmp_path / "not-there"))
    assert find_browser() is None


def test_another_version_has_another_key(program: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(VARIABLE, str(program))
    before = find_browser()
    assert find_browser() == before
    os.utime(program, (1, 1))
    assert find_browser() != before


@pytest.mark.parametrize(
    ("platform", "variable", "place"),
    [
        ("win32", "ProgramFiles(x86)", "Microsoft/Edge/Application/msedge.exe"),
        ("win32", "LOCALAPPDATA", "Google/Chrome/Application/chrome.exe"),
        ("darwin", "", "Applications/Chromium"),
    ],
)
def test_programs_that_are_on_no_path_are_found(
    platform: str, variable: str, place: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where Windows and macOS have their programs, by common practice of the makers' installers."""
    program = tmp_path / place
    program.parent.mkdir(parents=True)
    program.touch(0o755)
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.delenv(VARIABLE, raising=False)
    for name in ("ProgramFiles", "ProgramFiles(x86)", "LOCALAPPDATA"):
        monkeypatch.delenv(name, raising=False)
    if variable:
        monkeypatch.setenv(variable, str(tmp_path))
    monkeypatch.setattr(installed_browser, "sys", SimpleNamespace(platform=platform))
    monkeypatch.setattr(installed_browser, "_MAC_PROGRAMS", (str(program),))
    found = find_browser()
    assert found is not None
    assert found.program == program
