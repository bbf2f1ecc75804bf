"""What a proposal is: a session with the reason of every choice, and every bound that it breaks."""

from collections.abc import Mapping
from dataclasses import dataclass

from sitegen.composing.conflicts import BrokenRule
from sitegen.composing.pool import ItemCandidate
from sitegen.model import Episode
from sitegen.study.span import Span
from sitegen.study.week_room import WeekRoom
from sitegen.vocabulary import COOL_DOWN, MOBILITY, WARM_UP


@dataclass(frozen=True, slots=True, kw_only=True)
class ChosenExercise:
    """One exercise of a proposal."""

    candidate: ItemCandidate
    reason: str
    """In one line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """One session."""

    episode: Episode
    """As a plan without title: shared blocks and composed ones, in order."""
    choices: tuple[tuple[ChosenExercise, ...], ...]
    """Of each composed block, in the order in which it is done."""
    composed: tuple[int, ...]
    """Which blocks of the episode those are."""
    prepared: Mapping[int, str]
    """Why the warm-up and the cool-down were chosen, by their place among the blocks."""
    level: str
    """``heavy``, ``medium`` or ``light``."""
    conflicts: tuple[BrokenRule, ...]
    score: int
    """Points by which proposals are ranked: of one shape the more the better."""
    proven: bool
    """Whether no other session of this shape can have more points, given the better proposals."""
    seconds: Span
    """Time it takes at home: every block and, at its usual length, the film."""
    film: int
    """Seconds of that are the film's."""


def lacking(episode: Episode) -> list[str]:
    """Warm-up and cool-down, where a session has no block that is one. Mobility ends a session as well."""
    kinds = {block.kind for block in episode.blocks}
    return [kind for kind, fits in _AROUND.items() if kinds.isdisjoint(fits)]


_AROUND = {WARM_UP: (WARM_UP,), COOL_DOWN: (COOL_DOWN, MOBILITY)}
"""What a session has around its work, and the kinds of blocks that are it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposals:
    """All of one asking."""

    room: WeekRoom
    sessions: tuple[Proposal, ...]
    """The best first."""
