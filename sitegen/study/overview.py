"""A whole series at a glance: its weeks and what they ask for, its calendar and its conflicts."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, time

from sitegen.model import Details, Episode, Series
from sitegen.study.calendar_entries import CalendarEntry, brief_of, entries
from sitegen.study.forms import Forms, forms_of
from sitegen.study.recovery import ShortRecovery, TimedSession, hard_muscles, short_recoveries
from sitegen.study.schedule import ScheduleRequest, SessionToPlace, request_from_series
from sitegen.study.timing import session_time
from sitegen.study.training import Training, together, training_of
from sitegen.study.volume import STRENGTH, counted_items
from sitegen.study.weeks import Week, planned_days, session_weeks

RECOVERY_HOURS = 48
"""Where the series has no calendar that says otherwise (see ``recovery``)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Overview:
    """What is known of a series as a whole."""

    forms: Forms
    trainings: Mapping[int, Training]
    """By number of the episode."""
    weeks: tuple[tuple[Week, Training], ...]
    """By the calendar where there is one, else by release; a session held twice counts twice."""
    request: ScheduleRequest | None
    """What the series asks of the calendar; None where it has none."""
    release_conflicts: tuple[ShortRecovery, ...]
    """Sessions that come out too soon after one another, where there is no calendar to space them."""


def overview(series: Series) -> Overview:
    """Everything at once; each episode is opened."""
    details, episodes = series.details, series.sessions
    forms = forms_of(series.exercises)
    hard = {e.number: hard_muscles(details, forms, e) for e in episodes}
    request = calendar_request(details, hard)
    trainings = {e.number: training_of(details, forms, e, session_time(details, forms, e)) for e in episodes}
    weeks = session_weeks(episodes, request)
    return Overview(
        forms=forms,
        trainings=trainings,
        weeks=tuple((week, together(trainings[number] for number in week.sessions)) for week in weeks),
        request=request,
        release_conflicts=() if request else _release_conflicts(episodes, hard),
    )


def calendar_request(details: Details, hard: Mapping[int, frozenset[str]]) -> ScheduleRequest | None:
    """What the series asks of the calendar, from the muscles that each session trains hard."""
    if details.schedule is None:
        return None
    sessions = [
        SessionToPlace(number=number, muscles=tuple(sorted(muscles))) for number, muscles in hard.items()
    ]
    return request_from_series(details.schedule, sessions)


def series_entries(series: Series) -> tuple[CalendarEntry, ...]:
    """The calendar entries of the series; none where it has no calendar."""
    details, episodes = series.details, series.sessions
    forms = forms_of(series.exercises)
    request = calendar_request(details, {e.number: hard_muscles(details, forms, e) for e in episodes})
    if request is None:
        return ()
    briefs = {e.number: brief_of(details, forms, e, session_time(details, forms, e)) for e in episodes}
    return tuple(entries(details, briefs, planned_days(request)))


def _release_conflicts(
    episodes: Sequence[Episode], hard: Mapping[int, frozenset[str]]
) -> tuple[ShortRecovery, ...]:
    sessions = [
        TimedSession(e.slug, datetime.combine(e.released, time()), hard[e.number])
        for e in episodes
        if e.released is not None
    ]
    return tuple(short_recoveries(sessions, RECOVERY_HOURS))


def prime_muscles(details: Details, forms: Forms, episodes: Sequence[Episode]) -> set[str]:
    """Muscles that some strength block trains as prime movers: those a series sets out to train."""
    return {
        muscle
        for episode in episodes
        for one in counted_items(details, forms, episode, STRENGTH)
        for muscle in one.form.muscles.prime
    }
