"""What the scheduler is given and what it answers: plain records without behaviour.

A *occurrence* is one holding of a session: a session that is repeated three times has the occurrences
(4, 1), (4, 2) and (4, 3). A *training day* is a day on one of the wanted weekdays. Weeks run from
Monday to Sunday (ISO 8601); week 1 is the one that holds the start date.
"""

from dataclasses import dataclass
from datetime import date

from sitegen.model import DateRange

THREE_YEARS = 1096
"""Days from the start within which everything has to be placed, unless another horizon is given."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionToPlace:
    """A session to place, and the muscles it trains hard."""

    number: int
    muscles: tuple[str, ...] = ()
    """Without duplicates; explanations name shared muscles in this order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ScheduleRequest:
    """Everything a plan depends on. Raises ValueError for counts that mean nothing."""

    sessions: tuple[SessionToPlace, ...]
    """In the order in which they are to be held."""
    start: date
    """First day that may be used."""
    days: tuple[str, ...]
    """Weekdays that may be used, as in ``vocabulary.WEEKDAYS``; the order does not matter."""
    repeats: int = 1
    """Occurrences of each session, one after the other: 1, 1, 2, 2 and so on."""
    per_week: int | None = None
    """Occurrences wanted in each week, and the most there may be; None for one on every training day."""
    keep_pace: bool = True
    """Whether a week that falls short of ``per_week`` because of recovery is a conflict."""
    recovery_hours: int = 48
    """Between two occurrences that share a muscle. All are taken to be at one time of day, so the
    distance of two occurrences is whole days of 24 h."""
    deload_every: int | None = None
    """Weeks n, 2n, 3n … from the start week are kept free; None for no such weeks."""
    holidays: tuple[DateRange, ...] = ()
    """Days without training, ends included."""
    finish_by: date | None = None
    """Last day wanted for the last occurrence."""
    horizon_days: int = THREE_YEARS
    """Nothing is placed later than so many days after the start."""

    def __post_init__(self) -> None:
        counts = (self.repeats, self.per_week, self.deload_every)
        if any(count is not None and count < 1 for count in counts):
            raise ValueError("repeats, per_week and deload_every are 1 or more")
        if self.recovery_hours < 0 or self.horizon_days < 0:
            raise ValueError("recovery_hours and horizon_days are 0 or more")


@dataclass(frozen=True, slots=True, kw_only=True)
class Recovering:
    """An earlier occurrence that keeps a later one off a day."""

    first: int
    """Number of the earlier session."""
    first_repeat: int
    first_date: date
    muscles: tuple[str, ...]
    """Those both train hard."""
    gap_hours: int
    """What the day in question would leave between the two."""
    needed_hours: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """Training days in a row that were left free before an occurrence, and why."""

    kind: str
    """``holiday``, ``deload``, ``week-full`` or ``recovery``; a holiday in a deload week is a holiday."""
    first: date
    last: date
    days: int
    """Training days among them."""
    recovery: Recovering | None = None
    """For ``recovery``: the occurrence to recover from, seen from the first of the days."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """An occurrence and its day."""

    session: int
    repeat: int
    """From 1."""
    date: date
    waits: tuple[Wait, ...] = ()
    """Why it is not on the first training day after the one before it (or after the start)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RecoveryConflict:
    """An occurrence that costs its week a training day, because two sessions share a muscle."""

    kind: str = "recovery"
    first: int
    first_repeat: int
    first_date: date
    second: int
    second_repeat: int
    wanted: date
    """The training day lost to recovery (the first, where it is several)."""
    planned: date
    """Where the second session is instead."""
    lost_days: int
    muscles: tuple[str, ...]
    gap_hours: int
    needed_hours: int
    allow_days: tuple[str, ...]
    """Weekdays each of which, if it may be used too while ``per_week`` stays, ends this conflict."""
    swaps: tuple[tuple[int, int], ...]
    """Pairs of sessions whose exchange ends this conflict and costs no other day nearby."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NoDaysConflict:
    """There is no day at all to train on."""

    kind: str = "no-days"
    closed_by: tuple[str, ...]
    """``holiday``, ``deload``: what takes the training days; empty where there are none to take."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HorizonConflict:
    """Not everything fits before the horizon."""

    kind: str = "horizon"
    session: int
    repeat: int
    """The first occurrence without a day."""
    placed: int
    total: int
    last_day: date
    recovery: Recovering | None
    """Set where days were left, but all too soon after that occurrence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishByConflict:
    """Not everything fits before the wanted last day; each of the ways out is enough alone."""

    kind: str = "finish-by"
    wanted: date
    earliest: date | None
    """The earliest possible last day; None where not even the horizon is enough."""
    session: int
    repeat: int
    """The first occurrence that is late."""
    fitting: int
    """Occurrences that are in time."""
    total: int
    without: tuple[str, ...]
    """Rules each of which alone stands in the way: ``recovery``, ``deload``, ``holiday``."""
    train_days: tuple[str, ...]
    """Weekdays each of which, with one more occurrence a week, is enough."""
    repeats: int | None
    """The most repeats that fit, where fewer fit."""
    start: date | None
    """The latest earlier start that is enough, where one was found."""


Conflict = RecoveryConflict | NoDaysConflict | HorizonConflict | FinishByConflict


@dataclass(frozen=True, slots=True, kw_only=True)
class Schedule:
    """The earliest plan that keeps order and recovery, and where the wishes had to give way."""

    placements: tuple[Placement, ...]
    conflicts: tuple[Conflict, ...]
    per_week: int
    """The pace that was planned with: ``per_week``, at most the number of training days."""
    complete: bool
    """Whether every occurrence has a day."""
    kept: bool
    """Whether every wish was kept: nothing in ``conflicts``."""
    finish: date | None
    """Day of the last occurrence; None where not every occurrence has one."""
