"""Start a new series: a small one that builds as it is, or a season with the library of an old one."""

import argparse
import os
import shlex
import shutil
import subprocess
import sys
from datetime import date
from pathlib import Path

from sitegen.cli import OK, PROBLEMS, USAGE
from sitegen.commands.common import print_problems


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", type=Path, metavar="FOLDER", help="a new or empty folder")
    source = parser.add_mutually_exclusive_group()
    source.add_argument("--demo", action="store_true", help="start from the whole demo series instead")
    source.add_argument(
        "--season-of",
        type=Path,
        metavar="CONTENT",
        help="a new season of the series in that content folder: exercises, shared blocks, pages, kit, needs "
        "and schedule are taken over, episodes are not",
    )
    parser.add_argument(
        "--in-place",
        action="store_true",
        help="with --season-of: read exercises, shared blocks, kit and needs where they are instead of "
        "copying them, so that what is mended there is mended in both",
    )


def run(arguments: argparse.Namespace) -> int:
    from sitegen.clients.folder import clients_folder, keep_private
    from sitegen.resources import demo_folder, starter_folder

    folder: Path = arguments.folder
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        print(f"sitegen: {folder} is not empty; name a new folder", file=sys.stderr)
        return USAGE
    if arguments.in_place and not arguments.season_of:
        print("sitegen: --in-place goes with --season-of OLD/content", file=sys.stderr)
        return USAGE
    content = folder / "content"
    if arguments.season_of:
        if not _take_over(arguments.season_of, content, in_place=arguments.in_place):
            return PROBLEMS
    else:
        folder.mkdir(parents=True, exist_ok=True)
        shutil.copytree(demo_folder() if arguments.demo else starter_folder(), content)
    # The page that explains the format goes along.
    shutil.copyfile(demo_folder() / "README.md", content / "README.md")
    keep_private(clients_folder(content))
    print(f"{content}: a series to start from. Next:")
    print(f"  1. open {content / 'series.yaml'} and make it yours")
    print(f"  2. cd {_as_typed(folder)}")
    print("     sitegen preview")
    print("  3. sitegen episode writes the next episode's file; sitegen check finds slips")
    return OK


def _as_typed(folder: Path) -> str:
    """A path as it is typed in a terminal of this system, in quotes where it needs them."""
    return subprocess.list2cmdline([str(folder)]) if os.name == "nt" else shlex.quote(str(folder))


def _take_over(old: Path, content: Path, *, in_place: bool) -> bool:
    """Write a new season of the series in ``old``. Gives whether it could be; else it says why not."""
    from sitegen.commands.new_season import start_season
    from sitegen.problems import ContentError
    from sitegen.reading.reader import read_content

    try:
        read = read_content(old)
        bad = [problem for problem in read.problems if problem.severity == "problem"]
        if bad or read.series is None:
            raise ContentError(bad)
    except ContentError as error:
        print_problems(error.problems)
        print("put these right first: the new season builds on that series", file=sys.stderr)
        return False
    try:
        start_season(old, read.series, content, date.today(), in_place=in_place)
    except ValueError as error:
        print(f"sitegen: {error}", file=sys.stderr)
        return False
    return True
