"""Work is counted, not timed: a count is the same on every machine, however busy it is."""

import sys
from collections.abc import Callable
from types import FrameType
from typing import Any

from playwright.sync_api import Page


def calls_in(work: Callable[[], object]) -> int:
    """How many functions Python calls for a piece of work."""
    count = 0

    def note(_frame: FrameType, event: str, _arg: object) -> None:
        nonlocal count
        count += event in ("call", "c_call")

    before = sys.getprofile()
    sys.setprofile(note)
    try:
        work()
    finally:
        sys.setprofile(before)
    return count


class BlockCounter:
    """Counts the blocks of code (bodies of functions, loops and branches) that a page's scripts run.

    Chromium counts them for its coverage tools; what the engine's own functions do is not in it. The
    counter has to be there before the scripts are: what was compiled earlier is counted in part only.
    """

    def __init__(self, page: Page) -> None:
        self.page = page
        self._session = page.context.new_cdp_session(page)
        self._session.send("Profiler.enable")
        self._session.send("Profiler.startPreciseCoverage", {"callCount": True, "detailed": True})

    def blocks_in(self, script: str, argument: Any = None) -> int:
        """How many are run for a script."""
        self._take()
        self.page.evaluate(script, argument)
        return self._take()

    def _take(self) -> int:
        """Blocks since the last call."""
        told = self._session.send("Profiler.takePreciseCoverage")
        functions = (function for script in told["result"] for function in script["functions"])
        return sum(block["count"] for function in functions for block in function["ranges"])
