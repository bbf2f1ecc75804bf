"""Builds that are killed before the n-th step they take on the disk: ``python -m tests.building.kills``.

A step is a file opened for writing, a name linked, renamed or removed, a folder made or removed, the call
that swaps the trees looked up; Python's audit hooks tell of each before it happens. Writing is two steps,
for a file may be written in part. All is counted, nothing timed: the same kills in every run.

Run as a program of its own (with ``jobs=1``, so without threads), since every killed build is a fork of it.
"""

import json
import os
import re
import signal
import sys
from pathlib import Path
from typing import Any

from sitegen.building.build import Builder
from tests.trees import tree

TITLES = ("My series", "Our series")
_EVENTS = ("os.rename", "os.link", "os.remove", "os.mkdir", "os.rmdir", "os.truncate", "ctypes.dlopen")


class Steps:
    """Counts the steps of this process; kills it before the one with the number ``last``."""

    def __init__(self, last: int | None) -> None:
        self.count = 0
        self._last = last
        self._write = os.write
        os.write = self._write_in_two
        sys.addaudithook(self._note)

    def _note(self, event: str, arguments: tuple[Any, ...]) -> None:
        if event in _EVENTS or (event == "open" and arguments[2] & (os.O_WRONLY | os.O_RDWR)):
            self._step()

    def _step(self) -> None:
        if self.count == self._last:
            os.kill(os.getpid(), signal.SIGKILL)
        self.count += 1

    def _write_in_two(self, descriptor: int, data: Any) -> int:
        half = len(data) // 2
        self._step()
        written = self._write(descriptor, data[:half])
        self._step()
        return written + self._write(descriptor, data[half:])


def entitle(content: Path, title: str) -> Path:
    """Give the series a title, which every page shows."""
    path = content / "series.yaml"
    path.write_text(re.sub("(?m)^title: .*$", f"title: {title}", path.read_text()))
    return content


def build(content: Path, out: Path) -> None:
    """One whole build."""
    builder = Builder(content, out, jobs=1)
    builder.build()
    builder.remember()


def killed_build(content: Path, out: Path, last: int | None) -> int | None:
    """Build in a fork that is killed before a step; gives the steps it took, None where it was killed."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        steps = Steps(last)
        build(content, out)
        steps._write(writing, str(steps.count).encode())
        os._exit(0)
    os.close(writing)
    with os.fdopen(reading, "rb") as stream:
        told = stream.read()
    _, status = os.waitpid(child, 0)
    if not told and os.WTERMSIG(status) != signal.SIGKILL:
        raise RuntimeError(f"the build ended with status {status}")
    return int(told) if told else None


def points(steps: int, wanted: int) -> list[int]:
    """So many of the steps, evenly spread, and as many of the last 24, among which is the swap."""
    near = range(max(0, steps - 24), steps, max(1, 24 // wanted))
    return sorted({*range(0, steps, max(1, steps // wanted)), *near})


def run(content: Path, out: Path, wanted: int) -> dict[str, Any]:
    """Kill builds at so many points; tells after each whether the site was the new one, or what was wrong.

    Every killed build begins as the others did: after the one before it the new site and then the old one are
    built whole. Else it would find some of its work done, and the swap would come at another step each time.
    """
    sites = []
    for title in TITLES:
        build(entitle(content, title), out.with_name(title))
        sites.append(tree(out.with_name(title)))
    build(content, out)
    # The first builds find no previous site to link from; counted is what a build takes from then on.
    steps = [killed_build(entitle(content, title), out, None) for title in TITLES * 3][-1]
    found: list[Any] = []
    put_right = True
    for last in points(steps or 0, wanted):
        for number in (1, 0):
            build(entitle(content, TITLES[number]), out)
            put_right &= tree(out) == sites[number]
        killed_build(entitle(content, TITLES[1]), out, last)
        now = tree(out)
        found.append([last, sites.index(now) == 1 if now in sites else "neither old nor new"])
    build(content, out)
    return {"found": found, "in the end": put_right and tree(out) == sites[1]}


if __name__ == "__main__":
    print(json.dumps(run(Path(sys.argv[1]), Path(sys.argv[2]), int(sys.argv[3]))))
