"""Puts faults back, one after another: random edits must find each (``tests.building.put_back``)."""

import argparse
import os
import tempfile
from pathlib import Path

from tests.building.edits import EDITS, Left, begin, wrong_after
from tests.building.put_back import FAULTS


def main(argv: list[str]) -> int:
    """Put back and print; exit status 1 where a fault was not found."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench faults")
    parser.add_argument("--most", type=int, default=12, help="edits tried for each (default: 12)")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--every-edit", action="store_true", help="draw from all edits")
    parser.add_argument("--only", help="this fault alone")
    arguments = parser.parse_args(argv)
    missed = 0
    for name, fault in FAULTS.items():
        if arguments.only in (None, name):
            edits = tuple(sorted(EDITS)) if arguments.every_edit else fault.shown_by
            found = edits_until_wrong(name, edits, arguments.most, arguments.seed)
            missed += found is None
            print(f"{name:48} {found or 'NOT FOUND'}", flush=True)
    return 1 if missed else 0


def edits_until_wrong(fault: str, edits: tuple[str, ...], most: int, seed: int) -> str | None:
    """How many edits were built until a site was wrong, and what it was; None where that did not happen."""
    with tempfile.TemporaryDirectory(prefix="sitegen-faults-") as folder:
        os.environ["XDG_CACHE_HOME"] = f"{folder}/caches"
        series = begin(Path(folder), seed, episodes=2, short=True)
        with FAULTS[fault].put_back():
            # Of a site made whole the fault does not show: it is in what is noted of it.
            if wrong_after(series, "a comment"):
                return None
            built = 0
            for _ in range(3 * most):
                edit = series.chance.choice(edits)
                wrong = wrong_after(series, edit)
                if isinstance(wrong, Left):
                    continue
                built += 1
                if wrong:
                    return f"after {built}: {edit}; {len(wrong)} wrong, {wrong[0]}"
                if built == most:
                    break
    return None
