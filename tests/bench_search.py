"""The exercise search at 2,000 exercises: time per key press in Chromium, and what it loads.

A key press is measured from the browser's input event to the end of layout: searching, filtering,
counting every filter again, drawing the results, and the browser's own work to place them. What
the browser itself reports as the whole way to the next picture (Event Timing, in steps of 8 ms)
is printed beside it.
"""

import argparse
import gzip
import os
import re
import statistics
import tempfile
from collections.abc import Iterator
from itertools import product
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, sync_playwright

from sitegen.building.build import Builder
from tests.conftest import CHROMIUM, CHROMIUM_FLAGS, serve
from tests.generate import generate

BUDGET_MS = 16

QUERIES = (
    "row",
    "squat chair",
    "hamstring stretch",
    "hamstirng",
    "sqaut",
    "overhead",
    "push-up",
    "pushup",
    "water carrier",
    "quads",
    "glute bridge on the quay",
    "s",
    "towelrow",
    "seated press",
    "xyzzy",
)
"""Whole words, beginnings, slips, other names, muscles, kit, one letter, and nothing."""

FILTERED = "need=arms-low,no-jumping&home=sturdy-chair,bath-towel,food-tin"
"""Filters that are set while the same is typed again."""

_WATCH = """
window.presses = []; window.pictures = [];
let pressed = 0;
window.addEventListener("input", () => { pressed = performance.now(); }, true);
window.addEventListener("input", () => {
  document.body.offsetHeight;
  window.presses.push(performance.now() - pressed);
});
new PerformanceObserver((list) => {
  for (const entry of list.getEntries()) if (entry.name === "input") window.pictures.push(entry.duration);
}).observe({ type: "event", durationThreshold: 16, buffered: true });
"""

_INDEX = """async () => {
  const documents = ExerciseData.documents(ExerciseData.read(window.exerciseData));
  let longest = 0, last = performance.now(), done = false;
  const tick = () => {
    const now = performance.now();
    longest = Math.max(longest, now - last);
    last = now;
    if (!done) setTimeout(tick);
  };
  setTimeout(tick);
  const started = performance.now();
  await ExerciseText.create(documents).ready;
  done = true;
  return [performance.now() - started, longest];
}"""


def main(argv: list[str]) -> int:
    """Measure and print; exit status 1 where the budget is missed."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench search")
    parser.add_argument("--exercises", type=int, default=2000)
    parser.add_argument("--episodes", type=int, default=300)
    parser.add_argument("--slower", type=float, default=1, help="slow the processor down so many times")
    arguments = parser.parse_args(argv)
    with tempfile.TemporaryDirectory(prefix="sitegen-bench-") as folder:
        os.environ["XDG_CACHE_HOME"] = f"{folder}/cache"
        site = _site(Path(folder), arguments.episodes, arguments.exercises)
        _print_sizes(site)
        for address in serve(site):
            return _measure(f"{address}exercises/index.html", arguments.slower)
    return 1


def _site(folder: Path, episodes: int, exercises: int) -> Path:
    content = generate(folder, episodes, exercises)
    for file, words in zip(sorted((content / "exercises").glob("*.yaml")), _phrases(), strict=False):
        text = re.sub(r"^( *name: .*?)(?: \d+)?$", rf"\1 {words}", file.read_text(), flags=re.M)
        file.write_text(text)
    Builder(content, folder / "build").build()
    return folder / "build"


def _phrases() -> Iterator[str]:
    """2,100 endings for names, so that they differ as those of a real library do."""
    manners = ("slow", "quick", "soft", "steep", "narrow", "wide", "crossed", "leaning", "rolling", "steady")
    places = (
        "quay",
        "deck",
        "mast",
        "anchor",
        "harbour",
        "bow",
        "stern",
        "keel",
        "locker",
        "cabin",
        "galley",
    )
    places += ("ladder", "bollard", "jetty", "slipway")
    ways = ("on", "by", "from", "towards", "below", "round", "past", "along", "off", "near", "above", "over")
    ways += ("behind", "before")
    for manner, way, place in product(manners, ways, places):
        yield f"{way} the {manner} {place}"


def _print_sizes(site: Path) -> None:
    scripts = [site / "exercises" / "find.js", *sorted((site / "assets").glob("**/*.js"))]
    wanted = ("find", "minisearch", "search-", "needs")
    for script in (s for s in scripts if s.name.startswith(wanted)):
        data = script.read_bytes()
        print(
            f"{script.name:34} {len(data) / 1000:8.1f} KB {len(gzip.compress(data, 9)) / 1000:7.1f} KB gzip"
        )
    page = (site / "exercises" / "index.html").read_bytes()
    print(f"{'index.html':34} {len(page) / 1000:8.1f} KB {len(gzip.compress(page, 9)) / 1000:7.1f} KB gzip")


def _measure(address: str, slower: float) -> int:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=str(CHROMIUM), args=CHROMIUM_FLAGS)
        page = browser.new_page()
        page.add_init_script(_WATCH)
        if slower > 1:
            page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slower})
        page.goto(address)
        whole, longest = page.evaluate(_INDEX)
        print(f"index built in {whole:.0f} ms, the page held up for {longest:.0f} ms at most")
        missed = [_typed(page, address, query) for query in ("", f"?{FILTERED}")]
        browser.close()
    return int(any(missed))


def _typed(page: Page, address: str, state: str) -> bool:
    page.goto(address + state)
    box = page.get_by_role("searchbox")
    for query in QUERIES:
        box.focus()
        page.keyboard.type(query, delay=20)
        page.locator("[aria-busy]").wait_for(state="detached")
        for _ in query:
            page.keyboard.press("Backspace")
    presses, pictures = page.evaluate("[window.presses, window.pictures]")
    what = "with filters" if state else "no filters"
    print(f"{what}: {len(presses)} key presses, {_figures(presses)}; to the picture {_figures(pictures)}")
    return statistics.median(presses) > BUDGET_MS


def _figures(times: list[Any]) -> str:
    if not times:
        return "all under 16 ms"
    ordered = sorted(times)
    high = ordered[min(len(ordered) - 1, round(0.95 * len(ordered)))]
    median = statistics.median(ordered)
    return f"median {median:.1f} ms, 95th percentile {high:.1f} ms, longest {ordered[-1]:.1f} ms"
