"""Printing with a real browser: only what it is given, the same bytes, and no browser left behind."""

import io
import subprocess
import sys
import textwrap
import time
from collections.abc import Iterator
from pathlib import Path

import pikepdf
import pytest

from sitegen.printing.browser_pipe import BrowserFailed
from sitegen.printing.document import Document, Paper, Resource
from sitegen.printing.installed_browser import InstalledBrowser, find_browser
from sitegen.printing.pdf_printer import PdfPrinter
from tests.conftest import PATIENCE_S

A4 = Paper(210.0, 297.0)
PAGE = b"""<!doctype html><html lang="en"><meta charset="utf-8"><title>Sheet</title>
<link rel="stylesheet" href="../style.css"><h1>Steady pull</h1><p><a href="index.html">Back</a></p>
<img src="https://elsewhere.example/tracker.png" alt="">"""


class Files:
    """A small site; remembers what was asked for."""

    def __init__(self) -> None:
        self.asked: list[str] = []

    def __call__(self, address: str) -> Resource | None:
        self.asked.append(address)
        if address == "sheet/index.html":
            return Resource(PAGE, "text/html; charset=utf-8")
        if address == "style.css":
            return Resource(b"@page { margin: 10mm } h1 { font-size: 40pt }", "text/css")
        return None


@pytest.fixture(scope="module")
def engine() -> InstalledBrowser:
    found = find_browser()
    if found is None:
        pytest.fail("these tests need Chromium: apt-get install chromium")
    return found


@pytest.fixture(params=["through pipes", "by the plain option"])
def printer(
    engine: InstalledBrowser, tmp_path: Path, request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch
) -> Iterator[PdfPrinter]:
    """Both ways of printing; the second is that of Windows, where Python cannot hand over pipes."""
    if request.param == "by the plain option":
        monkeypatch.setattr("sitegen.printing.pdf_printer.has_pipes", lambda: False)
    with PdfPrinter(engine, tmp_path / "printer") as printer:
        yield printer


def document(files: Files, key: str = "1") -> Document:
    return Document(key, "https://movement.example/galley/", "sheet/index.html", files)


def test_a_page_is_printed_tagged_with_title_and_language(printer: PdfPrinter) -> None:
    with pikepdf.open(io.BytesIO(printer.print(document(Files()), A4))) as pdf:
        assert pdf.docinfo["/Title"] == "Sheet"
        assert pdf.Root.Lang == "en"
        assert pdf.Root.MarkInfo.Marked
        assert "/StructTreeRoot" in pdf.Root
        width, height = (float(pdf.pages[0].mediabox[n]) for n in (2, 3))
    assert (width / 72 * 25.4, height / 72 * 25.4) == pytest.approx((210, 297), abs=0.3)


def test_it_loads_what_it_is_given_and_nothing_from_elsewhere(printer: PdfPrinter) -> None:
    files = Files()
    printer.print(document(files), A4)
    assert set(files.asked) - {"favicon.ico"} == {"sheet/index.html", "style.css"}


def test_links_lead_to_where_the_site_is_published(printer: PdfPrinter) -> None:
    with pikepdf.open(io.BytesIO(printer.print(document(Files()), A4))) as pdf:
        links = [str(note.A.URI) for note in pdf.pages[0].Annots if "/A" in note]
    assert links == ["https://movement.example/galley/sheet/index.html"]


def test_two_printers_write_the_same_bytes(engine: InstalledBrowser, tmp_path: Path) -> None:
    files = []
    for name in ("one", "two"):
        with PdfPrinter(engine, tmp_path / name) as printer:
            files.append(
                [
                    printer.print(document(Files(), key), paper)
                    for key in "12"
                    for paper in (A4, Paper(216, 279))
                ]
            )
    assert files[0] == files[1]
    assert files[0][0] == files[0][2]


def test_a_document_is_loaded_once_for_both_papers(engine: InstalledBrowser, tmp_path: Path) -> None:
    files = Files()
    with PdfPrinter(engine, tmp_path / "printer") as printer:
        printer.print(document(files), A4)
        loaded = len(files.asked)
        printer.print(document(files), Paper(215.9, 279.4))
        assert len(files.asked) == loaded
        printer.print(document(files, "2"), A4)
        assert len(files.asked) > loaded


