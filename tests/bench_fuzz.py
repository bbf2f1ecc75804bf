"""Random input for everything that reads what others wrote (``tests.fuzzing``)."""

import argparse
import tempfile
import time
from collections import Counter
from pathlib import Path

from tests.demo_copy import copy_demo
from tests.fuzzing import HOLES, Readers, pieces, read_grown, try_one

SHARES = {
    "content": 40,
    "captions": 20,
    "draft": 5,
    "plan": 3,
    "record": 10,
    "lease": 7,
    "manifest": 7,
    "log": 8,
}
"""In hundred inputs."""


def main(argv: list[str]) -> int:
    """Read them and print; exit status 1 where one broke a reader off or took too long."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench fuzz")
    parser.add_argument("--count", type=int, default=10_000, help="inputs (default: 10000)")
    parser.add_argument("--seed", type=int, default=0, help="of the first")
    parser.add_argument("--kind", choices=sorted(SHARES), help="of this kind only")
    parser.add_argument("--keep", type=Path, help="write what broke off into this folder")
    parser.add_argument("--grown", type=int, metavar="BYTES", help="instead, every piece repeated so far")
    arguments = parser.parse_args(argv)
    if arguments.grown:
        return _growth(arguments.grown)
    kinds = [kind for kind, share in SHARES.items() for _ in range(share)]
    read: Counter[str] = Counter()
    findings, longest, began = 0, (0.0, ""), time.process_time()
    with tempfile.TemporaryDirectory(prefix="sitegen-fuzz-") as folder:
        readers = Readers(Path(folder), copy_demo(Path(folder) / "demo", episodes=3))
        for number in range(arguments.seed, arguments.seed + arguments.count):
            kind = arguments.kind or kinds[number * 37 % len(kinds)]
            started = time.process_time()
            found = try_one(readers, kind, number)
            longest = max(longest, (time.process_time() - started, f"{kind} {number}"))
            read[kind] += 1
            if found:
                findings += 1
                print(f"{kind} {number}: {found.what}", flush=True)
                if arguments.keep:
                    arguments.keep.mkdir(parents=True, exist_ok=True)
                    (arguments.keep / f"{kind}-{number}").write_bytes(found.data)
            if read.total() % 200 == 0:
                print(f"{read.total()} read, {findings} findings", flush=True)
    seconds = time.process_time() - began
    print(f"{read.total()} inputs ({', '.join(f'{n} {kind}' for kind, n in sorted(read.items()))})")
    print(
        f"{findings} findings; longest {longest[0]:.2f} s ({longest[1]}); {seconds:.0f} s of processor time"
    )
    return 1 if findings else 0


def _growth(size: int) -> int:
    """Every piece in every place, repeated: none may take long."""
    slow = 0
    with tempfile.TemporaryDirectory(prefix="sitegen-fuzz-") as folder:
        readers = Readers(Path(folder), copy_demo(Path(folder) / "demo", episodes=3))
        for hole in HOLES:
            began, longest = time.process_time(), (0.0, "")
            for piece in pieces():
                started = time.process_time()
                found = read_grown(readers, hole, piece, size)
                longest = max(longest, (time.process_time() - started, piece))
                if found:
                    slow += 1
                    print(found.what, flush=True)
            seconds = time.process_time() - began
            print(f"{hole:20} {seconds:6.1f} s; longest {longest[0]:.2f} s ({longest[1]!r})", flush=True)
    return 1 if slow else 0
