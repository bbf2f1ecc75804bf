"""Compile the content into the site: only what changed is written, and all of it or nothing."""

import argparse
import gc
import sys
import time
from dataclasses import asdict
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from sitegen.building.site_state import state_of_site
from sitegen.building.snapshot import Snapshot, fingerprint_of
from sitegen.cli import OK, PROBLEMS
from sitegen.commands.common import (
    add_folders,
    add_release_day,
    content_folder,
    out_folder,
    print_problems,
    refuse,
    release_day,
)
from sitegen.printing.installed_browser import find_browser
from sitegen.resources import libraries, program_folder, themes_folder
from sitegen.system.cache_folders import cache_folder

if TYPE_CHECKING:
    from sitegen.building.build import BuildResult
    from sitegen.building.library_told import LibraryAsBuilt
    from sitegen.model import Series


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_folders(parser, out=True)
    add_release_day(parser)
    parser.add_argument(
        "--pages-only", action="store_true", help="leave out the PDF files and the pictures for links"
    )
    parser.add_argument(
        "--jobs", type=int, metavar="N", help="processes to work with (default: one per core)"
    )
    parser.add_argument(
        "--take-over",
        action="store_true",
        help="use an output folder with files of somebody else; keep them, but replace those in the way",
    )


def run(arguments: argparse.Namespace) -> int:
    started = time.perf_counter()
    gc.disable()  # a short run that makes few reference cycles: collecting them only costs time
    content = content_folder(arguments)
    out = out_folder(arguments, content)
    snapshot_file = cache_folder(content, out) / "snapshot.json"
    last = Snapshot.load(snapshot_file)
    day = release_day(arguments)
    library = last.library["folder"] if last and last.library else ""
    inputs = _inputs(content, library, all_out=day is None, pdf=not arguments.pages_only)
    if (
        last is not None
        and last.holds_on(_text(day))
        and last.inputs == inputs != ""
        and last.site == state_of_site(out)
    ):
        _say(out, last.summary, f"nothing has changed: {last.files} files", started)
        return OK
    built = _build(arguments, content, out, day)
    if built is None:
        return PROBLEMS
    summary = _summary(built.series)
    written = built.written
    counts = (
        f"{len(written.made)} files written, {len(written.removed)} removed, {written.unchanged} unchanged"
    )
    _say(out, summary, counts, started)
    if built.unprinted:
        print(f"sheets without PDF files: {built.unprinted} (the README says what prints them)")
    if built.long_sheets:
        print(f"longer than one page: {', '.join(built.long_sheets)}")
        print("    shorter first cues and faults, or fewer blocks, would help")
    files = len(written.made) + written.unchanged
    kept = _library(built.series, last)
    snapshot = Snapshot(
        # As they were before: a file saved during the build is a change for the next one. Where it read
        # another library than the one looked at, that is to be looked at first.
        inputs=inputs if library == (kept.folder if kept else "") else "",
        library=asdict(kept) if kept else None,
        site=written.site,
        summary=summary,
        files=files,
        since=max((_text(e.released) for e in built.series.episodes), default="") if day else "",
        until=min((_text(e.released) for e in built.series.upcoming if not e.planned), default=""),
    )
    try:
        snapshot.save(snapshot_file)
    except OSError:
        pass  # the next build looks at everything again
    return OK


def _text(day: date | None) -> str:
    return day.isoformat() if day else ""


def _summary(series: "Series") -> str:
    counts = f"{_count(len(series.episodes), 'episode')}, {_count(len(series.exercises), 'exercise')}"
    plans = sum(episode.planned for episode in series.upcoming)
    waiting = len(series.upcoming) - plans
    counts += f"; {waiting} not out yet (--include-upcoming takes them in)" if waiting else ""
    return f"{counts}; {_count(plans, 'plan')} not filmed yet" if plans else counts


def _library(series: "Series", last: Snapshot | None) -> "LibraryAsBuilt | None":
    """Say which version of a shared library the site has now; gives what to remember of it."""
    from sitegen.building.library_told import LibraryAsBuilt, as_built, library_line

    before = LibraryAsBuilt(**last.library) if last and last.library else None
    if series.library is not None:
        print(library_line(series.library, before))
    return as_built(series.library, before, date.today().isoformat())


def _inputs(content: Path, library: str, *, all_out: bool, pdf: bool) -> str:
    """Fingerprint of all a build reads, and of what prints its sheets."""
    folders = [program_folder(), themes_folder(), content.parent / "themes", content]
    folders += [content / library] if library else []
    return fingerprint_of(folders, all_out, pdf, find_browser() if pdf else None, sys.version, libraries())


def _build(arguments: argparse.Namespace, content: Path, out: Path, day: date | None) -> "BuildResult | None":
    """The build, or None with the reason printed."""
    from sitegen.building.build import Builder
    from sitegen.building.build_directory import OutputBusy
    from sitegen.problems import ContentError

    try:
        builder = Builder(
            content,
            out,
            jobs=arguments.jobs,
            today=day,
            pdf=not arguments.pages_only,
            take_over=arguments.take_over,
        )
        built = builder.build(progress=_show_progress)
        builder.remember()
        return built
    except ContentError as error:
        print_problems(error.problems)
        print(f"nothing was built; {out} is as it was", file=sys.stderr)
    except OutputBusy as busy:
        refuse(f"{busy}; wait for it, or stop it")
    return None


def _show_progress(done: int, total: int) -> None:
    """One line that counts up, on a terminal only, by twenties: writing there for every page takes time."""
    if sys.stderr.isatty() and (done % 20 == 0 or done == total):
        end = "\n" if done == total else ""
        print(f"\r{done} of {total} pages", end=end, file=sys.stderr, flush=True)


def _say(out: Path, summary: str, counts: str, started: float) -> None:
    print(f"{out / 'index.html'}: {summary}")
    print(f"{counts} ({time.perf_counter() - started:.1f} s)")


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"
