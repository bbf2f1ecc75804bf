"""The earliest plan for a given order, by placing each occurrence on the first day that will do.

Why no solver is needed. Number the occurrences 1 … n in their order and let d(i) be the day of occurrence
i. Every rule is a lower bound on a day that does not fall when an earlier day rises:

- order, one occurrence a day:  d(i) >= d(i-1) + 1
- recovery:                  d(i) >= d(j) + recovery for every j < i that shares a muscle with i
- most occurrences in a week:   d(i) >= Monday after d(i - per_week)
- calendar:                  d(i) lies in a fixed set of open days

Let g be the plan that takes, for i = 1 … n, the first open day at or above all bounds of i, and d
any plan that keeps the rules. Then g(i) <= d(i) for every i, by induction: g(j) <= d(j) for all
j < i makes each bound of i under g at most its bound under d, so d(i) is an open day at or above
all bounds under g, and g(i) is the first such day. Hence:

- if g runs past the horizon or past a wanted last day at occurrence i, so does every plan;
- g has the earliest last day, and the earliest day of every single occurrence;
- up to every day g has held the most occurrences, so the training days it has left unused in the
  weeks until then are the fewest: if g loses one before its last occurrence, every plan does.

The work grows with the number of occurrences plus the number of days.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sitegen.study.schedule.days import TrainingDays


@dataclass(frozen=True, slots=True)
class PlacementState:
    """All that the next occurrence's day depends on. ``index`` counts open days."""

    index: int = -1
    """Open day of the last occurrence; -1 before the first."""
    in_week: int = 0
    """Occurrences in that day's week so far."""
    skipped: int = 0
    """Open days of that week left free for recovery so far."""
    recent: tuple[tuple[int, int], ...] = ()
    """Day and session of occurrences that may still be too near, the latest first."""


@dataclass(frozen=True, slots=True)
class PlacementStep:
    """One occurrence placed, as the search goes on from it."""

    state: PlacementState
    """Afterwards; ``state.index`` is the day it got."""
    first: int
    """Open day on which it would be if nothing had to recover."""
    lost: int
    """Training days that recovery costs the pace here."""
    first_lost: int
    """The first of them, as an open day; -1 for none."""


def place_in_order(
    days: TrainingDays,
    hard: Sequence[frozenset[str]],
    order: Iterable[int],
    state: PlacementState = PlacementState(),
) -> list[PlacementStep]:
    """Place sessions (indices into ``hard``) in order, each on the earliest day.

    Stops at the first that has no day before the horizon: the answer is shorter then.
    """
    steps: list[PlacementStep] = []
    for session in order:
        step = place_next(days, hard, session, state)
        if step is None:
            break
        steps.append(step)
        state = step.state
    return steps


def place_next(
    days: TrainingDays, hard: Sequence[frozenset[str]], session: int, state: PlacementState
) -> PlacementStep | None:
    """Place one more session on the earliest day, or None where no day is left."""
    first = first_free(days, state)
    earlier = recovering_from(hard, session, state)
    rested = earlier[0] + days.recovery_days if earlier else 0
    index = first
    while index < len(days.open) and days.day(index) < rested:
        index += 1
    if index == len(days.open):
        return None
    skipped, lost, first_lost = _skip(days, state, first, index)
    same_week = state.index >= 0 and days.week[index] == days.week[state.index]
    after = PlacementState(
        index=index,
        in_week=state.in_week + 1 if same_week else 1,
        skipped=skipped,
        recent=_still_near(days, hard, session, index, state.recent),
    )
    return PlacementStep(after, first, lost, first_lost)


def first_free(days: TrainingDays, state: PlacementState) -> int:
    """The first open day after the last occurrence that its week's count allows."""
    full = state.index >= 0 and state.in_week >= days.per_week
    return days.next_week[state.index] if full else state.index + 1


def recovering_from(
    hard: Sequence[frozenset[str]], session: int, state: PlacementState
) -> tuple[int, int] | None:
    """Day and session of the latest near occurrence that shares a muscle: its bound is the highest."""
    muscles = hard[session]
    return next((near for near in state.recent if not muscles.isdisjoint(hard[near[1]])), None)


def _skip(days: TrainingDays, state: PlacementState, first: int, index: int) -> tuple[int, int, int]:
    """Open days skipped so far in the week of ``index``; days lost on the way, and the first.

    A skipped day is lost when its week has no spare one left.
    """
    week = days.week[state.index] if state.index >= 0 else -1
    skipped, lost, first_lost = state.skipped, 0, -1
    for passed in range(first, index):
        skipped = skipped + 1 if days.week[passed] == week else 1
        week = days.week[passed]
        if skipped > days.spare[passed]:
            lost += 1
            first_lost = passed if first_lost < 0 else first_lost
    return (skipped if days.week[index] == week else 0), lost, first_lost


def _still_near(
    days: TrainingDays,
    hard: Sequence[frozenset[str]],
    session: int,
    index: int,
    recent: tuple[tuple[int, int], ...],
) -> tuple[tuple[int, int], ...]:
    """The occurrences that may keep another off the days after ``index``."""
    tomorrow = days.day(index) + 1
    kept = tuple(near for near in recent if near[0] + days.recovery_days > tomorrow)
    counts = hard[session] and days.recovery_days > 1
    return ((days.day(index), session), *kept) if counts else kept
