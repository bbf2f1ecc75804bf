"""Write the next numbered episode's file, filled with what the series already knows."""

import argparse
import sys
from pathlib import Path

from sitegen.cli import OK, PROBLEMS, USAGE
from sitegen.commands.common import content_folder, print_problems


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("title", nargs="?", default="Untitled", help='its title, such as "Steady pull"')
    parser.add_argument("--content", type=Path, metavar="FOLDER", help="the series (default: content)")


def run(arguments: argparse.Namespace) -> int:
    from sitegen.commands.next_episode import next_episode
    from sitegen.problems import ContentError
    from sitegen.reading.reader import read_series

    content = content_folder(arguments)
    try:
        name, text = next_episode(read_series(content), arguments.title)
    except ContentError as error:
        print_problems(error.problems)
        print("put these right first: the next episode builds on what is there", file=sys.stderr)
        return PROBLEMS
    except ValueError as error:
        print(f"sitegen: {error}", file=sys.stderr)
        return USAGE
    path = content / "episodes" / name
    path.parent.mkdir(exist_ok=True)
    with path.open("x", encoding="utf-8") as stream:
        stream.write(text)
    print(f"{path}: ready to edit")
    return OK
