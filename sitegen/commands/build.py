"""Compile the content into the site: only what changed is written, and all of it or nothing."""

import argparse
import gc
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

from sitegen.cli import OK, PROBLEMS
from sitegen.commands.common import add_folders, content_folder, count_line, out_folder, print_problems


if TYPE_CHECKING:
    from sitegen.build import Built


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_folders(parser, out=True)
    parser.add_argument("--jobs", type=int, metavar="N", help="processes to work with (default: one per core)")


def run(arguments: argparse.Namespace) -> int:
    from sitegen.build import Builder
    from sitegen.output import Busy
    from sitegen.problems import ContentError

    gc.disable()  # a short run that makes no garbage in circles: collecting only costs time
    content = content_folder(arguments)
    out = out_folder(arguments, content)
    started = time.perf_counter()
    try:
        built = Builder(content, out, jobs=arguments.jobs).build(progress=_show_progress)
    except ContentError as error:
        print_problems(error.problems)
        print(f"nothing was built; {out} is as it was", file=sys.stderr)
        return PROBLEMS
    except Busy as busy:
        print(f"sitegen: {busy}; wait for it, or stop it", file=sys.stderr)
        return PROBLEMS
    _say_what_was_done(built, out, time.perf_counter() - started)
    return OK


def _show_progress(done: int, total: int) -> None:
    """One line that counts up, on a terminal only."""
    if sys.stderr.isatty() and (done % 20 == 0 or done == total):
        end = "\n" if done == total else ""
        print(f"\r{done} of {total} pages", end=end, file=sys.stderr, flush=True)


def _say_what_was_done(built: "Built", out: Path, seconds: float) -> None:
    written = built.written
    episodes, exercises = len(built.series.episodes), len(built.series.exercises)
    print(f"{out / 'index.html'}: {_count(episodes, 'episode')}, {_count(exercises, 'exercise')}")
    counts = f"{len(written.made)} files written, {len(written.removed)} removed, {written.unchanged} unchanged"
    print(f"{counts} ({seconds:.1f} s)")
    if built.warnings:
        print(f"{count_line(built.warnings)}: sitegen check lists them")


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"
