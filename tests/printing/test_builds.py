"""Builds with PDF files, without them, and where no browser can make them."""

import io
import re
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path
from typing import NamedTuple

import pytest

from sitegen.building.build import Builder
from sitegen.cli import main
from sitegen.printing.installed_browser import VARIABLE
from tests.building.scratch import made_from_scratch
from tests.folders import SeriesFolder
from tests.trees import differences, tree


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small series of one session, only to be looked at."""
    return SeriesFolder(tmp_path_factory.mktemp("small")).root


@pytest.fixture(scope="module")
def with_pictures(content: Path) -> dict[str, str]:
    """What a build of it writes, PDF files left out."""
    return made_from_scratch(content, pictures=True)


class Said(NamedTuple):
    """What the command answered."""

    returncode: int
    stdout: str
    stderr: str


def run(content: Path, out: Path, *words: str) -> Said:
    said, complained = io.StringIO(), io.StringIO()
    with redirect_stdout(said), redirect_stderr(complained):
        status = main(["build", "--content", str(content), "--out", str(out), *words])
    return Said(status, said.getvalue(), complained.getvalue())


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


def test_every_session_has_its_files_and_every_sheet_links_to_them_unless_pages_only_are_asked_for(
    content: Path, tmp_path: Path
) -> None:
    out = tmp_path / "build"
    result = run(content, out)
    assert result.returncode == 0
    assert "PDF" not in result.stdout
    assert pdf_files(out) == {
        f"episodes/first-steps/sheet-{paper}.pdf" for paper in ("a4", "large", "letter")
    }
    assert links_to_pdf(out) == 3 * 3
    assert pictures_told(out) == {"picture.png", "episodes/first-steps/picture.png"}

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
    content: Path,
    with_pictures: dict[str, str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    program: str,
    words: str,
) -> None:
    path = tmp_path / "browser"
    if program != "not-there":
        path.write_text(program)
        path.chmod(0o755)
    out = tmp_path / "build"
    with monkeypatch.context() as without:
        without.setenv(VARIABLE, str(path))
        result = run(content, out)
    assert (result.returncode, result.stderr) == (0, "")
    assert [
        line for line in result.stdout.splitlines() if words in line and "sheets without PDF files" in line
    ]
    assert pdf_files(out) == set()
    assert differences(tree(out), with_pictures) == []
    if program == "not-there":  # a browser that comes later is noticed
        run(content, out)
        assert len(pdf_files(out)) == 3


def test_a_sheet_of_more_than_one_page_is_named(tmp_path: Path) -> None:
    series = SeriesFolder(tmp_path)
    row = "      - {exercise: jumping-jack, "
    items = "".join(f'      - {{exercise: chair-squat, dose: "{n}"}}\n' for n in range(1, 36))
    series.edit("episodes/01-first-steps.yaml", row, items + row)
    result = run(series.root, tmp_path / "build", "--pages-only")
    assert "longer than one page: episodes/first-steps/sheet/index.html" in result.stdout


def test_captions_and_media_are_not_on_a_sheet(tmp_path: Path) -> None:
    """What a sheet does not show does not print it again."""
    series, out = SeriesFolder(tmp_path), tmp_path / "build"
    series.edit("episodes/01-first-steps.yaml", "# video:", "video:")
    series.edit("episodes/01-first-steps.yaml", "# captions:", "captions:")
    for words in ("Stand by the counter.", "Stand at the counter."):
        series.write("media/01.webm", words)
        series.write("captions/01.vtt", f"WEBVTT\n\n00:01.000 --> 00:04.000\n{words}\n")
        made = Builder(series.root, out, jobs=1, pdf=True).build().written.made
    assert len(pdf_files(out)) == 3
    assert "episodes/first-steps/index.html" in made
    assert [address for address in made if "sheet" in address] == []
