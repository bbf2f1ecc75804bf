"""Random edits, each built into the same site and compared with a build from scratch."""

import argparse
import os
import tempfile
from collections import Counter
from pathlib import Path

from tests.building.edits import EDITS, Left, begin, wrong_after

_IN_A_ROW = 40
"""Builds of one series before another begins: what grows wild is no series any more."""
_WHOLE_EVERY = 10
"""One series of so many has whole episodes; the others are short, so that a thousand builds can be had."""


def main(argv: list[str]) -> int:
    """Try and print; exit status 1 where a site was not as from scratch."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench edits")
    parser.add_argument("--count", type=int, default=1000, help="edits that are built (default: 1000)")
    parser.add_argument("--seed", type=int, default=1, help="of the first series (default: 1)")
    parser.add_argument("--only", help="this edit alone, again and again")
    arguments = parser.parse_args(argv)
    done: Counter[str] = Counter()
    wrong, seed = 0, arguments.seed
    while done.total() < arguments.count:
        wrong += _one_series(seed, arguments.count - done.total(), arguments.only, done)
        seed += 1
        print(
            f"{done.total()} edits built, {wrong} wrong, {_processor_seconds():.0f} s of processor time",
            flush=True,
        )
    for name in sorted(EDITS):
        print(f"  {done[name]:4} {name}")
    return 1 if wrong else 0


def _one_series(seed: int, most: int, only: str | None, done: Counter[str]) -> int:
    """Edit one series so many times at most; gives 1 where a site was wrong, and goes no further then."""
    with tempfile.TemporaryDirectory(prefix="sitegen-edits-") as folder:
        os.environ["XDG_CACHE_HOME"] = f"{folder}/caches"
        series = begin(Path(folder), seed, episodes=2, short=seed % _WHOLE_EVERY != 0)
        built = 0
        for _ in range(3 * _IN_A_ROW):
            if built >= min(_IN_A_ROW, most):
                break
            name = only or series.chance.choice(sorted(EDITS))
            found = wrong_after(series, name)
            if isinstance(found, Left):
                continue
            built += 1
            done[name] += 1
            if found:
                print(f"seed {seed}, after {series.log[-3:]}: {found[:4]}", flush=True)
                return 1
    return 0


def _processor_seconds() -> float:
    """Of this process and those it started."""
    times = os.times()
    return times.user + times.system + times.children_user + times.children_system
