"""Finding the browser that prints."""

import os
from pathlib import Path

import pytest

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
