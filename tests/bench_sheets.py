"""Sheets as PDF files against the budget: the median of one sheet on one core."""

import argparse
import os
import statistics
import tempfile
import time
from pathlib import Path

from sitegen.building.build import Builder
from sitegen.pages.page import Page
from sitegen.printing.installed_browser import find_browser
from sitegen.printing.pdf_printer import PdfPrinter
from tests.four_weeks import four_weeks

BUDGET = 0.4
"""Seconds."""


def main(argv: list[str]) -> int:
    """Measure and print; exit status 1 where the budget is missed."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench sheets")
    parser.add_argument("--repeats", type=int, default=3)
    arguments = parser.parse_args(argv)
    if hasattr(os, "sched_setaffinity"):
        os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})  # the browser inherits it
    engine = find_browser()
    if engine is None:
        print("there is no browser that could print")
        return 1
    with tempfile.TemporaryDirectory(prefix="sitegen-bench-") as folder:
        builder = Builder(four_weeks(), Path(folder) / "build", jobs=1)
        content = builder.read()
        seconds: list[float] = []
        sizes: list[int] = []
        starts: list[float] = []
        for _ in range(arguments.repeats):
            with PdfPrinter(engine, Path(folder) / "printer") as printer:
                pages = builder.plan(content, printer)
                pdfs = [page for page in pages if page.address.endswith(".pdf")]
                starts.append(_timed(pdfs[0])[0])
                figures = [_timed(page) for page in pdfs[1:]]
                seconds += [one[0] for one in figures]
                sizes += [one[1] for one in figures]
    median = statistics.median(seconds)
    print(f"the first sheet, with the browser's start: {statistics.median(starts):.2f} s")
    print(f"of {len(seconds)} others: {max(seconds):.3f} s at most, {max(sizes):,} bytes at most")
    verdict = "kept" if median <= BUDGET else "MISSED"
    print(f"{'one sheet as PDF (median, one core)':40} {median:7.3f}  budget {BUDGET:7.3f}  {verdict}")
    return 0 if median <= BUDGET else 1


def _timed(page: Page) -> tuple[float, int]:
    """Seconds and bytes of a page."""
    if isinstance(page.make, Path):
        raise TypeError(page.address)
    started = time.perf_counter()
    size = len(page.make())
    return time.perf_counter() - started, size
