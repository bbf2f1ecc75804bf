"""A library to spoil."""

from pathlib import Path

import pytest

from sitegen.checks import check_content
from sitegen.problems import Problem
from sitegen.resources import demo_folder
from tests.checks.library_folder import LibraryFolder


@pytest.fixture
def library(tmp_path: Path) -> LibraryFolder:
    """The starter series in a folder of its own."""
    return LibraryFolder(tmp_path)


@pytest.fixture(scope="session")
def demo_warnings() -> list[Problem]:
    """What the checks say of the demo."""
    return check_content(demo_folder())
