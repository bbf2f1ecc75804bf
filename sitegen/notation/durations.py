"""Lengths of time and ranges of them: ``15 s``, ``60-90 s``, ``2 min``, ``1:30``, ``none``."""

import re
from dataclasses import dataclass

from sitegen.notation.clock import parse_clock
from sitegen.notation.errors import NotationError
from sitegen.notation.text import RANGE, print_range, range_of, tidy

_SECONDS_IN = {"s": 1, "sec": 1, "second": 1, "seconds": 1, "min": 60, "minute": 60, "minutes": 60}
_PLAIN = re.compile(rf"{RANGE}\s*(?P<unit>s|sec|seconds?|min|minutes?)")  # "60-90 s", "2 min"
_MIXED = re.compile(r"(?P<min>\d+) ?min(?:utes?)? (?P<s>\d+) ?s(?:ec|econds?)?")  # "1 min 30 s"
_EXAMPLE = "write for example 15 s, 60-90 s, 2 min, 1:30 or none"


@dataclass(frozen=True, slots=True, order=True)
class Duration:
    """A length of time in whole seconds, as a range; ``low == high`` where it is exact."""

    low: int
    """Shortest, in seconds (0 or more)."""
    high: int
    """Longest, in seconds (``low`` or more)."""

    @classmethod
    def parse(cls, text: str) -> "Duration":
        """Read a duration. Raises NotationError where the text is none."""
        written = tidy(text)
        if written in ("none", "no rest", "0"):
            return cls(0, 0)
        if match := _PLAIN.fullmatch(written):
            factor = _SECONDS_IN[match["unit"]]
            low, high = (value * factor for value in range_of(match))
        elif match := _MIXED.fullmatch(written):
            low = high = int(match["min"]) * 60 + int(match["s"])
        elif ":" in written:
            low, high = _clock_range(written)
        else:
            raise NotationError(f"{text!r} is not a length of time", _EXAMPLE)
        if low > high:
            raise NotationError(f"{text!r} runs backwards", "write the shorter time first")
        return cls(low, high)

    @property
    def in_minutes(self) -> bool:
        """Whether it reads better in minutes: whole ones, two or more (trainers say 90 s, and 60 s for one
        minute: common practice, no source)."""
        return self.low >= 120 and self.low % 60 == 0 and self.high % 60 == 0

    def __str__(self) -> str:
        if self.high == 0:
            return "none"
        if self.in_minutes:
            return f"{print_range(self.low // 60, self.high // 60)} min"
        return f"{print_range(self.low, self.high)} s"


def _clock_range(written: str) -> tuple[int, int]:
    try:
        ends = [parse_clock(end) for end in written.split("-")]
    except NotationError:
        raise NotationError(f"{written!r} is not a length of time", _EXAMPLE) from None
    if len(ends) > 2:
        raise NotationError(f"{written!r} is not a length of time", _EXAMPLE)
    return ends[0], ends[-1]
