"""Publishing a large series: how much an edited cue sends, and how long the steps take.

Publishes to a folder of the same disk, so the times are those of this program, not of a network.
"""

import argparse
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from sitegen.building.build import Builder
from sitegen.destinations import FolderTarget
from sitegen.publishing.file_source import BuiltSite
from sitegen.publishing.lease import Lease, this_holder
from sitegen.publishing.publication_record import RECORDS
from sitegen.publishing.publisher import Publisher, SentReport
from sitegen.publishing.site_files import site_files
from sitegen.publishing.targets import store_for
from tests.generate import generate
from tests.publishing.test_one_cue import edit_a_cue


def main(argv: list[str]) -> int:
    """Measure and print; exit status 1 where more is sent than changed."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench publish")
    parser.add_argument("--episodes", type=int, default=1000)
    arguments = parser.parse_args(argv)
    with tempfile.TemporaryDirectory(prefix="sitegen-bench-") as folder:
        return _measure(Path(folder), arguments.episodes)


def _measure(folder: Path, episodes: int) -> int:
    content, out = generate(folder, episodes), folder / "build"
    builder = Builder(content, out)
    first = builder.build()
    _told("first publication", lambda: _publish(folder, out))
    _told("nothing changed", lambda: _publish(folder, out))
    edit_a_cue(content)
    changed = builder.build().written.made
    sent = _told("one cue edited", lambda: _publish(folder, out))
    record = max((folder / "web" / RECORDS).iterdir())
    print(f"{len(first.written.made):,} files; the edit changed {len(changed)}, {sent.files} were sent")
    print(f"bytes sent: {sent.bytes:,}; the record of a publication: {record.stat().st_size:,}")
    return 0 if sent.files <= len(changed) else 1


def _publish(folder: Path, out: Path) -> SentReport:
    store = store_for(FolderTarget(path="web"), base=folder, caches=folder, taken=())
    store.open()
    now = datetime.now(UTC)
    publisher = Publisher(store, lambda: now)
    comparison = publisher.compare(site_files(out, folder / "digests"))
    if comparison.difference.nothing:
        return SentReport(number=0, files=0, bytes=0, removed=0)
    with Lease(store, this_holder(folder, now)) as lease:
        return publisher.send(comparison, BuiltSite(out), lease, "measured")


def _told(name: str, work: Callable[[], Any]) -> Any:
    started = time.perf_counter()
    result = work()
    print(f"  {name:20} {time.perf_counter() - started:7.2f} s", flush=True)
    return result


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