def test_a_page_that_is_not_there_is_a_failure_not_an_empty_file(printer: PdfPrinter) -> None:
    with pytest.raises(BrowserFailed, match=r"nothing\.html"):
        printer.print(Document("1", "https://movement.example/", "nothing.html", Files()), A4)
    assert printer.print(document(Files()), A4).startswith(b"%PDF-")


_LEAVES_AN_EMPTY_FILE = 'for one; do case $one in --print-to-pdf=*) : > "${one#*=}";; esac; done'


@pytest.mark.parametrize(
    ("script", "message", "patience"),
    [
        # It ends at once, but on a busy machine that may take a while.
        ("exit 1", "ended without a PDF file", PATIENCE_S),
        ("exec sleep 60", "did not answer", 0.5),
        (_LEAVES_AN_EMPTY_FILE, "ended without a PDF file|did not answer", 0.5),
    ],
)
def test_a_program_that_prints_nothing_is_a_failure(
    script: str, message: str, patience: float, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sitegen.printing.pdf_printer.has_pipes", lambda: False)
    program = tmp_path / "program"
    program.write_text(f"#!/bin/sh\n{script}\n")
    program.chmod(0o755)
    with (
        PdfPrinter(InstalledBrowser(program, "key"), tmp_path / "printer", patience=patience) as printer,
        pytest.raises(BrowserFailed, match=message),
    ):
        printer.print(document(Files()), A4)


def test_the_plain_option_writes_the_same_bytes_each_time(
    engine: InstalledBrowser, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Neither the port nor the secret part of the address it is loaded from is in the file."""
    monkeypatch.setattr("sitegen.printing.pdf_printer.has_pipes", lambda: False)
    with PdfPrinter(engine, tmp_path / "printer") as printer:
        first, second = (printer.print(document(Files()), A4) for _ in range(2))
    assert first == second


@pytest.mark.parametrize("script", ["exit 1", "cat >/dev/null", "echo nonsense >&4; cat >/dev/null"])
def test_a_program_that_is_no_browser_is_a_failure(script: str, tmp_path: Path) -> None:
    program = tmp_path / "program"
    program.write_text(f"#!/bin/sh\nexec 0<&3\n{script}\n")
    program.chmod(0o755)
    with (
        PdfPrinter(InstalledBrowser(program, "key"), tmp_path / "printer", patience=1.0) as printer,
        pytest.raises(BrowserFailed),
    ):
        printer.print(document(Files()), A4)


def test_no_browser_and_no_folder_is_left(engine: InstalledBrowser, tmp_path: Path) -> None:
    folder = tmp_path / "printer"
    with PdfPrinter(engine, folder) as printer:
        printer.print(document(Files()), A4)
        assert processes_of(folder)
    assert wait_until_gone(folder)
    assert not folder.exists()


def test_the_browser_goes_with_a_process_that_is_killed(engine: InstalledBrowser, tmp_path: Path) -> None:
    """Its end of the pipe closes, however that process ends."""
    folder = tmp_path / "printer"
    script = f"""
        import sys
        from pathlib import Path
        from sitegen.printing.installed_browser import InstalledBrowser
        from sitegen.printing.document import Document, Paper, Resource
        from sitegen.printing.pdf_printer import PdfPrinter
        printer = PdfPrinter(InstalledBrowser(Path({str(engine.program)!r}), "key"), Path({str(folder)!r}))
        page = Resource(b"<title>x</title>", "text/html")
        printer.print(Document("1", "https://movement.example/", "x.html", lambda _: page), Paper(210, 297))
        print("printed", flush=True)
        sys.stdin.read()
    """
    words = [sys.executable, "-c", textwrap.dedent(script)]
    with subprocess.Popen(words, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "printed\n"
        assert processes_of(folder)
        process.kill()
    assert wait_until_gone(folder)


def processes_of(folder: Path) -> list[str]:
    """Processes whose command line names the folder."""
    found = []
    for line in Path("/proc").glob("[0-9]*/cmdline"):
        try:
            if str(folder).encode() in line.read_bytes():
                found.append(line.parent.name)
        except OSError:  # it ended meanwhile
            continue
    return found


def wait_until_gone(folder: Path) -> bool:
    """Whether they end; a process that was told to go takes a moment to."""
    limit = time.monotonic() + PATIENCE_S
    while processes_of(folder) and time.monotonic() < limit:
        time.sleep(0.05)
    return not processes_of(folder)
