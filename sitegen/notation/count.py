"""How many sets or rounds: ``3`` or a range, ``2-3``."""

import re
from dataclasses import dataclass

from sitegen.notation.errors import NotationError
from sitegen.notation.text import RANGE, print_range, range_of, tidy


@dataclass(frozen=True, slots=True)
class Count:
    """A whole number of 1 or more, or a range of two."""

    low: int
    high: int

    @classmethod
    def parse(cls, text: str) -> "Count":
        """Read a count. Raises NotationError where the text is none."""
        match = re.fullmatch(RANGE, tidy(text))
        if not match:
            raise NotationError(f"{text!r} is not a number", "write for example 3 or 2-3")
        low, high = range_of(match)
        if low < 1 or low > high:
            raise NotationError(f"{text!r} is not a count of 1 or more", "write for example 3 or 2-3")
        return cls(low, high)

    def __str__(self) -> str:
        return print_range(self.low, self.high)
