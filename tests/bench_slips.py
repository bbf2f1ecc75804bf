"""Slips of a typist in every file of the demo: how often the message names the line, and mends the file."""

import argparse
import time
from collections import Counter

from tests.conftest import DEMO
from tests.typing_slips import SLIPS, content_files, outcome, places_of


def main(argv: list[str]) -> int:
    """Print the shares of each slip, of one in ``--every`` of its places, and the longest time of one."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench slips")
    parser.add_argument("--every", type=int, default=97, help="try one of so many (default: 97)")
    every = parser.parse_args(argv).every
    files = list(content_files(DEMO))
    total: Counter[str] = Counter()
    longest = 0.0
    for name in SLIPS:
        count: Counter[str] = Counter()
        for slip in [slip for file in files for slip in places_of(*file, name)][::every]:
            begun = time.process_time()
            if one := outcome(slip):
                count += Counter(
                    tried=1, place=int(one.place), mended=int(one.mended), silent=int(not one.said)
                )
            longest = max(longest, time.process_time() - begun)
        total += count
        print(_row(name, count))
    print(_row("all", total), f"longest {longest:.2f} s", sep="\n")
    return 0


def _row(name: str, count: Counter[str]) -> str:
    shares = (
        f"{what} {100 * count[what] / max(1, count['tried']):5.1f} %"
        for what in ("place", "mended", "silent")
    )
    return f"{name:40} {count['tried']:6} {'  '.join(shares)}"
