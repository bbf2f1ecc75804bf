"""What the next session of a series still has to give each muscle, and what it may give at most.

Room is counted in strength sets within the week of the next session (see ``volume`` for what counts and
``bounds`` for the trainer's limits). A muscle that a session trained hard less than the recovery time ago is
named with that session. Nothing is advised here: what a session makes of its room is the trainer's choice.

The limits of a week are those that ``check`` looks at, with the same ends of each range: a week has too few
sets only where even its high end is below the limit, and too many only where its low end is above.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from sitegen.model import Details, Episode, Series
from sitegen.notation import Count
from sitegen.study.bounds import limits_of
from sitegen.study.forms import Forms
from sitegen.study.overview import RECOVERY_HOURS, Overview, overview, prime_muscles
from sitegen.study.recovery import hard_muscles
from sitegen.study.schedule import ScheduleRequest, SessionToPlace
from sitegen.study.schedule.days import training_days
from sitegen.study.schedule.layout import lay_out
from sitegen.study.span import NOTHING, Span, add_to
from sitegen.study.suitability import STRENGTH, Suitability
from sitegen.study.timing import item_sets
from sitegen.study.training import Training, together
from sitegen.study.volume import Balance, muscle_shares
from sitegen.study.weeks import Week, monday_of, planned_days, usual_count


@dataclass(frozen=True, slots=True, kw_only=True)
class MuscleRoom:
    """One muscle in the week of the next session."""

    muscle: str
    done: Span
    """Strength sets that the week has already."""
    usual: float
    """Strength sets in a week of the series on average, at the middle of the ranges."""
    limits: Count | None
    """The trainer's limits for a week; None where none are set."""
    required: bool
    """Whether the series sets out to train it, so that the lower limit holds."""
    tired_from: tuple[int, ...]
    """Sessions that train it hard and that it has not recovered from on the day of the next one."""

    @property
    def lacks(self) -> float:
        """Sets up to the lower limit; 0 where it is reached or does not hold."""
        if self.limits is None or not self.required:
            return 0.0
        return max(0.0, self.limits.low - self.done.high)

    @property
    def may(self) -> float | None:
        """Sets up to the upper limit; None without one. Below 0 where the week is over it already."""
        return None if self.limits is None else self.limits.high - self.done.low


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptSets:
    """What somebody with a need has of a muscle's sets, in the versions that are given."""

    filmed: Span
    """Strength sets in the sessions as filmed."""
    sets: Span
    """Of those and of other muscles' sets, what her versions give this muscle."""
    filmed_loaded: bool
    """Whether some of the sets as filmed are done with a load."""
    loaded: bool
    """Whether some of hers are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekAhead:
    """A week of the calendar with sessions still to come, or kept free."""

    number: int
    days: tuple[date, ...]
    """Its training days from the next session on; none where it is kept free or all are holidays."""
    sessions: int
    """How many are still to come in it by its usual pace."""


WEEKS_AHEAD = 3
"""Weeks looked at, that of the next session among them: what one plans at a time (our choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekRoom:
    """The room of the next session."""

    number: int
    """Of the next session."""
    day: date | None
    """The first training day it may have; None where the series has no calendar with such a day."""
    week: int
    """Number of its week, as ``weeks`` counts them."""
    sessions: tuple[int, ...]
    """Numbers of those that the week has already."""
    left: int
    """Sessions still to come in the week by its usual pace, the next one among them; 1 at least."""
    after_week_off: bool
    """Whether a week without any session lies between the last session and this one."""
    training: Training
    """Of the week so far."""
    muscles: tuple[MuscleRoom, ...]
    """By name, all that the series trains or limits."""
    usual_balance: Balance
    """Sets of the pairs of patterns in a week of the series on average."""
    push_per_pull: float | None
    """The trainer's limit."""
    kept_in: tuple[int, ...]
    """Sessions that ``kept`` is about: those of the week so far, or of the week before where it has none."""
    kept: Mapping[str, Mapping[str, KeptSets]]
    """By need and muscle."""
    ahead: tuple[WeekAhead, ...] = ()
    """The week of the next session and those after it; none for a series without training days."""

    @property
    def push_room(self) -> float | None:
        """Push sets that may come beside no further pull set; None without a limit."""
        if self.push_per_pull is None:
            return None
        return self.push_per_pull * self.training.balance.pull.mid - self.training.balance.push.mid


def room(series: Series, seen: Overview | None = None) -> WeekRoom:
    """The room of the session after the last one; ``seen`` is the overview where it is known already."""
    seen = seen or overview(series)
    details, episodes = series.details, series.sessions
    number = max((episode.number for episode in episodes), default=0) + 1
    day = next_day(seen.request, number)
    before, week, left = _week(seen, day)
    training = together(seen.trainings[n] for n in before)
    last_week = seen.weeks[-1][0].sessions if seen.weeks else ()
    kept_in = tuple(dict.fromkeys(before or last_week))
    by_number = {episode.number: episode for episode in episodes}
    return WeekRoom(
        number=number,
        day=day,
        week=week,
        sessions=before,
        left=left,
        after_week_off=bool(seen.weeks) and week > seen.weeks[-1][0].number + 1,
        training=training,
        muscles=_muscles(series, seen, training, day),
        usual_balance=Balance.summed((one.balance for _, one in seen.weeks), 1 / max(1, len(seen.weeks))),
        push_per_pull=details.bounds.push_per_pull,
        kept_in=kept_in,
        kept=kept_by_need(details, seen.forms, [by_number[n] for n in kept_in]),
        ahead=tuple(_weeks_ahead(seen.request, day, week, left)),
    )


def _weeks_ahead(
    request: ScheduleRequest | None, day: date | None, week: int, left: int
) -> Iterator[WeekAhead]:
    if request is None or day is None:
        return
    days = training_days(request)
    open_days = [date.fromordinal(days.day(n)) for n in range(len(days.open))]
    for ahead in range(WEEKS_AHEAD):
        monday = monday_of(day) + timedelta(weeks=ahead)
        here = tuple(one for one in open_days if one >= day and monday_of(one) == monday)
        sessions = left if ahead == 0 else min(len(here), days.per_week)
        yield WeekAhead(number=week + ahead, days=here, sessions=sessions)


def next_day(request: ScheduleRequest | None, number: int) -> date | None:
    """The day the calendar would give a session after the last one that trains nothing hard; None without."""
    if request is None:
        return None
    sessions = (*request.sessions, SessionToPlace(number=number))
    days = list(planned_days(replace(request, sessions=sessions)))
    return next((day for session, _, day in days if session == number), None)


def _week(seen: Overview, day: date | None) -> tuple[tuple[int, ...], int, int]:
    """Sessions that the week of the next one has already, its number, and how many are still to come."""
    usual = usual_count(week for week, _ in seen.weeks) or 1
    if day is None:
        return _week_by_release(seen.weeks, usual)
    monday = monday_of(day)
    first = seen.weeks[0][0].monday if seen.weeks else monday
    here = next((week.sessions for week, _ in seen.weeks if week.monday == monday), ())
    return here, (monday - first).days // 7 + 1, max(1, _days_left(seen.request, day, len(here)))


def _week_by_release(weeks: Sequence[tuple[Week, Training]], usual: int) -> tuple[tuple[int, ...], int, int]:
    """Without a day the next session fills the last week to its usual number, or begins a new one."""
    if not weeks:
        return (), 1, 1
    last = weeks[-1][0]
    if len(last.sessions) < usual:
        return last.sessions, last.number, usual - len(last.sessions)
    return (), last.number + 1, usual


def _days_left(request: ScheduleRequest | None, day: date, taken: int) -> int:
    """Sessions that the week of ``day`` has days for from then on, at the pace wanted."""
    if request is None:
        return 1
    days = training_days(request)
    sunday = monday_of(day).toordinal() + 6
    open_days = sum(day.toordinal() <= days.day(n) <= sunday for n in range(len(days.open)))
    return min(open_days, days.per_week - taken)


def _muscles(series: Series, seen: Overview, training: Training, day: date | None) -> tuple[MuscleRoom, ...]:
    details, episodes = series.details, series.sessions
    required = prime_muscles(details, seen.forms, episodes) | set(details.bounds.muscles)
    trained = {muscle for _, week in seen.weeks for muscle in week.strength}
    tired = _tired(series, seen, day)
    count = max(1, len(seen.weeks))
    return tuple(
        MuscleRoom(
            muscle=muscle,
            done=training.strength.get(muscle, NOTHING),
            usual=sum(week.strength.get(muscle, NOTHING).mid for _, week in seen.weeks) / count,
            limits=limits_of(details.bounds, muscle),
            required=muscle in required,
            tired_from=tuple(number for number, muscles in tired if muscle in muscles),
        )
        for muscle in sorted(required | trained)
    )


def _tired(series: Series, seen: Overview, day: date | None) -> list[tuple[int, frozenset[str]]]:
    """Sessions less than the recovery time before ``day``, with the muscles they train hard."""
    if day is None or seen.request is None:
        return []
    hours = series.details.schedule.recovery_hours if series.details.schedule else RECOVERY_HOURS
    layout = lay_out(seen.request)
    near = [
        layout.name(occurrence)[0]
        for occurrence in range(len(layout.steps))
        if 0 <= (day - layout.date_of(occurrence)).days * 24 < hours
    ]
    by_number = {episode.number: episode for episode in series.sessions}
    return [(n, hard_muscles(series.details, seen.forms, by_number[n])) for n in dict.fromkeys(near)]


def kept_by_need(
    details: Details, forms: Forms, episodes: Iterable[Episode]
) -> dict[str, dict[str, KeptSets]]:
    """What each need keeps of the strength sets of each muscle over some sessions."""
    chosen = list(episodes)
    answers = Suitability(details, forms)
    filmed: dict[str, Span] = {}
    filmed_loaded: set[str] = set()
    for episode in chosen:
        for block in episode.blocks:
            if block.kind == STRENGTH:
                for item, sets in zip(block.items, item_sets(details, forms, block), strict=True):
                    form = answers.filmed(item).form
                    _count(filmed, filmed_loaded, muscle_shares(form), sets, loaded=item.load is not None)
    kept: dict[str, dict[str, KeptSets]] = {}
    for need in details.needs:
        hers, loaded = _hers(details, forms, chosen, answers, need)
        kept[need] = {
            muscle: KeptSets(
                filmed=sets,
                sets=hers.get(muscle, NOTHING),
                filmed_loaded=muscle in filmed_loaded,
                loaded=muscle in loaded,
            )
            for muscle, sets in sorted(filmed.items())
        }
    return kept


def _hers(
    details: Details, forms: Forms, episodes: Iterable[Episode], answers: Suitability, need: str
) -> tuple[dict[str, Span], set[str]]:
    hers: dict[str, Span] = {}
    loaded: set[str] = set()
    for episode in episodes:
        kit = answers.kit_at_hand(episode)
        for block in episode.blocks:
            if block.kind == STRENGTH:
                counts = item_sets(details, forms, block)
                for version, sets in zip(answers.block(block, [need], kit), counts, strict=True):
                    if version is not None:
                        shares = muscle_shares(version.form)
                        with_load = version.load is not None or version.own_load
                        _count(hers, loaded, shares, sets, loaded=with_load)
    return hers, loaded


def _count(
    sums: dict[str, Span], with_load: set[str], shares: Mapping[str, float], sets: Span, *, loaded: bool
) -> None:
    for muscle, share in shares.items():
        add_to(sums, muscle, sets * share)
        if loaded and sets.high > 0:
            with_load.add(muscle)
