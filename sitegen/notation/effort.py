"""Effort: ``RPE 7``, ``RPE 6-7`` (0-10) or repetitions left over, ``2 in reserve``."""

import re
from dataclasses import dataclass

from sitegen.notation.errors import NotationError
from sitegen.notation.text import RANGE, RESERVE, print_range, range_of, tidy

_RPE = re.compile(rf"rpe {RANGE}")  # "RPE 6-7"; lower case, for the text is tidied
_EXAMPLE = "write RPE 7, RPE 6-7 (0 to 10), 2 in reserve or 1-3 in reserve"


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard a set should be, on one of two scales."""

    scale: str
    """``rpe`` (perceived exertion, 0-10) or ``reserve`` (repetitions left in reserve)."""
    low: int
    high: int

    @classmethod
    def parse(cls, text: str) -> "Effort":
        """Read an effort. Raises NotationError where the text is none."""
        written = tidy(text)
        for scale, pattern, most in (("rpe", _RPE, 10), ("reserve", RESERVE, 20)):
            if match := pattern.fullmatch(written):
                low, high = range_of(match)
                if low > high or high > most:
                    raise NotationError(f"{text!r} is outside 0 to {most}", _EXAMPLE)
                return cls(scale, low, high)
        raise NotationError(f"{text!r} is not an effort", _EXAMPLE)

    def __str__(self) -> str:
        amount = print_range(self.low, self.high)
        return f"RPE {amount}" if self.scale == "rpe" else f"{amount} in reserve"
