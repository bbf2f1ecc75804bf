"""Parts of the English sentences that a trainer reads in a terminal: lists and days."""

from collections.abc import Iterable
from datetime import date


def listed(words: Iterable[str], last: str = "and") -> str:
    """``a, b and c``."""
    *first, end = [*words] or [""]
    return f"{', '.join(first)} {last} {end}" if first else end


def day(when: date) -> str:
    """``Mon 14 Sep 2026``."""
    return f"{when:%a} {when.day} {when:%b %Y}"


def weekday(when: date) -> str:
    """``Monday``."""
    return f"{when:%A}"
