"""Write the next numbered episode's file: a plan with number, date and shared blocks, to be filled in."""

import argparse
from datetime import date
from pathlib import Path

from sitegen.checks.recovery import released_late
from sitegen.cli import OK, PROBLEMS
from sitegen.commands.common import add_folders, content_folder, refuse, series_to_build_on, write_episode
from sitegen.commands.next_episode import next_episode
from sitegen.model import Series
from sitegen.reading.files import read_file
from sitegen.reading.folder import id_of
from sitegen.reading.reader import read_content


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
    tell_if_late(content)
    return OK


def tell_if_late(content: Path) -> None:
    """Say how the calendar can wait for a session that it has on a day before it comes out, the first one."""
    series = read_content(content).series
    for problem in released_late(series)[:1] if series is not None else ():
        print(f"{problem.file}: {problem.message}; {problem.advice}")


def shared_blocks(content: Path, series: Series) -> dict[str, str]:
    """The kind of each shared block, by id; those of a shared library first."""
    folders = [content / series.library.folder, content] if series.library else [content]
    results = (
        read_file("routines", f"routines/{path.name}", path.read_bytes())
        for folder in folders
        for path in sorted((folder / "routines").glob("*.yaml"))
    )
    return {id_of(result.file): result.value["kind"] for result in results if result.usable}
