"""Small helpers that every short form shares: tidy spacing, whole-number ranges."""

import re

PLAIN_SIGNS = str.maketrans({"–": "-", "—": "-", "−": "-", "‑": "-", "×": "x"})
"""For ``str.translate``: typographic dashes become ``-``, ``×`` becomes ``x``."""

RANGE = r"(?P<low>\d{1,5})(?:\s*-\s*(?P<high>\d{1,5}))?"
"""A whole number or a range of two, as named groups ``low`` and ``high``. What has six digits is no amount of
anything that is done at home, and would be printed as ``1e+06``."""


RESERVE = re.compile(rf"{RANGE}(?: reps?| repetitions?)? in reserve")  # "2 in reserve", "1-3 reps in reserve"
THEN = re.compile(r", ?then ")  # between the doses, or the loads, of sets


def tidy(text: str) -> str:
    """Fold white space, turn typographic dashes into ``-`` and ``×`` into ``x``, lower the case."""
    return re.sub(r"\s+", " ", text.translate(PLAIN_SIGNS)).strip().lower()


def range_of(match: re.Match[str]) -> tuple[int, int]:
    """``(low, high)`` of a match made with :data:`RANGE`; a single number is both."""
    low = int(match["low"])
    return low, int(match["high"]) if match["high"] else low


def print_range(low: float, high: float) -> str:
    """``8`` or ``8-12``; whole numbers lose their decimal point."""
    return f"{low:g}" if low == high else f"{low:g}-{high:g}"
