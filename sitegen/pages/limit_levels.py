"""Limits of a series' needs as small numbers, for scripts that only compare and look up.

Of each limit the values that the needs set are numbered from the strictest, 0. The strictest of several
needs is then the smallest number. Limits that act on the same thing form a kind; the name of a level is
the numbers of a kind's limits joined by ``/``, empty where a limit is not set: ``0/`` or ``1/0``.
"""

import itertools
from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import Any

from sitegen.model import Limits, Need

KINDS: Mapping[str, tuple[str, ...]] = {
    "effort": ("effort", "max_sets"),
    "load": ("load", "load_share"),
    "speed": ("speed",),
    "hold": ("hold",),
}
"""Limits of one item by what they act on: kinds do not act on each other (as in ``scripts/needs.js``)."""


class LimitLevels:
    """The levels of one series."""

    def __init__(self, needs: Mapping[str, Need]) -> None:
        self._values = {
            name: sorted({value for need in needs.values() if _is_set(value := getattr(need.limits, name))})
            for names in KINDS.values()
            for name in names
        }

    def of(self, need: Need) -> dict[str, int]:
        """The number of each limit that a need sets, by name."""
        return {
            name: values.index(getattr(need.limits, name))
            for name, values in self._values.items()
            if _is_set(getattr(need.limits, name))
        }

    @cached_property
    def all(self) -> tuple[tuple[str, str, Limits], ...]:
        """Every level: kind, name, and the limits of that kind alone."""
        return tuple(self._levels())

    def _levels(self) -> Iterator[tuple[str, str, Limits]]:
        for kind, names in KINDS.items():
            choices = [[None, *range(len(self._values[name]))] for name in names]
            for numbers in itertools.product(*choices):
                fields: dict[str, Any] = {
                    name: self._values[name][number]
                    for name, number in zip(names, numbers, strict=True)
                    if number is not None
                }
                if fields:
                    level = "/".join("" if number is None else str(number) for number in numbers)
                    yield kind, level, Limits(**fields)


def _is_set(value: float | bool | None) -> bool:
    return value is not None and value is not True
