"""What a session is chosen from and by: the task that the search is given, and what it finds.

Amounts are whole quarters of a set, so that sums are exact.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

QUARTERS = 4
"""Of a set: assisting muscles count a half, and ranges are taken at their middle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One exercise with its dose, as it would stand in one block."""

    key: str
    """The exercise: a session has it once."""
    points: int
    feeds: Mapping[str, int] = field(default_factory=dict)
    """Quarters of sets for each muscle and pattern that may want some."""
    load: Mapping[str, int] = field(default_factory=dict)
    """Quarters of strength sets of each muscle, at the low end: what upper limits look at."""
    push: int = 0
    pull: int = 0
    hard: Mapping[str, int] = field(default_factory=dict)
    """Quarters of hard sets of each prime muscle, at the high end."""
    seconds: float = 0.0
    kit: frozenset[str] = frozenset()
    prime: frozenset[str] = frozenset()
    assist: frozenset[str] = frozenset()
    pattern: str = ""
    grip: bool = False
    floor: bool = False
    strains: frozenset[str] = frozenset()
    """Demands of which two side by side are too much of one thing, such as weight on the wrists."""
    new: bool = False
    turn: int | None = None
    """The later in a session its turn comes, the more; None where the order is free."""
    sort: frozenset[str] = frozenset()
    """In conditioning, what the other of a pair should not be too: of the legs, on the floor, fast."""
    lift: str = ""
    """Which of the large lifts it is; empty for none."""
    astray: frozenset[str] = frozenset()
    """Needs for which none of its forms trains what it trains."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockToFill:
    """A block with places to fill."""

    options: tuple[Option, ...]
    count: int
    """Places, those of ``kept`` among them."""
    kept: tuple[Option, ...] = ()
    """What stands there already and stays."""
    kept_at: tuple[int, ...] = ()
    """Where in the block each of these stands, from 0; left out: at its beginning."""
    rotating: bool = True
    """Whether its items are done in turn, round after round."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TrainingWant:
    """Quarters of sets that a muscle or pattern wants, and the points of each."""

    urgent: int
    urgent_points: int
    usual: int
    usual_points: int

    def worth(self, amount: int) -> int:
        """Points of so many quarters; ever less for each further one."""
        first = min(amount, self.urgent)
        return first * self.urgent_points + min(amount - first, self.usual) * self.usual_points


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """What no session may break. None, or a name in ``without``, for what is not asked."""

    most: Mapping[str, int] = field(default_factory=dict)
    """Quarters of sets that a muscle may still have."""
    tired: frozenset[str] = frozenset()
    """Muscles that may not be trained hard."""
    hard_from: int = 2 * QUARTERS
    """Quarters of hard sets from which a muscle counts as trained hard."""
    push_per_pull: float | None = None
    push: int = 0
    pull: int = 0
    """Quarters that the week has already."""
    seconds: float | None = None
    """Most seconds of all options together."""
    new: int | None = None
    """Most exercises that the series has not shown before."""
    without: frozenset[str] = frozenset()
    """Rules that are let go, of :data:`RULES`."""


RULES = ("sets", "recovery", "push and pull", "length", "new exercises", "grip", "floor")


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """Everything a session is chosen from and by."""

    places: tuple[BlockToFill, ...]
    wants: Mapping[str, TrainingWant]
    rules: Rules
    paired: frozenset[frozenset[str]] = frozenset()
    """Pairs of exercises that stood in one block of a session not long ago."""
    begun: tuple[frozenset[str], ...] = ()
    """Of the last sessions, the large lifts of the first block of strength."""


Blocks: TypeAlias = tuple[tuple[Option, ...], ...]
"""A whole session: the options of each block in the order in which they are done."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundSession:
    """A session that keeps the rules."""

    blocks: Blocks
    score: int
    proven: bool
    """Whether no other session can have more points."""


def summed(amounts: Iterable[Mapping[str, int]]) -> dict[str, int]:
    """Amounts added up by name."""
    sums: dict[str, int] = {}
    for one in amounts:
        for name, amount in one.items():
            sums[name] = sums.get(name, 0) + amount
    return sums
