"""A library to spoil."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from sitegen.checks import CHECKS, check_read
from sitegen.checks.material import Material
from sitegen.checks.recording import check_recordings
from sitegen.problems import Problem
from sitegen.reading.reader import read_content
from sitegen.resources import demo_folder
from tests.checks.library_folder import LibraryFolder


@pytest.fixture
def library(tmp_path: Path) -> LibraryFolder:
    """The starter series in a folder of its own."""
    return LibraryFolder(tmp_path)


@pytest.fixture(
    scope="session",
    params=[
        pytest.param(6, id="one recording in six"),
        pytest.param(1, id="every recording", marks=pytest.mark.thorough),
    ],
)
def demo_warnings(request: pytest.FixtureRequest) -> list[Problem]:
    """What the checks say of the demo; to hear its recordings takes as long as all the rest."""
    content = read_content(demo_folder())
    heard = [e.captions for e in content.series.episodes if e.captions] if content.series else []
    cues = {file: cues for file, cues in content.cues.items() if file in heard[:: request.param]}

    def some(material: Material) -> Iterator[Problem]:
        return check_recordings(replace(material, cues=cues))

    checks = [some if check is check_recordings else check for check in CHECKS]
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("sitegen.checks.CHECKS", tuple(checks))
        return check_read(content, demo_folder())
