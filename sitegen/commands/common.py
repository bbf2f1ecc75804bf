"""What the commands share: where the content is, how problems are printed.

What is large is imported where it is used: a build that has nothing to do loads this module, and none of it.
"""

import argparse
import json
import sys
from collections.abc import Callable, Iterable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from sitegen.cli import USAGE
from sitegen.problems import Problem

if TYPE_CHECKING:
    from sitegen.model import Series
    from sitegen.pages.site import Site
    from sitegen.printing.pdf_printer import PdfPrinter

CONTENT, OUT = "content", "build"


def add_folders(parser: argparse.ArgumentParser, *, out: bool = False) -> None:
    """Add ``--content`` and, where ``out``, ``--out``."""
    parser.add_argument("--content", type=Path, metavar="FOLDER", help="the series (default: content)")
    if out:
        parser.add_argument(
            "--out", type=Path, metavar="FOLDER", help="the site (default: build, beside the content)"
        )


def day(text: str) -> date:
    """A day of an argument, as series.yaml has them. Raises ArgumentTypeError with the words for a file."""
    from sitegen.notation import NotationError
    from sitegen.reading.schemas.texts import Day

    try:
        return Day().parse(text)
    except NotationError as error:
        raise argparse.ArgumentTypeError(str(error)) from None


def add_release_day(parser: argparse.ArgumentParser) -> None:
    """Add ``--include-upcoming`` and ``--today``."""
    parser.add_argument(
        "--include-upcoming", action="store_true", help="take in episodes whose release date is still to come"
    )
    parser.add_argument(
        "--today",
        type=day,
        metavar="DATE",
        help="build as on that day, such as 2026-09-14 (default: this computer's date)",
    )


def release_day(arguments: argparse.Namespace) -> date | None:
    """The last release date that is out; None where all are to be taken in."""
    if arguments.include_upcoming:
        return None
    today: date | None = arguments.today
    return today or date.today()


def content_folder(arguments: argparse.Namespace) -> Path:
    """The content folder named, or found: here, or in the one folder here that holds a series."""
    if arguments.content is not None:
        return Path(arguments.content)
    here = Path(CONTENT)
    if (here / "series.yaml").is_file():
        return here
    inside = [path.parent for path in sorted(Path().glob(f"*/{CONTENT}/series.yaml"))]
    return inside[0] if len(inside) == 1 else here


def series_to_build_on(content: Path, why: str = "") -> "Series | None":
    """The series of a content folder; None where it has problems, which are printed: ``why`` they matter."""
    from sitegen.problems import ContentError
    from sitegen.reading.reader import read_series

    try:
        return read_series(content)
    except ContentError as error:
        print_problems(error.problems)
    if why:
        print(f"put these right first: {why}", file=sys.stderr)
    return None


def read_site(content: Path) -> "Site":
    """The site with its theme; its series has every session, plans among them. Raises ContentError."""
    from sitegen.building.build import Builder

    builder = Builder(content, content.parent / OUT, jobs=1)
    return builder.site(builder.read())


def with_printer(prints: "Callable[[PdfPrinter], None]", profiles: Path | None = None) -> str:
    """Print with a browser of this run alone; gives why there is none or why it failed, else nothing.

    ``profiles``: where its profile lies meanwhile (None: where the system keeps passing files).
    """
    from tempfile import TemporaryDirectory

    from sitegen.building.build import NO_BROWSER
    from sitegen.printing.browser_pipe import BrowserFailed
    from sitegen.printing.installed_browser import find_browser
    from sitegen.printing.pdf_printer import PdfPrinter

    engine = find_browser()
    if engine is None:
        return NO_BROWSER
    # A folder of this run alone: two runs at once would take each other's browser away.
    with (
        TemporaryDirectory(prefix=".printing-", dir=profiles) as folder,
        PdfPrinter(engine, Path(folder, "browser")) as printer,
    ):
        try:
            prints(printer)
        except BrowserFailed as error:
            return str(error)
    return ""


def write_episode(content: Path, name: str, text: str) -> Path:
    """Write the file of a new episode, never over another. Raises FileExistsError."""
    path = content / "episodes" / name
    path.parent.mkdir(exist_ok=True)
    try:
        with path.open("x", encoding="utf-8") as stream:
            stream.write(text)
    except FileExistsError:
        raise
    except BaseException:  # stopped, or the disk is full: half an episode would be in the way of the next
        path.unlink(missing_ok=True)
        raise
    return path


def out_folder(arguments: argparse.Namespace, content: Path) -> Path:
    """The output folder named, or ``build`` beside the content folder."""
    return Path(arguments.out) if arguments.out is not None else content.parent / OUT


def refuse(message: object, status: int = USAGE) -> int:
    """Say why a command is not done; gives the exit status to end with."""
    print(f"sitegen: {message}", file=sys.stderr)
    return status


def print_problems(
    problems: Iterable[Problem], *, as_json: bool = False, warnings_looked_for: bool = False
) -> None:
    """Print each problem with its place and advice, and a count at the end.

    Most warnings are only looked for in a series without problems; the count says whether they were.
    """
    problems = list(problems)
    if as_json:
        print(json.dumps([problem.as_data() for problem in problems], indent=2, ensure_ascii=False))
        return
    for problem in problems:
        print(problem)
    line = count_line(problems) if warnings_looked_for else count_before_warnings(problems)
    print(line, file=sys.stderr)


def count_line(problems: Iterable[Problem]) -> str:
    """``no problems, 1 warning``, where warnings were looked for."""
    severities = [problem.severity for problem in problems]
    return ", ".join(_count(severities.count(word), word) for word in ("problem", "warning"))


def count_before_warnings(problems: Iterable[Problem]) -> str:
    """``2 problems``, where problems kept the series from being looked at for warnings."""
    severities = [problem.severity for problem in problems]
    counted = _count(severities.count("problem"), "problem")
    early = severities.count("warning")
    so_far = f", {_count(early, 'warning')} so far" if early else ""
    return f"{counted}{so_far} (all warnings are looked for once there are no problems)"


def _count(number: int, word: str) -> str:
    return f"{number or 'no'} {word}{'' if number == 1 else 's'}"
