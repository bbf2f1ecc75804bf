"""What each piece of machinery for speed returns: builds without it, each in a process of its own.

``python -m tests.bench machinery --episodes 100,1000`` builds a generated series from scratch without one
piece after the other, each into a folder of its own with caches of its own, for pieces leave caches of
another form. Then it edits the series again and again: a summary (a few pages show it) and a dose (pages and
lists of exercises show it too). The pieces take turns, so that what else the machine does falls on all of
them. Told are the processor seconds of all processes of a build, with about 0.1 s for loading this module,
and the memory of the largest.
"""

import argparse
import contextlib
import gc
import io
import json
import os
import re
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import Any, NamedTuple
from unittest import mock

from sitegen import cli, stored_records
from sitegen.building import build as building
from sitegen.building.build_directory import BuildDirectory
from sitegen.commands import build as command
from sitegen.pages import fact_store, facts
from sitegen.reading.read_cache import ReadCache
from sitegen.study import posed_forms
from sitegen.system import cache
from tests.generate import generate

AS_IT_IS = "as it is"


def _replace(owner: Any, **what: Any) -> Callable[[Path], None]:
    """A patch for the rest of the process."""

    def patch(out: Path) -> None:
        for name, value in what.items():
            mock.patch.object(owner, name, value).start()

    return patch


def _without_asked(out: Path) -> None:
    load, save = building.load_cached, building.save_cached
    mock.patch.object(
        building, "load_cached", lambda folder, code: {} if folder.name == "asked" else load(folder, code)
    ).start()
    mock.patch.object(
        building, "save_cached", lambda folder, *rest: None if folder.name == "asked" else save(folder, *rest)
    ).start()


def _without_folding(out: Path) -> None:
    _replace(
        stored_records.FoldingRecord, __reduce__=stored_records.Record.__reduce__, fold=lambda record: None
    )(out)


def _without_fact_cache(out: Path) -> None:
    def load(store: fact_store.FactStore, site_key: str) -> None:
        store._site_key = site_key

    _replace(fact_store.FactStore, load=load, save=lambda store, jobs: None)(out)


def _without_packing(out: Path) -> None:
    _replace(fact_store, packed=lambda value: value, opened=lambda value: value)(out)
    _replace(facts, opened=lambda value: value)(out)


PIECES: Mapping[str, Callable[[Path], None]] = {
    AS_IT_IS: lambda out: None,
    "what was read, cached": _replace(
        ReadCache, load=classmethod(lambda kind, *_: kind()), save=lambda *_: None
    ),
    "facts, cached": _without_fact_cache,
    "facts, packed": _without_packing,
    "what poses ask, cached": _without_asked,
    "movements, remembered in a build": _replace(
        posed_forms, _result=lambda known, form, work_out: None if form.poses is None else work_out()
    ),
    "templates, compiled before": _replace(building, template_cache=lambda: Path(tempfile.mkdtemp())),
    "32 cache files instead of one": _replace(cache, _FILES=1),
    "lazily loaded records": _without_folding,
    "the previous site, kept to link from": lambda out: shutil.rmtree(BuildDirectory(out).staging, True),
    "no search for reference cycles": _replace(gc, disable=lambda: None),
    "a second process": lambda out: None,
    "a look whether anything changed": _replace(command.Snapshot, load=classmethod(lambda kind, path: None)),
}
"""What takes each away, given the output folder."""


class Spent(NamedTuple):
    """By a build: processor seconds of all its processes, and MB of the largest."""

    seconds: float
    megabytes: float


