"""How hard a session is meant to be: heavy, medium and light ones take turns over the week.

Sessions that are all as hard as each other leave the body no easy day. Loads and efforts that rise and fall
within the week (undulating) are one of the plans in American College of Sports Medicine 2009, *Progression
Models in Resistance Training for Healthy Adults*, Medicine & Science in Sports & Exercise 41:687-708 (from
memory). How many repetitions a session of each level leaves over is common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from sitegen.model import Block, Item
from sitegen.notation import Dose, Effort
from sitegen.study.load import EQUAL, load_mass
from sitegen.vocabulary import AMRAP, EMOM, STRAIGHT, SUPERSET


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionLevel:
    """What a session of one level asks for."""

    name: str
    reserve: tuple[int, int]
    """Repetitions to leave over in sets of strength blocks."""
    rpe: tuple[int, int]
    """Effort of strength items that are not counted so: holds, carries, small muscles."""
    pace: tuple[int, int]
    """Effort of conditioning."""
    sets: int
    """Of blocks with a large lift."""
    small_sets: int
    """Of blocks without one."""
    share: float
    """How long it may take, as a place among the lengths of the series' sessions in order: 0 the shortest."""


# Sets and lengths are common practice, no source: a heavy day has a set more and takes longer, a light day
# less of both; no day goes to the last repetition.
HEAVY = SessionLevel(name="heavy", reserve=(2, 2), rpe=(7, 7), pace=(6, 7), sets=4, small_sets=3, share=0.9)
MEDIUM = SessionLevel(name="medium", reserve=(2, 3), rpe=(6, 7), pace=(6, 7), sets=3, small_sets=3, share=0.6)
LIGHT = SessionLevel(name="light", reserve=(3, 4), rpe=(6, 6), pace=(5, 6), sets=2, small_sets=2, share=0.4)
"""The three levels; see :class:`SessionLevel` for what each number is."""

_WEEKS = {1: (MEDIUM,), 2: (HEAVY, LIGHT), 3: (HEAVY, LIGHT, MEDIUM)}
"""By sessions a week. A light day follows the heavy one."""


MOST_IN_LONG_BLOCKS = 3
"""Sets of a block of three or more exercises: a fourth round of them takes as long as another block (our
choice)."""
MOST_OPEN_SETS = 2
"""Sets of as many repetitions as can be done."""


def level_at(place: int, per_week: int, *, after_week_off: bool) -> SessionLevel:
    """The level of the session with that place in its week, from 0.

    The first session after a week off is no heavy one.
    """
    week = _WEEKS.get(per_week) or (HEAVY, LIGHT, MEDIUM, LIGHT)
    level = week[place % len(week)]
    return MEDIUM if after_week_off and level is HEAVY else level


def asked_for(item: Item, level: SessionLevel, kind: str, before: Sequence[Item], *, careful: bool) -> Item:
    """The item with the effort of the level, on the scale that it has already.

    An effort is no wish: the dose has to reach it. Eight squats that were filmed with three repetitions left
    over do not leave two because the day is a heavy one. So the effort is no harder than the trainer filmed
    it with (``before``, in their order), but where the dose grew at the same load: there by as many
    repetitions as it grew, and by one at most. It may be easier, since a set can be ended sooner.
    Conditioning of the same length becomes harder by going faster, so there the hardest that was asked for
    is the bound. ``careful`` leaves one repetition more over: with a load that has just become heavier, and
    on one leg.
    """
    dose = item.dose
    if dose is not None and dose.reserve is not None:
        return replace(item, dose=_with_reserve(dose, level))
    if item.effort is None:
        return item
    same = [one for one in before if one.effort is not None and one.effort.scale == item.effort.scale]
    if item.effort.scale == "reserve":
        low = max(level.reserve[0] + careful, _left_over(item, item.effort, same))
        return replace(item, effort=Effort("reserve", low, max(low, level.reserve[1])))
    target = level.rpe if kind == "strength" else level.pace
    reached = [one.effort.high for one in same if one.effort and (kind != "strength" or _asks(item, one))]
    high = min(target[1], max(reached, default=item.effort.high))
    return replace(item, effort=Effort("rpe", min(target[0], high), high))


def _left_over(item: Item, last: Effort, before: Sequence[Item]) -> int:
    """How many repetitions the dose leaves over at least, by what it was filmed with."""
    like = [
        (one.dose.high, one.effort.low)
        for one in before
        if one.effort and one.dose and item.dose and one.load == item.load and _measured_alike(one, item)
    ]
    if not like or item.dose is None or item.dose.measure != "reps":
        return last.low
    if exact := [low for count, low in like if count == item.dose.high]:
        return min(exact)
    count, low = like[-1]
    return max(low - max(0, item.dose.high - count), min(low for _, low in like) - 1)


def _asks(item: Item, one: Item) -> bool:
    """Whether an item asks for as much as one that was filmed: no shorter, and with no less load."""
    if item.dose is None or one.dose is None:
        return item.dose is one.dose
    lighter = one.load is not None and (
        item.load is None or load_mass(item.load).mid < load_mass(one.load).mid * (1 - EQUAL)
    )
    return _measured_alike(one, item) and item.dose.high >= one.dose.high and not lighter


def _measured_alike(one: Item, other: Item) -> bool:
    assert one.dose is not None
    assert other.dose is not None
    return (one.dose.measure, one.dose.per_side) == (other.dose.measure, other.dose.per_side)


def _with_reserve(dose: Dose, level: SessionLevel) -> Dose:
    """As many as can be done, less at least what it left over before."""
    assert dose.reserve is not None
    low = max(dose.reserve[0], level.reserve[0])
    return replace(dose, reserve=(low, max(low, level.reserve[1])))


def has_sets(format_: str) -> bool:
    """Whether a block of that format has sets or rounds of its own: a clock sets no number."""
    return format_ not in (AMRAP, EMOM)


def most_sets(format_: str, level: SessionLevel) -> int:
    """Sets of a block with large lifts: four are for blocks short enough to rest in."""
    return level.sets if format_ in (STRAIGHT, SUPERSET) else min(MOST_IN_LONG_BLOCKS, level.sets)


def may_repeat(dose: Dose | None, block: Block) -> bool:
    """Whether a dose may come as often as the block asks: as many as possible is for one or two sets, since
    a third stands on what the others have used up (common practice, no source). A clock sets no number."""
    if dose is None or dose.kind != "max":
        return True
    return has_sets(block.format) and block.sets.high <= MOST_OPEN_SETS
