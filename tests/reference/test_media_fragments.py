"""Times in addresses against the W3C's test cases for user agents.

W3C Recommendation *Media Fragments URI 1.0* (basic), 25 September 2012, and its test suite:
what is no valid time is ignored, the start must come before the end, the last valid one counts.
"""

from pathlib import Path
from typing import Any

from playwright.sync_api import Page

from tests.conftest import ROOT

VECTORS: dict[str, Any] = {
    "t=3,7": {"start": 3, "end": 7},
    "t=3": {"start": 3, "end": None},
    "t=,7": {"start": 0, "end": 7},
    "t=,": None,
    "t=3,": None,
    "t=3,3": None,
    "t=7,3": None,
    "t=npt:3,7": {"start": 3, "end": 7},
    "t=npt:3": {"start": 3, "end": None},
    "t=npt:,7": {"start": 0, "end": 7},
    "t=0:00:10": {"start": 10, "end": None},
    "t=00:10,00:20": {"start": 10, "end": 20},
    "t=1:02:05": {"start": 3725, "end": None},
    "t=10.5": {"start": 10.5, "end": None},
    "t=0": {"start": 0, "end": None},
    "": None,
    "t": None,
    "t=": None,
    "t=abc": None,
    "t=-1": None,
    "t=3,7,9": None,
    "t=3&t=,5": {"start": 0, "end": 5},
    "t=3&t=nonsense": {"start": 3, "end": None},
    "xywh=1,2,3,4&t=3": {"start": 3, "end": None},
    "t=%6ept:3": {"start": 3, "end": None},
    "t=%zz": None,
    "T=3": None,
    # beyond the standard: people write minutes with one digit
    "t=2:05": {"start": 125, "end": None},
    "t=0:61": None,
    "t=1:60:00": None,
}


def test_times_are_read_as_in_the_test_suite(page: Page) -> None:
    page.add_script_tag(path=Path(ROOT / "themes/tidewater/scripts/media-time.js"))
    hashes = [f"#{fragment}" for fragment in VECTORS]
    read = page.evaluate("hashes => hashes.map(hash => MediaTime.fragment(hash))", hashes)

    assert dict(zip(VECTORS, read, strict=True)) == VECTORS
