"""The recipe for building elsewhere, run here: install, check, build, publish."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import ROOT
from tests.folders import SeriesFolder

RECIPE = ROOT / ".ci" / "build_and_publish.sh"


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """A folder as such a service checks it out."""
    series = SeriesFolder(tmp_path)
    series.make_own()
    text = (series.root / "series.yaml").read_text()
    series.write("series.yaml", f"{text}\npublish: {{home: {{to: folder, path: web}}}}\n")
    return tmp_path


def run(checkout: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        ["sh", str(RECIPE)],
        cwd=checkout,
        env=os.environ | {"SITEGEN_VENV": sys.prefix, "BUILD_FLAGS": "--pages-only"} | environment,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=False,
    )


def test_it_publishes(checkout: Path) -> None:
    done = run(checkout)
    assert done.returncode == 0, done.stderr
    steps = [line for line in done.stdout.splitlines() if line.startswith("== ")]
    assert steps == ["== check", "== build", "== publish"]
    built = {p.relative_to(checkout / "build"): p.read_bytes() for p in (checkout / "build").rglob("*.*")}
    assert {p: (checkout / "web" / p).read_bytes() for p in built} == built


def test_it_stops_at_a_problem_and_nothing_goes_out(checkout: Path) -> None:
    page = checkout / "content/pages/safety.md"
    page.write_text(page.read_text() + "\n<script>x</script>\n")
    done = run(checkout, TARGET="home")
    assert done.returncode == 1
    assert "<script>" in done.stdout
    assert "== build" not in done.stdout
    assert not (checkout / "web").exists()


def test_it_installs_what_is_not_there(checkout: Path) -> None:
    """With a stand-in for Python, for a real installation needs the network: the words that count."""
    told = checkout / "told"
    python = checkout / "a-python"
    python.write_text(
        f'#!/bin/sh\necho "$@" >> "{told}"\n'
        'if [ "$2" = venv ]; then mkdir -p "$3/bin" && cp "$0" "$3/bin/python"; fi\n'
    )
    python.chmod(0o755)
    done = run(checkout, PYTHON=str(python), SITEGEN_VENV="fresh", SITEGEN="sitegen[publish-s3]")
    assert done.stdout.startswith("== install")
    assert told.read_text().splitlines() == [
        "-m venv fresh",
        "-m pip install --quiet --disable-pip-version-check sitegen[publish-s3]",
    ]
