"""Start a new series: a small one that builds as it is, to be changed into your own."""

import argparse
import shutil
import sys
from pathlib import Path

from sitegen.cli import OK, USAGE


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", type=Path, metavar="FOLDER", help="a new or empty folder")
    parser.add_argument("--demo", action="store_true", help="start from the whole demo series instead")


def run(arguments: argparse.Namespace) -> int:
    from sitegen.clients.folder import clients_folder, keep_private
    from sitegen.resources import demo_folder, starter_folder

    folder: Path = arguments.folder
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        print(f"sitegen: {folder} is not empty; name a new folder", file=sys.stderr)
        return USAGE
    source = demo_folder() if arguments.demo else starter_folder()
    folder.mkdir(parents=True, exist_ok=True)
    shutil.copytree(source, folder / "content")
    # The page that explains the format goes along.
    shutil.copyfile(demo_folder() / "README.md", folder / "content" / "README.md")
    content = folder / "content"
    keep_private(clients_folder(content))
    print(f"{content}: a series to start from. Next:")
    print(f"  1. open {content / 'series.yaml'} and make it yours")
    print(f"  2. cd {folder} && sitegen preview")
    print("  3. sitegen episode writes the next episode's file; sitegen check finds slips")
    return OK
