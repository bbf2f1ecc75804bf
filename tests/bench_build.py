"""Builds against the budgets: cold, unchanged, one edit, growth, memory, preview, help.

The floor is what no site compiler written in Python can do without: one process that loads the
same YAML files with the C loader (captions with webvtt-py), renders the same templates with the
same data made ready beforehand, and writes the same bytes.
"""

import argparse
import functools
import gc
import json
import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tests.generate import generate

REPEATS = 3


def main(argv: list[str]) -> int:
    """Measure and print; exit status 1 where a budget is missed."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench build")
    parser.add_argument("--sizes", default="100,1000", help="numbers of episodes; add 10000 for growth")
    parser.add_argument("--floor", type=Path, nargs=2, help=argparse.SUPPRESS)
    arguments = parser.parse_args(argv)
    if arguments.floor:
        return _floor_process(*arguments.floor)
    figures: dict[int, dict[str, float]] = {}
    for size in map(int, arguments.sizes.split(",")):
        with tempfile.TemporaryDirectory(prefix="sitegen-bench-") as folder:
            figures[size] = _measure(Path(folder), size)
            _print_size(size, figures[size])
    return _judge(figures)


def _measure(folder: Path, size: int) -> dict[str, float]:
    content = generate(folder, size)
    few = size >= 10_000
    colds, floors = [], []
    # Each into a place of its own: a disk that has just removed ten thousand files is slow for a while.
    for number in range(1 if few else REPEATS):
        out = folder / str(number) / "build"
        out.parent.mkdir()
        # A program that is installed is compiled, whatever the environment here says.
        environment = os.environ | {
            "PYTHONDONTWRITEBYTECODE": "",
            "XDG_CACHE_HOME": str(folder / str(number) / "cache"),
        }
        colds.append(_build(content, out, environment))
        if not few:
            floors.append(_floor(content, folder / str(number)))
    figures = {"cold": min(c[0] for c in colds), "memory_mb": max(c[1] for c in colds)}
    if floors:
        figures["floor"] = min(floors)
    figures["files"] = sum(1 for _ in out.rglob("*"))
    figures["unchanged"] = min(_build(content, out, environment)[0] for _ in range(REPEATS))
    _edit(content, size)
    _build(content, out, environment)  # the first edit makes the spare tree; the rest are the rule
    figures["edit"] = statistics.median(_timed_edit(content, out, environment, size) for _ in range(REPEATS))
    return figures


def _build(content: Path, out: Path, environment: dict[str, str]) -> tuple[float, float]:
    """Seconds and peak memory (MB, all processes of the build together at most) of one build."""
    words = [sys.executable, "-m", "sitegen", "build", "--content", str(content), "--out", str(out)]
    if "--pages-only" in _build_help():
        words.append("--pages-only")
    started = time.perf_counter()
    subprocess.run(words, check=True, env=environment, stdout=subprocess.DEVNULL)
    seconds = time.perf_counter() - started
    return seconds, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024


def _build_help() -> str:
    global _HELP
    if not _HELP:
        words = [sys.executable, "-m", "sitegen", "build", "--help"]
        _HELP = subprocess.run(words, capture_output=True, text=True, check=True).stdout
    return _HELP


_HELP = ""


def _edit(content: Path, size: int) -> None:
    """Change one dose of an episode in the middle, as a trainer would."""
    path = sorted((content / "episodes").iterdir())[size // 2]
    text = path.read_text()
    path.write_text(text.replace("effort: 2 in reserve", "effort: 3 in reserve", 1) + f"# {time.time()}\n")


def _timed_edit(content: Path, out: Path, environment: dict[str, str], size: int) -> float:
    path = sorted((content / "episodes").iterdir())[size // 2]
    text = path.read_text()
    summary = next(line for line in text.splitlines() if line.startswith("summary:"))
    path.write_text(text.replace(summary, f"{summary} Again {int(time.time())}."))
    return _build(content, out, environment)[0]


# --- the floor ---------------------------------------------------------------------------------


def _floor(content: Path, folder: Path) -> float:
    words = [sys.executable, "-m", "tests.bench", "build", "--floor", str(content), str(folder / "floor")]
    result = subprocess.run(words, check=True, capture_output=True, text=True)
    return float(json.loads(result.stdout)["seconds"])


def _floor_process(content: Path, out: Path) -> int:
    """Record what a build renders, then time the bare work on it."""
    gc.disable()
    pages, environment = _recorded(content)
    gc.collect()
    rendered: list[tuple[str, bytes]] = []
    parts = {
        "yaml": _timed(lambda: _load(content)),
        "render": _timed(lambda: _render(pages, environment, rendered)),
        "write": _timed(lambda: _write(out, rendered)),
    }
    print(json.dumps(parts | {"seconds": sum(parts.values())}))
    return 0


def _recorded(content: Path) -> tuple[list[tuple[str, Any, Any]], Any]:
    """Every page as (address, template, data), or (address, None, bytes) where no template is used."""
    from sitegen.building.build import Builder
    from sitegen.pages.page import CopyOf
    from sitegen.pages.site import Site

    calls: list[tuple[str, dict[str, Any]]] = []
    environments: list[Any] = []
    plain = Site.render

    @functools.wraps(plain)  # with its name, by which recipes of pages tell functions apart
    def render(site: Site, template: str, address: str, **data: Any) -> bytes:
        environments.append(site.theme.environment)
        calls.append((template, site.context(address, **data)))
        return plain(site, template, address, **data)

    Site.render = render  # type: ignore[method-assign]
    builder = Builder(content, content.parent / "floor-never-written", jobs=1)
    pages: list[tuple[str, Any, Any]] = []
    for page in builder.plan(builder.read()):
        calls.clear()
        data = page.make.path.read_bytes() if isinstance(page.make, CopyOf) else page.make()
        pages.append((page.address, *calls[0]) if len(calls) == 1 else (page.address, None, data))
    Site.render = plain  # type: ignore[method-assign]
    return pages, environments[0]


def _timed(work: Callable[[], object]) -> float:
    started = time.perf_counter()
    work()
    return time.perf_counter() - started


def _load(content: Path) -> None:
    import webvtt
    import yaml

    for path in content.rglob("*.yaml"):
        yaml.load(path.read_bytes(), Loader=yaml.CSafeLoader)
    for path in content.rglob("*.vtt"):
        webvtt.read(str(path))
    for path in content.rglob("*.srt"):
        webvtt.from_srt(str(path))


def _render(pages: list[tuple[str, Any, Any]], environment: Any, rendered: list[tuple[str, bytes]]) -> None:
    for address, template, data in pages:
        if template is None:
            rendered.append((address, data))
        else:
            rendered.append((address, environment.get_template(template).render(data).encode()))


def _write(out: Path, rendered: list[tuple[str, bytes]]) -> None:
    for address, data in rendered:
        path = out / address
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)


# --- the verdict -------------------------------------------------------------------------------


def _print_size(size: int, figures: dict[str, float]) -> None:
    print(f"{size:,} episodes, {figures['files']:,.0f} files and folders:")
    for name in ("cold", "floor", "unchanged", "edit"):
        if name in figures:
            print(f"  {name:10} {figures[name]:8.2f} s")
    print(f"  {'memory':10} {figures['memory_mb']:8.0f} MB", flush=True)


def _judge(figures: dict[int, dict[str, float]]) -> int:
    verdicts = []
    if 1000 in figures:
        f = figures[1000]
        verdicts.append(("cold against the floor", f["cold"] / f["floor"], 1.0))
        verdicts.append(("unchanged against cold", f["unchanged"] / f["cold"], 1 / 20))
        verdicts.append(("one edit against cold", f["edit"] / f["cold"], 1 / 15))
    if 1000 in figures and 10_000 in figures:
        verdicts.append(("1,000 to 10,000 episodes", figures[10_000]["cold"] / figures[1000]["cold"], 11))
        verdicts.append(("peak memory at 10,000 (GB)", figures[10_000]["memory_mb"] / 1024, 1.5))
    verdicts.append(("sitegen --help against python -c pass", _help_ratio(), 8))
    for name, value, budget in verdicts:
        print(f"{name:40} {value:7.3f}  budget {budget:7.3f}  {'kept' if value <= budget else 'MISSED'}")
    return 0 if all(value <= budget for _, value, budget in verdicts) else 1


def _help_ratio() -> float:
    def best(words: list[str]) -> float:
        run = lambda: subprocess.run(words, check=True, stdout=subprocess.DEVNULL)  # noqa: E731
        return min(_timed(run) for _ in range(15))

    return best([sys.executable, "-m", "sitegen", "--help"]) / best([sys.executable, "-c", "pass"])


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