def main(argv: list[str]) -> int:
    """Measure and print."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench machinery")
    parser.add_argument("--episodes", default="100,1000")
    parser.add_argument("--repeats", type=int, default=3)
    parser.add_argument(
        "--from-scratch", type=int, default=1, metavar="N", help="builds from scratch of each (default: 1)"
    )
    parser.add_argument("--edits", default=",".join(EDITS), help="of which sorts (default: all)")
    parser.add_argument("--only", nargs="*", default=list(PIECES), metavar="PIECE")
    parser.add_argument("--one", nargs=3, help=argparse.SUPPRESS)
    arguments = parser.parse_args(argv)
    if arguments.one:
        print(json.dumps(_spent(*arguments.one)))
        return 0
    pieces = [AS_IT_IS, *(piece for piece in arguments.only if piece != AS_IT_IS)]
    for episodes in map(int, arguments.episodes.split(",")):
        with tempfile.TemporaryDirectory(prefix="sitegen-bench-") as folder:
            content = generate(Path(folder), episodes)
            sites = {piece: Path(folder, f"piece-{number}") for number, piece in enumerate(pieces)}
            _measure(content, sites, arguments)
    return 0


def _measure(content: Path, sites: Mapping[str, Path], arguments: argparse.Namespace) -> None:
    episodes = len(list((content / "episodes").iterdir()))
    whole: dict[str, list[Spent]] = {piece: [] for piece in sites}
    for _ in range(arguments.from_scratch):
        for piece, folder in sites.items():
            shutil.rmtree(folder, ignore_errors=True)
            whole[piece].append(_build(piece, content, folder))
    for piece in sites:
        _print(episodes, "from scratch", piece, whole[piece])
    for name in filter(None, arguments.edits.split(",")):
        spent: dict[str, list[Spent]] = {piece: [] for piece in sites}
        for _ in range(arguments.repeats):
            for piece, folder in sites.items():
                # Twice, since what the others edited meanwhile is no part of this edit.
                _build(piece, content, folder)
                EDITS[name](content)
                spent[piece].append(_build(piece, content, folder))
        for piece in sites:
            _print(episodes, name, piece, spent[piece])


def _print(episodes: int, what: str, piece: str, spent: list[Spent]) -> None:
    seconds = [one.seconds for one in spent]
    without = piece if piece == AS_IT_IS else f"without {piece}"
    print(
        f"{episodes:6,}  {what:12}  {min(seconds):6.2f}  {statistics.median(seconds):6.2f} s"
        f"  {max(one.megabytes for one in spent):5.0f} MB  {without}",
        flush=True,
    )


def _in_the_middle(content: Path, change: Callable[[str], str]) -> None:
    files = sorted((content / "episodes").iterdir())
    path = files[len(files) // 2]
    path.write_text(change(path.read_text()))
    time.sleep(0.1)  # the file has to be settled, or the next build reads it again


def _summary(text: str) -> str:
    return re.sub(r"(?m)^(summary: .*?)( Again \d+\.)?$", rf"\1 Again {time.time_ns()}.", text, count=1)


def _dose(text: str) -> str:
    return re.sub(r"dose: (\d+)(?= |,|\n)", lambda m: f"dose: {int(m[1]) ^ 1}", text, count=1)


EDITS: Mapping[str, Callable[[Path], None]] = {
    "a summary": partial(_in_the_middle, change=_summary),
    "a dose": partial(_in_the_middle, change=_dose),
    "nothing": lambda content: None,
}


def _build(piece: str, content: Path, folder: Path) -> Spent:
    words = [
        sys.executable,
        "-m",
        "tests.bench",
        "machinery",
        "--one",
        piece,
        str(content),
        f"{folder}/build",
    ]
    environment = os.environ | {"XDG_CACHE_HOME": f"{folder}/cache"}
    told = subprocess.run(words, check=True, capture_output=True, text=True, env=environment).stdout
    return Spent(*json.loads(told.splitlines()[-1]))


def _spent(piece: str, content: str, out: str) -> Spent:
    """Build in this process."""
    PIECES[piece](Path(out))
    words = ["build", "--content", content, "--out", out, "--pages-only"]
    words += ["--jobs", "1"] if piece == "a second process" else []
    with contextlib.redirect_stdout(io.StringIO()):
        if cli.main(words):
            raise RuntimeError("the build ended with problems")
    own, others = (resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    seconds = sum(one.ru_utime + one.ru_stime for one in (own, others))
    return Spent(seconds, max(own.ru_maxrss, others.ru_maxrss) / 1024)
