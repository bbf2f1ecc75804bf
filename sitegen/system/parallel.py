"""Work on many values with several processes, where the system can fork."""

import gc
import multiprocessing
import os
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from typing import TypeVar

T = TypeVar("T")
R = TypeVar("R")

_SMALL = 64
"""Fewer values than this are not worth a second process."""

_YOUNG = 20_000
"""After so many objects more than were let go a worker looks for cycles among them: the pages of about ninety
sessions leave as many."""
_NEVER = 1_000_000
"""Older objects are not looked at again: a worker ends before it pays."""

_work: tuple[Callable[..., object], Sequence[object]] | None = None
"""What the forked workers inherit: nothing but results has to be pickled."""


def usable_cores() -> int:
    """Processor cores this process may use."""
    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:
        return os.cpu_count() or 1


def can_fork() -> bool:
    """True where forking is safe: on Linux, in a process without other threads."""
    return sys.platform.startswith("linux") and threading.active_count() == 1


def map_in_chunks(
    function: Callable[[T], R], values: Sequence[T], jobs: int, *, pays_from: int = _SMALL
) -> Iterator[R]:
    """``function`` of each value, in order; in ``jobs`` processes where so many values make it pay."""
    global _work
    if jobs < 2 or len(values) < pays_from or not can_fork():
        yield from map(function, values)
        return
    # Small chunks near the end keep both cores busy to the last.
    size = max(1, len(values) // (jobs * 32))
    bounds = [(start, min(start + size, len(values))) for start in range(0, len(values), size)]
    _work = (function, values)
    try:
        with multiprocessing.get_context("fork").Pool(jobs, _collect_young) as pool:
            for results in pool.imap(_work_on, bounds):
                yield from results  # type: ignore[misc]
            # Let the workers end by themselves, so that they can put away what they started.
            pool.close()
            pool.join()
    finally:
        _work = None


def _collect_young() -> None:
    """Let a worker clear up what it leaves behind itself: templates make cycles, and pages are many.

    What it inherits is put aside first: to look at it would copy all of it for this process.
    """
    gc.freeze()
    gc.set_threshold(_YOUNG, _NEVER, _NEVER)
    gc.enable()


def _work_on(bounds: tuple[int, int]) -> list[object]:
    if _work is None:
        raise RuntimeError("a worker was started without work")
    function, values = _work
    return [function(value) for value in values[bounds[0] : bounds[1]]]
