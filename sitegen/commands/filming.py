"""Prepare the filming day of a session: its shot list as a page and as a PDF file to print."""

import argparse
import sys
from pathlib import Path

from sitegen.cli import OK, PROBLEMS
from sitegen.commands.common import (
    add_folders,
    content_folder,
    print_problems,
    read_site,
    refuse,
    with_printer,
)
from sitegen.model import Episode
from sitegen.pages.filming import ADDRESS, shot_list, shot_page
from sitegen.pages.one_file import printed
from sitegen.pages.site import Site
from sitegen.pages.views import Views
from sitegen.printing.pdf_printer import PdfPrinter
from sitegen.problems import ContentError
from sitegen.system.whole_files import write_whole

FOLDER = "filming"
"""Beside the content folder: nothing of it is published."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("number", type=int, nargs="+", metavar="NUMBER", help="numbers of the sessions")
    add_folders(parser)
    parser.add_argument("--no-pdf", action="store_true", help="leave out the PDF files")


def run(arguments: argparse.Namespace) -> int:
    content = content_folder(arguments)
    try:
        site = read_site(content)
    except ContentError as error:
        print_problems(error.problems)
        print("nothing was made", file=sys.stderr)
        return PROBLEMS
    wanted = {
        episode.number: episode for episode in site.series.sessions if episode.number in arguments.number
    }
    missing = [number for number in arguments.number if number not in wanted]
    if missing:
        advice = 'write its plan first: sitegen episode "Title"'
        return refuse(f"there is no session {', '.join(map(str, missing))}\n    {advice}")
    empty = [number for number, episode in wanted.items() if not any(b.items for b in episode.blocks)]
    if empty:
        return refuse(f"session {', '.join(map(str, empty))} has no exercise yet")
    _make(site, list(wanted.values()), content.resolve().parent / FOLDER, pdf=not arguments.no_pdf)
    return OK


def _make(site: Site, episodes: list[Episode], folder: Path, *, pdf: bool) -> None:
    views = Views(site)
    folder.mkdir(exist_ok=True)
    pages = {}
    for episode in episodes:
        page = shot_page(site, shot_list(site, views, episode))
        stem = f"{episode.number:02d}-{episode.slug}"
        pages[stem] = page
        _write(folder / f"{stem}.html", page)
    if pdf:
        _print(site, pages, folder)


def _print(site: Site, pages: dict[str, bytes], folder: Path) -> None:
    """The PDF files; where no browser prints them, the reason is said."""

    def prints(printer: PdfPrinter) -> None:
        for stem, page in pages.items():
            _write(folder / f"{stem}.pdf", printed(site, page, ADDRESS, printer))

    if failed := with_printer(prints):
        for stem in pages:
            (folder / f"{stem}.pdf").unlink(missing_ok=True)  # of an earlier plan
        print(f"without PDF files: {failed}; print the pages from a browser instead", file=sys.stderr)


def _write(path: Path, data: bytes) -> None:
    """Put a file in place whole, and tell it."""
    write_whole(path, data)
    print(path)
