"""Random edits, each built into the same site and compared with a build from scratch."""

import argparse
import os
import tempfile
from collections import Counter
from pathlib import Path

from tests.building.edits import EDITS, begin, wrong_after

_IN_A_ROW = 50
"""Edits of one series before another begins: what grows wild is no series any more."""


def main(argv: list[str]) -> int:
    """Try and print; exit status 1 where a site was not as from scratch."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench edits")
    parser.add_argument("--count", type=int, default=1000, help="edits (default: 1000)")
    parser.add_argument("--seed", type=int, default=1, help="of the first series (default: 1)")
    parser.add_argument("--only", help="this edit alone, again and again")
    arguments = parser.parse_args(argv)
    done: Counter[str] = Counter()
    wrong = 0
    for number in range(0, arguments.count, _IN_A_ROW):
        with tempfile.TemporaryDirectory(prefix="sitegen-edits-") as folder:
            os.environ["XDG_CACHE_HOME"] = f"{folder}/caches"
            series = begin(Path(folder), seed=arguments.seed + number)
            for _ in range(min(_IN_A_ROW, arguments.count - number)):
                name = arguments.only or series.chance.choice(sorted(EDITS))
                found = wrong_after(series, name)
                done["taken back" if found is None else "built"] += 1
                if found:
                    wrong += 1
                    print(f"seed {arguments.seed + number}, after {series.log[-3:]}: {found[:4]}", flush=True)
                    break
        print(f"{sum(done.values())} edits: {dict(done)}, {wrong} wrong", flush=True)
    return 1 if wrong else 0
