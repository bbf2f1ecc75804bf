"""The three invented clients' files, made once."""

import shutil
from pathlib import Path

import pytest

from sitegen.cli import main
from tests.clients.people import PEOPLE, series_with_people
from tests.shared_builds import made_once


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A series folder in which everything was made for every client."""

    def make(root: Path) -> None:
        content = series_with_people(root)
        for number, name in enumerate(PEOPLE):
            # One PDF file is enough: printing takes longer than all the rest.
            options = ["--content", str(content), "--today", "2026-11-26", *(["--no-pdf"] if number else [])]
            assert main(["client", name, *options]) == 0

    # A copy, for what comes back from clients is written beside their files.
    shared = made_once(tmp_path_factory, "clients", make)
    return Path(shutil.copytree(shared, tmp_path_factory.mktemp("series") / "own"))
