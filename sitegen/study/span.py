"""Ranges of computed amounts: seconds, sets, kilograms, kilocalories."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeVar, Union

Key = TypeVar("Key")


@dataclass(frozen=True, slots=True)
class Span:
    """A range from ``low`` to ``high``, equal where the amount is exact. The unit is the user's."""

    low: float
    high: float

    @classmethod
    def between(cls, one: float, other: float) -> "Span":
        """The span with these ends, whichever is the larger."""
        return cls(one, other) if one <= other else cls(other, one)

    @property
    def mid(self) -> float:
        """Half way between the ends."""
        return (self.low + self.high) / 2

    @property
    def minutes(self) -> tuple[int, int]:
        """Both ends of a span of seconds in whole minutes."""
        return round(self.low / 60), round(self.high / 60)

    @property
    def in_halves(self) -> str:
        """``12`` or ``9-12.5``: each end as the nearest half."""
        low, high = (round(end * 2) / 2 for end in (self.low, self.high))
        return f"{low:g}" if low == high else f"{low:g}-{high:g}"

    def __add__(self, other: "Span") -> "Span":
        return Span(self.low + other.low, self.high + other.high)

    def __mul__(self, factor: Union["Span", float]) -> "Span":
        """Times a number of 0 or more, or times a span of such numbers, end by end."""
        by = factor if isinstance(factor, Span) else Span(factor, factor)
        return Span(self.low * by.low, self.high * by.high)


NOTHING = Span(0, 0)
"""What a sum begins with."""
ROUNDING = 1e-9
"""What adding and dividing may put to a number or take from it: half as
much again is not more than 50 %, and 0.3 / 0.1 is three."""


def total(spans: Iterable[Span]) -> Span:
    """The sum of all; 0 to 0 where there is none."""
    low = high = 0.0
    for span in spans:
        low += span.low
        high += span.high
    return Span(low, high)


def add_to(sums: dict[Key, Span], key: Key, span: Span) -> None:
    """Add ``span`` to what ``sums`` holds for ``key``."""
    sums[key] = sums.get(key, NOTHING) + span
