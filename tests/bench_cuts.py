"""Publications over SFTP and to a bucket, cut off at many points: the suite's test with more of them."""

import argparse
import os

import pytest


def main(argv: list[str]) -> int:
    """Run it; exit status as pytest's."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench cuts")
    parser.add_argument(
        "--points", type=int, default=100, help="evenly spread over the bytes of a publication"
    )
    os.environ["CUTS"] = str(parser.parse_args(argv).points)
    return int(pytest.main(["tests/publishing/test_cut_connections.py"]))
