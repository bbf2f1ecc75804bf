"""Look for problems (nothing can be built) and warnings (worth a thought) in the content."""

import argparse

from sitegen.cli import OK, PROBLEMS
from sitegen.commands.common import add_folders, content_folder, print_problems


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_folders(parser, out=False)
    parser.add_argument("--json", action="store_true", help="print the problems as JSON, for other programs")


def run(arguments: argparse.Namespace) -> int:
    from sitegen.checks import check_content
    from sitegen.problems import ContentError

    folder = content_folder(arguments)
    try:
        problems = check_content(folder)
    except ContentError as error:
        problems = error.problems
    bad = any(p.severity == "problem" for p in problems)
    print_problems(problems, as_json=arguments.json, warnings_looked_for=not bad)
    return PROBLEMS if bad else OK
