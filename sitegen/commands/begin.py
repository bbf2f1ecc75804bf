"""Start a new series: a small one that builds as it is, or a season with the library of an old one."""

import argparse
import os
import shlex
import shutil
import subprocess
from datetime import date
from pathlib import Path

from sitegen.cli import OK, PROBLEMS
from sitegen.clients.folder import clients_folder, keep_private
from sitegen.commands.common import refuse, series_to_build_on
from sitegen.commands.new_season import start_season
from sitegen.resources import demo_folder, starter_folder


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
    folder: Path = arguments.folder
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        return refuse(f"{folder} is not empty; name a new folder")
    if arguments.in_place and not arguments.season_of:
        return refuse("--in-place goes with --season-of OLD/content")
    content = folder / "content"
    if arguments.season_of:
        old: Path = arguments.season_of
        series = series_to_build_on(old, "the new season builds on that series")
        if series is None:
            return PROBLEMS
        try:
            start_season(old, series, content, date.today(), in_place=arguments.in_place)
        except ValueError as error:
            return refuse(error, PROBLEMS)
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
