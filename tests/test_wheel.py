"""The wheel works on its own: theme, demo and starter are inside it."""

import os
import re
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The unpacked wheel, built from the repository."""
    folder = tmp_path_factory.mktemp("wheel")
    words = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-build-isolation"]
    subprocess.run([*words, "--wheel-dir", str(folder), str(ROOT)], check=True)
    [wheel] = folder.glob("sitegen-*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder / "installed")
    return folder / "installed"


def python(installed: Path, folder: Path, *words: str) -> str:
    """Run Python in a folder with the wheel's package before all others."""
    result = subprocess.run(
        [sys.executable, *words],
        cwd=folder,
        env=os.environ | {"PYTHONPATH": str(installed)},
        capture_output=True,
        text=True,
        check=True,
    )
    return result.stdout


def test_it_holds_what_it_needs(installed: Path) -> None:
    for inside in ("_themes/tidewater/templates/base.html", "_demo/series.yaml", "starter/series.yaml"):
        assert (installed / "sitegen" / inside).is_file()
    assert not list(installed.rglob("*.pyc"))


def test_the_notices_of_what_others_made_go_along(installed: Path) -> None:
    """In the wheel's own folder of licences, and beside the files that they are about."""
    [metadata] = installed.glob("sitegen-*.dist-info")
    licences = metadata / "licenses"
    assert (licences / "LICENSE").is_file()
    notices = (licences / "themes/NOTICES.md").read_text(encoding="utf-8")
    themes = installed / "sitegen/_themes"
    vendored = [*themes.rglob("vendor/*.js"), *themes.rglob("*.woff2")]
    assert vendored
    for path in vendored:
        family = re.sub(r"-latin.*", "-*", path.stem)
        assert family in notices, path
    for licence in [*themes.rglob("*-OFL.txt"), *themes.rglob("*-LICENSE.txt")]:
        assert licence.name in notices
        assert (licences / "themes" / licence.relative_to(themes)).read_bytes() == licence.read_bytes()


@pytest.mark.parametrize(
    "options",
    [
        pytest.param([], id="the starter"),
        pytest.param(["--demo"], id="the demo", marks=pytest.mark.thorough),
    ],
)
def test_begin_and_build_in_an_empty_folder(installed: Path, tmp_path: Path, options: list[str]) -> None:
    where = python(installed, tmp_path, "-c", "import sitegen; print(sitegen.__file__)")
    assert where.startswith(str(installed))
    python(installed, tmp_path, "-m", "sitegen", "begin", "my-series", *options)
    python(installed, tmp_path, "-m", "sitegen", "build", "--pages-only")
    assert (tmp_path / "my-series/build/index.html").is_file()
