"""Write the next numbered episode's file: a plan with number, date and shared blocks, to be filled in."""

import argparse
from datetime import date
from pathlib import Path

from sitegen.cli import OK, PROBLEMS
from sitegen.commands.common import add_folders, content_folder, refuse, series_to_build_on, write_episode
from sitegen.commands.next_episode import next_episode
from sitegen.model import Series
from sitegen.reading.files import read_file
from sitegen.reading.folder import id_of


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("title", nargs="?", default="Untitled", help='its title, such as "Steady pull"')
    add_folders(parser)


def run(arguments: argparse.Namespace) -> int:
    content = content_folder(arguments)
    series = series_to_build_on(content, "the next episode builds on what is there")
    if series is None:
        return PROBLEMS
    try:
        name, text = next_episode(series, shared_blocks(content, series), arguments.title, date.today())
    except ValueError as error:
        return refuse(error)
    path = write_episode(content, name, text)
    print(f"{path}: ready to edit")
    return OK


def shared_blocks(content: Path, series: Series) -> dict[str, str]:
    """The kind of each shared block, by id; those of a shared library first."""
    folders = [content / series.library.folder, content] if series.library else [content]
    results = (
        read_file("routines", f"routines/{path.name}", path.read_bytes())
        for folder in folders
        for path in sorted((folder / "routines").glob("*.yaml"))
    )
    return {id_of(result.file): result.value["kind"] for result in results if result.usable}
