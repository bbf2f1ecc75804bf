"""Everything a report tells, worked out once."""

from dataclasses import dataclass

from sitegen.model import Episode, Series
from sitegen.study.overview import Overview, overview
from sitegen.study.recovery import hard_muscles
from sitegen.study.schedule import OrderProposal, Schedule, better_order, place
from sitegen.study.timing import SessionTime, session_time
from sitegen.study.week_room import WeekRoom, room


@dataclass(frozen=True, slots=True, kw_only=True)
class EpisodeNumbers:
    """What a report tells of one episode."""

    episode: Episode
    time: SessionTime
    hard: tuple[str, ...]
    """Muscles it trains hard."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """What a report tells of the whole series."""

    series: Series
    episodes: tuple[EpisodeNumbers, ...]
    seen: Overview
    plan: Schedule | None
    """The calendar with its conflicts; None where the series has none."""
    order: OrderProposal | None
    """A better order of the episodes, where one would lose fewer training days."""
    room: WeekRoom
    """What the next session has room for."""


def gather(series: Series) -> Report:
    """The report of a series, episodes that are not out yet among them."""
    seen = overview(series)
    return Report(
        series=series,
        episodes=tuple(_episode(series, seen, episode) for episode in series.sessions),
        seen=seen,
        plan=place(seen.request) if seen.request else None,
        order=better_order(seen.request) if seen.request else None,
        room=room(series, seen),
    )


def _episode(series: Series, seen: Overview, episode: Episode) -> EpisodeNumbers:
    return EpisodeNumbers(
        episode=episode,
        time=session_time(series.details, seen.forms, episode),
        hard=tuple(sorted(hard_muscles(series.details, seen.forms, episode))),
    )
