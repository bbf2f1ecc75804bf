"""Which muscles a session trains hard, and sessions that leave them too little time.

- A set is hard where its effort reaches RPE 7 or leaves at most 3 repetitions in reserve (on the
  scale of Zourdos et al. 2016 the two are the same; value from memory). Where no effort is
  written, sets of strength blocks are hard and those of conditioning blocks are not.
- A muscle is trained hard where at least 2 hard sets have it as a prime mover (our definition).
- The usual advice between two such sessions is 48 h (American College of Sports Medicine, seen in
  restatements only); the series may set its own.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from sitegen.model import Details, Episode
from sitegen.notation import Dose, Effort
from sitegen.study.forms import Forms
from sitegen.study.span import Span, add_to
from sitegen.study.volume import CountedItem, counted_items

HARD_RPE = 7
HARD_RESERVE = 3
HARD_SETS = 2
"""What trains a muscle hard: so many sets at an effort of 7 of 10 or with three repetitions left, which are
one and the same on the scale of Zourdos et al. 2016 (from memory). Two sets are common practice, no
source."""


@dataclass(frozen=True, slots=True)
class TimedSession:
    """An episode done at a certain time, with the muscles it trains hard."""

    slug: str
    start: datetime
    hard: frozenset[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortRecovery:
    """Two sessions too near to each other for what they both train hard."""

    earlier: str
    """Slug of the episode."""
    later: str
    muscles: tuple[str, ...]
    """In the alphabet's order."""
    hours: float
    """From the start of the earlier session to that of the later."""
    needed: float
    """Hours."""


def hard_muscles(details: Details, forms: Forms, episode: Episode) -> frozenset[str]:
    """The muscles an episode trains hard, at the high end of its sets."""
    return frozenset(hard_sets(details, forms, episode))


def hard_sets(details: Details, forms: Forms, episode: Episode) -> Mapping[str, Span]:
    """The hard sets of each muscle that an episode trains hard."""
    sums: dict[str, Span] = {}
    for one in counted_items(details, forms, episode):
        if is_hard(one):
            for muscle in one.form.muscles.prime:
                add_to(sums, muscle, one.sets)
    return {muscle: sets for muscle, sets in sums.items() if sets.high >= HARD_SETS}


def is_hard(one: CountedItem) -> bool:
    """Whether the sets of an item are hard; the harder end of a range decides."""
    effort = one.item.effort or _effort_of(one.item.dose)
    if effort is None:
        return one.block.kind == "strength"
    return effort.high >= HARD_RPE if effort.scale == "rpe" else effort.low <= HARD_RESERVE


def _effort_of(dose: Dose | None) -> Effort | None:
    """The effort a dose itself asks for; ``max`` without a reserve leaves none."""
    if dose is None:
        return None
    if dose.sets:  # the hardest set decides
        asked = [effort for effort in map(_effort_of, dose.sets) if effort is not None]
        return min(asked, key=lambda effort: effort.low, default=None)
    if dose.reserve:
        return Effort("reserve", *dose.reserve)
    return Effort("reserve", 0, 0) if dose.kind == "max" else None


def short_recoveries(sessions: Iterable[TimedSession], needed_hours: float) -> list[ShortRecovery]:
    """Pairs of sessions, by time, that train a muscle hard within less than ``needed_hours``.

    Starts must be all with or all without a time zone; with one, clock changes are allowed for.
    """
    ordered = sorted(sessions, key=lambda session: session.start)
    found: list[ShortRecovery] = []
    for index, earlier in enumerate(ordered):
        for later in ordered[index + 1 :]:
            if (hours := _hours(earlier.start, later.start)) >= needed_hours:
                break
            if both := tuple(sorted(earlier.hard & later.hard)):
                slugs = {"earlier": earlier.slug, "later": later.slug}
                found.append(ShortRecovery(**slugs, muscles=both, hours=hours, needed=needed_hours))
    return found


def _hours(start: datetime, end: datetime) -> float:
    # Two times in one zone are subtracted as clocks show them, so through UTC offsets instead.
    offsets = (start.utcoffset() or timedelta()) - (end.utcoffset() or timedelta())
    elapsed = end.replace(tzinfo=None) - start.replace(tzinfo=None) + offsets
    return elapsed / timedelta(hours=1)
