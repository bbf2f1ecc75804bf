"""Make what is sent to a client (page, sheets, calendar), or read the logs that came back."""

import argparse
import sys
from datetime import date, datetime
from pathlib import Path

from markupsafe import Markup
from slugify import slugify

from sitegen.cli import OK, PROBLEMS, USAGE
from sitegen.clients.checks import check_tailored, left_behind, unsafe
from sitegen.clients.folder import client_files, clients_folder, keep_private, plan_code, plan_key
from sitegen.clients.reading import read_client
from sitegen.commands.client_logs import log_files, read_logs
from sitegen.commands.common import (
    add_folders,
    content_folder,
    day,
    print_problems,
    read_site,
    with_printer,
)
from sitegen.pages.client.client_page import client_page
from sitegen.pages.client.client_plan import ClientPlan, client_plan
from sitegen.pages.client.days import HerDays
from sitegen.pages.client.sheets import sheets_html, sheets_pdf
from sitegen.problems import ContentError
from sitegen.reading.reader import locate_all
from sitegen.system.whole_files import write_whole

MOST_BYTES = 1_500_000
"""Her page should stay below this, so that every mailbox takes it."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "names",
        metavar="NAME",
        nargs="*",
        help="the name of a file in the folder clients, without .yaml; with --log none means every client",
    )
    add_folders(parser)
    parser.add_argument(
        "--today",
        type=day,
        metavar="DATE",
        help="as on that day (default: this computer's date)",
    )
    parser.add_argument(
        "--log",
        type=Path,
        nargs="+",
        metavar="FILE",
        help="show what came back: logs that clients saved, or folders of them",
    )
    parser.add_argument(
        "--propose",
        action="store_true",
        help="with --log: write the next steps into the clients' files, for you to accept or not",
    )
    parser.add_argument(
        "--no-pdf",
        action="store_true",
        help="print no PDF file of the sheets; one that is there is kept if nothing in them has changed",
    )


def run(arguments: argparse.Namespace) -> int:
    if not arguments.names and not arguments.log:
        print("name a client: the name of a file in the folder clients, without .yaml", file=sys.stderr)
        return USAGE
    try:
        return _run(arguments)
    except ContentError as error:
        print_problems(error.problems)
        print("nothing was made", file=sys.stderr)
        _tell_of_earlier(arguments)
        return PROBLEMS


def _tell_of_earlier(arguments: argparse.Namespace) -> None:
    """Say that what an earlier run made still lies there: it is what would be sent by mistake."""
    from sitegen.clients.folder import clients_folder

    for name in dict.fromkeys(arguments.names if not arguments.log else ()):
        folder = clients_folder(content_folder(arguments)) / Path(name).name
        for page in sorted(folder.glob("*-plan.html")):
            made = datetime.fromtimestamp(page.stat().st_mtime)
            when = f"{made.day} {made:%B %Y, %H:%M}"
            print(
                f"{page}: this is still the plan of {when}, made before the file was as it is now: "
                "do not send it, nor what lies beside it",
                file=sys.stderr,
            )


def _run(arguments: argparse.Namespace) -> int:
    content = content_folder(arguments)
    site = read_site(content)
    series = site.series
    folder = clients_folder(content)
    keep_private(folder)
    names = dict.fromkeys(arguments.names or (path.stem for path in client_files(folder)))
    clients = [read_client(folder, name, series) for name in names]
    today = arguments.today or date.today()
    if arguments.log:
        return read_logs(
            site, series, folder, clients, log_files(arguments.log), today, propose=arguments.propose
        )
    key = plan_key(folder)
    plans = [client_plan(site, series, client, plan_code(key, client.id)) for client in clients]
    for plan in plans:
        _show_warnings(plan, folder)
    for problem in left_behind(folder):
        print(problem, file=sys.stderr)
    for plan in plans:
        _make(plan, folder, today, with_pdf=not arguments.no_pdf)
    return OK


def _make(plan: ClientPlan, clients: Path, today: date, *, with_pdf: bool) -> None:
    """Write what is sent to her."""
    sheets, days = sheets_html(plan), HerDays(plan, today)
    calendar = days.calendar()
    folder = clients / plan.client.id
    folder.mkdir(exist_ok=True)
    # The files are called after the series, never after her.
    stem = folder / (slugify(plan.public.series.details.title) or "plan")
    page, paper, calendar_file = (
        Path(f"{stem}-{name}") for name in ("plan.html", "sheets.pdf", "calendar.ics")
    )
    # Before the page: beside a page of today no sheets of yesterday may lie, not even after a crash.
    pdf = _pdf(plan, sheets, clients) if with_pdf else b""
    if pdf:
        _write(paper, pdf)
    elif paper.exists():
        _keep_or_remove(paper, page, sheets)
    _write(page, client_page(plan, sheets, days.days(), calendar, today))
    if calendar:
        _write(calendar_file, calendar)
    elif calendar_file.exists():
        _remove(calendar_file, "the plan has no days now")
    count = len(plan.sessions)
    number = "one session" if count == 1 else f"{count} sessions"
    print(f"{number}. Send what is wanted of these; {clients / plan.client.id}.yaml stays with you.")


def _show_warnings(plan: ClientPlan, clients: Path) -> None:
    """Say what she should not be surprised by. Raises ContentError for what is not safe."""
    data = (clients / f"{plan.client.id}.yaml").read_bytes()
    problems = locate_all(check_tailored(plan.tailor), lambda _: data)
    if unsafe(problems):
        raise ContentError(problems)
    for problem in problems:
        print(problem, file=sys.stderr)


def _pdf(plan: ClientPlan, sheets: Markup, clients: Path) -> bytes:
    """The PDF file; nothing, with the reason said, where no browser prints it."""
    found: list[bytes] = []
    # The profile may hold what is printed, so it lies in the private folder too.
    failed = with_printer(lambda printer: found.append(sheets_pdf(plan, printer, sheets)), clients)
    if failed:
        print(f"sheets without a PDF file: {failed}", file=sys.stderr)
    return found[0] if found else b""


def _keep_or_remove(paper: Path, page: Path, sheets: Markup) -> None:
    """Keep a PDF file of an earlier run where the page made with it has the very sheets of now.

    Any other may hold what she must no longer do.
    """
    if page.exists() and sheets in page.read_text(encoding="utf-8", errors="replace"):
        print(f"{paper}: kept, for nothing in the sheets has changed since it was made")
    else:
        _remove(paper, "the sheets have changed since it was made; print them anew by leaving out --no-pdf")


def _remove(path: Path, why: str) -> None:
    """Take away what an earlier run made and this one did not: it may hold what she must no longer do."""
    path.unlink()
    print(f"{path}: removed, for {why}")


def _write(path: Path, data: bytes) -> None:
    """Put a file in place whole, and tell its size."""
    write_whole(path, data)
    large = path.suffix == ".html" and len(data) > MOST_BYTES
    print(f"{path}: {len(data) / 1000:,.0f} kB" + (" (some mailboxes refuse so much)" if large else ""))
