"""Note the calendar as published, so that calendars which took a session over notice when it changes.

Run it when the site goes out, and keep content/calendar.yaml with the rest of the content.
"""

import argparse

from sitegen.cli import OK, PROBLEMS
from sitegen.commands.common import add_folders, content_folder, refuse, series_to_build_on
from sitegen.reading.folder import CALENDAR_FILE
from sitegen.study.calendar_entries import record
from sitegen.study.overview import series_entries
from sitegen.system.whole_files import write_whole

HEAD = """\
# Written by `sitegen calendar`: what was last published of each session in the calendar. Calendars that took
# a session over notice a change by its count. Keep this file with the rest of the content.
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_folders(parser)


def run(arguments: argparse.Namespace) -> int:
    folder = content_folder(arguments)
    series = series_to_build_on(folder)
    if series is None:
        return PROBLEMS
    if series.details.schedule is None:
        return refuse("the series has no calendar; give series.yaml a schedule", PROBLEMS)
    now = record(series.calendar, series_entries(series))
    lines = [f"{key}: {one.sequence} {one.mark}\n" for key, one in now.items()]
    changed = [key for key, one in now.items() if series.calendar.get(key) != one]
    path = folder / CALENDAR_FILE
    if changed:
        write_whole(path, (HEAD + "".join(lines)).encode())
    print(f"{path}: {len(now)} entries, {len(changed)} of them new or changed")
    return OK
