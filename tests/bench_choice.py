"""The choice of forms in the browser for many random series, and a sheet for every need."""

import argparse
import os

import pytest

from tests.study.test_suitability_search import SERIES


def main(argv: list[str]) -> int:
    """Run it; exit status as pytest's."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench choice")
    parser.add_argument("--series", type=int, default=SERIES, help=f"at most {SERIES}, as many as the study")
    os.environ["CHOICES"] = str(parser.parse_args(argv).series)
    os.environ["NEED_STEP"] = "1"
    files = ["tests/browser/test_needs_choice.py", "tests/browser/test_sheet_needs.py"]
    return int(pytest.main(["-m", "not engines", *files]))  # what is marked as thorough too
