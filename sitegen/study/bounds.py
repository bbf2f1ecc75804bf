"""The trainer's limits for a week, and what lies outside them."""

from collections.abc import Iterable
from dataclasses import dataclass

from sitegen.model import Bounds
from sitegen.notation import Count
from sitegen.study.span import NOTHING, Span
from sitegen.study.training import Training
from sitegen.study.weeks import Week, usual_count


@dataclass(frozen=True, slots=True, kw_only=True)
class MuscleOutsideLimits:
    """A muscle whose strength sets in a week are outside its limits."""

    muscle: str
    week: Week
    sets: Span
    limits: Count


def limits_of(bounds: Bounds, muscle: str) -> Count | None:
    """Limits for the strength sets of a muscle in a week; None where none are set."""
    return bounds.muscles.get(muscle, bounds.sets_per_week)


def outside(
    bounds: Bounds, weeks: Iterable[tuple[Week, Training]], muscles: Iterable[str]
) -> tuple[list[MuscleOutsideLimits], list[MuscleOutsideLimits]]:
    """What is under and what is over its limits, by muscle and week.

    ``muscles`` are those that have to reach the lower limit. Whether a week is long enough for a lower
    limit to mean anything is told by its sessions: one with fewer than usual is not held to it.
    A range is outside only where it is so from end to end.
    """
    all_weeks = list(weeks)
    usual = usual_count(week for week, _ in all_weeks)
    full = [(week, training) for week, training in all_weeks if len(week.sessions) >= usual]
    required = sorted({*muscles, *bounds.muscles})
    held_to = (one for muscle in required for one in _compared(bounds, muscle, full))
    under = [one for one in held_to if one.sets.high < one.limits.low]
    trained = sorted({muscle for _, training in all_weeks for muscle in training.strength})
    compared = (one for muscle in trained for one in _compared(bounds, muscle, all_weeks))
    return under, [one for one in compared if one.sets.low > one.limits.high]


def _compared(
    bounds: Bounds, muscle: str, weeks: Iterable[tuple[Week, Training]]
) -> Iterable[MuscleOutsideLimits]:
    limits = limits_of(bounds, muscle)
    if limits is None:
        return
    for week, training in weeks:
        sets = training.strength.get(muscle, NOTHING)
        yield MuscleOutsideLimits(muscle=muscle, week=week, sets=sets, limits=limits)
