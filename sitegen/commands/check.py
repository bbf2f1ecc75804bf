"""Look for problems (nothing can be built) and warnings (worth a thought) in the content."""

import argparse
import sys
from collections import defaultdict
from pathlib import Path

from sitegen.building.theme_choice import chosen_theme
from sitegen.checks import check_read
from sitegen.cli import OK, PROBLEMS
from sitegen.clients.checks import check_clients
from sitegen.clients.folder import clients_folder
from sitegen.commands.common import add_folders, content_folder, print_problems
from sitegen.model import Details
from sitegen.problems import ContentError, Problem
from sitegen.reading.folder import take_inventory
from sitegen.reading.reader import read_content
from sitegen.reading.tidying import tidied
from sitegen.system.whole_files import write_whole


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_folders(parser)
    parser.add_argument("--json", action="store_true", help="print the problems as JSON, for other programs")
    parser.add_argument(
        "--tidy",
        action="store_true",
        help="first write what is written by habit (3 sets, RPE8, 30secs, 14 September 2026, a name for an "
        "id) in the documented form; comments, order and everything else in the files stay as they are",
    )


def run(arguments: argparse.Namespace) -> int:
    folder = content_folder(arguments)
    habits, library = 0, None
    try:
        if arguments.tidy:
            _tidy(folder)
        content = read_content(folder)
        problems, habits = check_read(content, folder), content.habits
        library = content.series.library if content.series is not None else None
        if content.series is not None and not any(p.severity == "problem" for p in problems):
            problems += check_clients(clients_folder(folder), content.series)
            problems += _of_theme(folder, content.series.details)
    except ContentError as error:
        problems = error.problems
    bad = any(p.severity == "problem" for p in problems)
    print_problems(problems, as_json=arguments.json, warnings_looked_for=not bad)
    if library is not None and library.version:
        print(f"library {library.folder}: version {library.version}", file=sys.stderr)
    if habits:
        values = "1 value is" if habits == 1 else f"{habits} values are"
        print(f"{values} written by habit and understood; --tidy writes the documented form", file=sys.stderr)
    return PROBLEMS if bad else OK


def _of_theme(folder: Path, details: Details) -> list[Problem]:
    """What is wrong with the theme, and with the series' colours in it."""
    try:
        chosen_theme(folder, details)
    except ContentError as error:
        return error.problems
    return []


def _tidy(folder: Path) -> None:
    """Rewrite every file with habits in it, or names where ids belong, and say what was changed."""
    ids: dict[str, dict[tuple[str | int, ...], str]] = defaultdict(dict)
    for problem in read_content(folder).problems:
        if problem.instead and problem.location:
            ids[problem.location.file][problem.location.path] = problem.instead
    for kind, file in take_inventory(folder).texts():
        if kind == "pages":
            continue
        path = folder / file
        before = path.read_bytes()
        after, changes = tidied(kind, file, before, ids[file])
        if after != before:
            write_whole(path, after)
        for change in changes:
            print(f"{file}:{change.line}: {change.before} is now {change.after}", file=sys.stderr)
