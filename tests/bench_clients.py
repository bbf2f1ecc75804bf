"""A trainer's day with many clients, and many hostile logs: ``python -m tests.bench clients``.

The day: every client's page and calendar made (without the PDF file, whose printing ``sheets`` measures), and
four weeks of every client's log read and shown on one page. Processor seconds of this process.
"""

import argparse
import contextlib
import io
import tempfile
import time
from collections import Counter
from pathlib import Path

from sitegen.cli import main as sitegen
from sitegen.clients.log_reading import read_log
from sitegen.clients.untrusted_json import NotAccepted
from sitegen.reading.reader import read_series
from tests.clients.logs import INVENTED, broken, code_of, log_of, write_log
from tests.clients.people import PEOPLE, series_with_people

CODE = "0123456789abcdef"


def main(argv: list[str]) -> int:
    """Run it; 1 where a hostile file was read or failed otherwise."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench clients")
    parser.add_argument("--clients", type=int, default=30)
    parser.add_argument("--logs", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args(argv)
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        content = series_with_people(root)
        wrong = _hostile(content, root, options.logs, options.seed)
        _day(content, root, options.clients)
    return 1 if wrong else 0


def _hostile(content: Path, root: Path, count: int, seed: int) -> int:
    series, path = read_series(content), root / "log.json"
    wrong, reasons = 0, Counter[str]()
    began = time.process_time()
    for name, data in broken(CODE, count, seed):
        path.write_bytes(data)
        try:
            read_log(path, series)
        except NotAccepted as why:
            reasons[name.split()[0]] += 1
            if str(why).isprintable():
                continue
        wrong += 1
        print(f"not refused: {name}: {data[:200]!r}")
    print(f"{sum(reasons.values())} of {count} hostile logs refused in {time.process_time() - began:.2f} s")
    print("  " + ", ".join(f"{reason} {number}" for reason, number in sorted(reasons.items())))
    return wrong


def _day(content: Path, root: Path, count: int) -> None:
    clients, logs = root / "clients", root / "logs"
    logs.mkdir()
    kinds = list(PEOPLE)
    names = [f"{kinds[number % len(kinds)]}-{number}" for number in range(count)]
    for kind in kinds:
        (clients / f"{kind}.yaml").unlink()
    for number, name in enumerate(names):
        (clients / f"{name}.yaml").write_text(PEOPLE[kinds[number % len(kinds)]], encoding="utf-8")
    options = ["--content", str(content), "--today", "2027-01-05"]
    seconds = _timed(["client", *names, *options, "--no-pdf"])
    print(f"{count} clients: pages and calendars in {seconds:.1f} s, {seconds / count:.2f} s each")
    for number, name in enumerate(names):
        sittings = INVENTED[kinds[number % len(kinds)]]()
        write_log(logs / f"{name}.json", log_of(code_of(root, name), "2027-01-05T10:00:00.000Z", sittings))
    seconds = _timed(["client", *options, "--log", str(logs)])
    size = (clients / "came-back.html").stat().st_size
    print(f"{count} logs read and shown on one page ({size / 1000:.0f} kB) in {seconds:.1f} s")


def _timed(words: list[str]) -> float:
    began = time.process_time()
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        status = sitegen(words)
    if status != 0:
        raise SystemExit(f"sitegen {' '.join(words)} ended with {status}")
    return time.process_time() - began
