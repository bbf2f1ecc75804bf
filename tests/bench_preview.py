"""From a saved file to the renewed page: ``python -m tests.bench preview``, in real Chromium."""

import argparse
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from tests.conftest import CHROMIUM, CHROMIUM_FLAGS
from tests.generate import generate

BUDGET_SECONDS = 0.3
SAVES = 11
PAINTED = """(entry => entry && performance.timeOrigin + entry.startTime)(
  performance.getEntriesByName("first-contentful-paint")[0])"""
"""When the page was first painted, by its own account: a test driver looks only now and then."""


def main(argv: list[str]) -> int:
    """Measure and print; exit status 1 where the budget is missed."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench preview")
    parser.add_argument("--episodes", type=int, default=1000)
    episodes = parser.parse_args(argv).episodes
    with tempfile.TemporaryDirectory(prefix="sitegen-bench-") as folder:
        times = _measure(Path(folder), episodes)
    median = statistics.median(times)
    verdict = "kept" if median <= BUDGET_SECONDS else "MISSED"
    print(f"save to renewed page at {episodes:,} episodes: median {median:.3f} s, worst {max(times):.3f} s")
    print(f"budget {BUDGET_SECONDS} s  {verdict}")
    return 0 if median <= BUDGET_SECONDS else 1


def _measure(folder: Path, episodes: int) -> list[float]:
    content = generate(folder, episodes)
    words = [sys.executable, "-m", "sitegen", "preview", "--content", str(content), "--port", "0"]
    environment = os.environ | {"XDG_CACHE_HOME": str(folder / "cache")}
    process = subprocess.Popen(words, stdout=subprocess.PIPE, text=True, env=environment)
    assert process.stdout is not None
    try:
        address = process.stdout.readline().split()[0]
        process.stdout.readline()
        return _times(address, content, process.stdout.readline)
    finally:
        process.terminate()
        process.wait()


def _times(address: str, content: Path, wait_until_written: Callable[[], str]) -> list[float]:
    times = []
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=str(CHROMIUM), args=CHROMIUM_FLAGS)
        page = browser.new_page()
        page.goto(f"{address}episodes/session-7/index.html")
        for number in range(SAVES):
            times.append(_one_save(page, content / "episodes" / "00007-session-7.yaml", number))
            wait_until_written()  # nobody saves again before having looked
        browser.close()
    return times


def _one_save(page: Page, path: Path, number: int) -> float:
    """Seconds from a save to the moment the page shows it."""
    text = path.read_text()
    title = next(line for line in text.splitlines() if line.startswith("title:"))
    started = time.time()
    path.write_text(text.replace(title, f"title: Session number {number}"))
    page.get_by_role("heading", level=1, name=f"Session number {number}", exact=True).wait_for()
    page.wait_for_function(PAINTED)
    return float(page.evaluate(PAINTED)) / 1000 - started
