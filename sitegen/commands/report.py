"""Show the numbers behind the series: times, sets of each muscle by week, balance, recovery, calendar."""

import argparse
import json

from sitegen.cli import OK, PROBLEMS
from sitegen.commands.common import add_folders, content_folder, series_to_build_on
from sitegen.report import gather, report_data, report_lines
from sitegen.system.terminal import columns


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_folders(parser)
    parser.add_argument("--json", action="store_true", help="print everything as JSON, for other programs")


def run(arguments: argparse.Namespace) -> int:
    series = series_to_build_on(content_folder(arguments))
    if series is None:
        return PROBLEMS
    report = gather(series)
    if arguments.json:
        print(json.dumps(report_data(report), indent=2, ensure_ascii=False))
        return OK
    for line in report_lines(report, columns()):
        print(line)
    return OK
