"""The lock files name one version, with hashes, for everything that pyproject.toml asks for."""

import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.conftest import ROOT

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
EXTRAS = PROJECT["optional-dependencies"]
LOCKS = {
    "requirements.lock": ("publish-sftp", "publish-s3", "publish-brotli"),
    "tests/requirements.lock": ("test", "dev", "publish-sftp", "publish-s3", "publish-brotli"),
}
WITHOUT_BOUND = {"tzdata", "types-PyYAML", "sitegen"}
"""Data of which the newest is right; types for a library that has a bound; ourselves."""


def locked(file: Path) -> dict[str, set[str]]:
    """Versions by name (there may be one for each system); all of them have hashes."""
    versions: dict[str, set[str]] = {}
    for entry in re.split(r"\n(?=\S)", file.read_text()):
        if found := re.match(r"([\w.-]+)==([\w.!+]+)", entry):
            assert "--hash=sha256:" in entry, found[0]
            versions.setdefault(canonicalize_name(found[1]), set()).add(found[2])
    return versions


@pytest.mark.parametrize(("file", "extras"), LOCKS.items(), ids=LOCKS.keys())
def test_what_is_locked_is_what_is_asked_for(file: str, extras: tuple[str, ...]) -> None:
    versions = locked(ROOT / file)
    for line in (*PROJECT["dependencies"], *(line for extra in extras for line in EXTRAS[extra])):
        wanted = Requirement(line)
        if wanted.name != "sitegen":
            found = versions[canonicalize_name(wanted.name)]
            assert all(wanted.specifier.contains(version) for version in found), (line, found)


def test_both_files_have_the_same_versions() -> None:
    every, some = locked(ROOT / "tests/requirements.lock"), locked(ROOT / "requirements.lock")
    assert {name: every[name] for name in some} == some


def test_a_next_version_that_may_break_is_not_taken_by_itself() -> None:
    for line in (*PROJECT["dependencies"], *(line for extra in EXTRAS.values() for line in extra)):
        wanted = Requirement(line)
        assert "<" in str(wanted.specifier) or wanted.name in WITHOUT_BOUND, line
