"""Builds with PDF files, without them, and where no browser can make them."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

from sitegen.building.build import Builder
from sitegen.printing.installed_browser import VARIABLE
from tests.building.scratch import made_from_scratch
from tests.demo_copy import copy_demo, leave_out_unused, replace
from tests.folders import SeriesFolder
from tests.trees import differences, tree


@pytest.fixture
def content(tmp_path: Path) -> Path:
    """A small series of one session."""
    return SeriesFolder(tmp_path).root


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    """Two sessions of the demo, with captions and media."""
    content = copy_demo(tmp_path, episodes=2)
    leave_out_unused(content)
    return content


def run(content: Path, out: Path, *words: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "sitegen", "build", "--content", str(content), "--out", str(out), *words]
    return subprocess.run(command, capture_output=True, text=True, check=False)


def pdf_files(site: Path) -> set[str]:
    return {str(path.relative_to(site)) for path in site.rglob("*.pdf")}


def links_to_pdf(site: Path) -> int:
    return sum(page.read_text("utf-8").count('.pdf"') for page in site.rglob("*.html"))


def pictures_told(site: Path) -> set[str]:
    """The pictures that pages name to messengers, and that are there."""
    pages = (page.read_text("utf-8") for page in site.rglob("*.html"))
    found = {
        one for page in pages for one in re.findall(r'"og:image" content="https://[^/"]+/([^"]+)"', page)
    }
    return {address for address in found if (site / address).is_file()}


def test_every_session_has_its_files_and_every_sheet_links_to_them(content: Path, tmp_path: Path) -> None:
    out = tmp_path / "build"
    result = run(content, out)
    assert result.returncode == 0
    assert "PDF" not in result.stdout
    assert pdf_files(out) == {
        f"episodes/first-steps/sheet-{paper}.pdf" for paper in ("a4", "large", "letter")
    }
    assert links_to_pdf(out) == 3 * 3
    assert pictures_told(out) == {"picture.png", "episodes/first-steps/picture.png"}


def test_without_them_there_is_no_file_and_no_link(content: Path, tmp_path: Path) -> None:
    out = tmp_path / "build"
    run(content, out)
    assert run(content, out, "--pages-only").returncode == 0
    assert pdf_files(out) == set()
    assert (links_to_pdf(out), pictures_told(out)) == (0, set())
    assert differences(tree(out), made_from_scratch(content)) == []


@pytest.mark.parametrize(
    ("program", "words"),
    [
        pytest.param("not-there", "no browser of the Chromium family was found", id="none is installed"),
        pytest.param("#!/bin/sh\nexit 1\n", "the browser ended", id="it does not start"),
        pytest.param("not a program", "Exec format error", id="it is no program"),
    ],
)
def test_where_it_cannot_be_done_the_build_says_so_in_one_line_and_goes_on(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, program: str, words: str
) -> None:
    path = tmp_path / "browser"
    if program != "not-there":
        path.write_text(program)
        path.chmod(0o755)
    monkeypatch.setenv(VARIABLE, str(path))
    out = tmp_path / "build"
    result = run(content, out)
    assert (result.returncode, result.stderr) == (0, "")
    assert [
        line for line in result.stdout.splitlines() if words in line and "sheets without PDF files" in line
    ]
    assert pdf_files(out) == set()
    assert differences(tree(out), made_from_scratch(content, pictures=True)) == []


def test_a_browser_that_comes_later_is_noticed(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "build"
    with monkeypatch.context() as without:
        without.setenv(VARIABLE, str(tmp_path / "not-there"))
        run(content, out)
    assert pdf_files(out) == set()
    run(content, out)
    assert len(pdf_files(out)) == 3


def test_a_sheet_of_more_than_one_page_is_named(demo: Path, tmp_path: Path) -> None:
    out = tmp_path / "build"
    items = "".join(f'      - {{exercise: chair-squat, dose: "{n}"}}\n' for n in range(1, 30))
    replace(
        demo,
        "episodes/01-cast-off.yaml",
        "      - exercise: high-knee-march\n",
        items + "      - exercise: high-knee-march\n",
    )
    result = run(demo, out, "--pages-only")
    assert "longer than one page: episodes/cast-off/sheet/index.html" in result.stdout


def test_captions_and_media_are_not_on_a_sheet(demo: Path, tmp_path: Path) -> None:
    """What a sheet does not show does not print it again."""
    out = tmp_path / "build"
    Builder(demo, out, jobs=1, pdf=True).build()
    replace(demo, "captions/01.vtt", " the ", " our ")
    (demo / "media/01.webm").write_bytes(b"filmed again")
    made = Builder(demo, out, jobs=1, pdf=True).build().written.made
    assert "episodes/cast-off/index.html" in made
    assert [address for address in made if "sheet" in address] == []
