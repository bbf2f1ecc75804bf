"""Make what is sent to one client: her page in one file, her sheets as a PDF file, her calendar."""

import argparse
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from sitegen.cli import OK, PROBLEMS
from sitegen.commands.common import add_folders, content_folder, out_folder, print_problems
from sitegen.system.whole_files import write_whole

if TYPE_CHECKING:
    from markupsafe import Markup

    from sitegen.clients.record import Client
    from sitegen.model import Series
    from sitegen.pages.client.site import ClientPlan
    from sitegen.pages.site import Site

MOST_BYTES = 1_500_000
"""Her page should stay below this, so that every mailbox takes it."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "name", metavar="NAME", help="the name of her file in the folder clients, without .yaml"
    )
    add_folders(parser, out=False)
    parser.add_argument(
        "--today",
        type=date.fromisoformat,
        metavar="DATE",
        help="as on that day (default: this computer's date)",
    )
    parser.add_argument("--no-pdf", action="store_true", help="leave out the PDF file of the sheets")
    parser.set_defaults(out=None)


def run(arguments: argparse.Namespace) -> int:
    from sitegen.problems import ContentError

    try:
        return _make(arguments)
    except ContentError as error:
        print_problems(error.problems)
        print("nothing was made", file=sys.stderr)
        return PROBLEMS


def _make(arguments: argparse.Namespace) -> int:
    from sitegen.clients.folder import clients_folder, keep_private
    from sitegen.clients.reading import read_client
    from sitegen.pages.client.days import HerDays
    from sitegen.pages.client.page import client_page
    from sitegen.pages.client.sheets import sheets_html
    from sitegen.pages.client.site import client_plan

    content = content_folder(arguments)
    site, series = _series(content, out_folder(arguments, content))
    clients = clients_folder(content)
    keep_private(clients)
    client = read_client(clients, arguments.name, series)
    _show_warnings(series, client, clients)
    today = arguments.today or date.today()
    plan = client_plan(site, series, client)
    sheets, days = sheets_html(plan), HerDays(plan, today)
    calendar = days.calendar()
    files = {
        "plan.html": client_page(plan, sheets, days.days(), calendar, today),
        "calendar.ics": calendar,
        "sheets.pdf": b"" if arguments.no_pdf else _pdf(plan, sheets, clients),
    }
    folder = clients / client.id
    folder.mkdir(exist_ok=True)
    for name, data in files.items():
        path = folder / f"{_stem(series)}-{name}"
        if data:
            _write(path, data)
        else:
            _remove(path)
    print(f"{len(plan.sessions)} sessions. Send her what she likes of these; her file stays with you.")
    return OK


def _series(content: Path, out: Path) -> "tuple[Site, Series]":
    """The site with its theme, and the series with every session that is filmed."""
    from sitegen.building.build import Builder

    builder = Builder(content, out, jobs=1)
    site = builder.site(builder.read())
    return site, site.series


def _show_warnings(series: "Series", client: "Client", clients: Path) -> None:
    """Say what she should not be surprised by. Raises ContentError for what is not safe."""
    from sitegen.clients.checks import check_client, unsafe
    from sitegen.problems import ContentError
    from sitegen.reading.reader import locate_all

    data = (clients / f"{client.id}.yaml").read_bytes()
    problems = locate_all(check_client(series, client), lambda _: data)
    if unsafe(problems):
        raise ContentError(problems)
    for problem in problems:
        print(problem, file=sys.stderr)


def _pdf(plan: "ClientPlan", sheets: "Markup", clients: Path) -> bytes:
    """The PDF file; nothing, with the reason said, where no browser prints it."""
    from sitegen.building.build import NO_BROWSER
    from sitegen.pages.client.sheets import sheets_pdf
    from sitegen.printing.browser import BrowserFailed
    from sitegen.printing.engine import find_engine
    from sitegen.printing.press import Press

    engine, failed = find_engine(), NO_BROWSER
    if engine is not None:
        with Press(engine, clients / ".press") as press:
            try:
                return sheets_pdf(plan, press, sheets)
            except BrowserFailed as error:
                failed = str(error)
    print(f"sheets without a PDF file: {failed}", file=sys.stderr)
    return b""


def _stem(series: "Series") -> str:
    """What the files are called after: the series, never her."""
    from sitegen.pages.views import slugify

    return slugify(series.details.title)


def _remove(path: Path) -> None:
    """Take away what an earlier run made and this one did not: it may hold what she must no longer do."""
    if path.exists():
        path.unlink()
        print(f"{path}: removed, for it was made before")


def _write(path: Path, data: bytes) -> None:
    """Put a file in place whole, and tell its size."""
    write_whole(path, data)
    large = path.suffix == ".html" and len(data) > MOST_BYTES
    print(f"{path}: {len(data) / 1000:,.0f} kB" + (" (some mailboxes refuse so much)" if large else ""))
