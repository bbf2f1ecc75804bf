"""Builds killed before every step they take on the disk, and builds of the command killed by the clock.

The site has to be the old or the new one after each; exit status 1 where it was not.
"""

import argparse
import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.building.kills import TITLES, build, entitle, run
from tests.folders import SeriesFolder
from tests.trees import tree


def main(argv: list[str]) -> int:
    """Kill, look, and print what was found."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench kills")
    parser.add_argument("--timed", type=int, default=200, help="kills of the command at drawn moments")
    parser.add_argument("--seed", type=int, default=random.randrange(10**6))
    arguments = parser.parse_args(argv)
    with tempfile.TemporaryDirectory(prefix="sitegen-bench-") as folder:
        os.environ["XDG_CACHE_HOME"] = f"{folder}/cache"
        content = SeriesFolder(Path(folder)).root
        wrong = _before_every_step(content, Path(folder, "steps", "build"))
        wrong += _by_the_clock(content, Path(folder, "timed", "build"), arguments.timed, arguments.seed)
    return 1 if wrong else 0


def _before_every_step(content: Path, out: Path) -> int:
    told = run(content, out, wanted=10**6)
    wrong = [point for point in told["found"] if not isinstance(point[1], bool)]
    print(
        f"{len(told['found'])} steps of a build, killed before each: {len(wrong)} sites neither old nor new"
    )
    return len(wrong) + (not told["in the end"])


def _by_the_clock(content: Path, out: Path, kills: int, seed: int) -> int:
    sites = []
    for title in TITLES:
        build(entitle(content, title), out.with_name(title))
        sites.append(tree(out.with_name(title)))
    build(content, out)
    began = time.perf_counter()
    subprocess.run(_command(entitle(content, TITLES[0]), out), check=True, stdout=subprocess.DEVNULL)
    seconds = time.perf_counter() - began
    chance = random.Random(seed)
    ends = [0, 0, 0]
    for number in range(kills):
        # A build after a killed one has more to do: some have to come to their end.
        _killed(_command(entitle(content, TITLES[number % 2]), out), chance.uniform(0, seconds * 1.6))
        now = tree(out)
        ends[sites.index(now) if now in sites else 2] += 1
    print(
        f"{kills} builds killed by the clock (seed {seed}): {ends[2]} sites neither old nor new, {ends[:2]}"
    )
    return ends[2]


def _command(content: Path, out: Path) -> list[str]:
    program = [sys.executable, "-m", "sitegen", "build", "--pages-only"]
    return [*program, "--content", str(content), "--out", str(out)]


def _killed(command: list[str], after: float) -> None:
    process = subprocess.Popen(
        command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True
    )
    try:
        process.wait(timeout=after)
    except subprocess.TimeoutExpired:
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()
