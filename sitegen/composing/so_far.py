"""Where a series stands before its next session: what all parts of composing look at and none changes."""

from dataclasses import dataclass

from sitegen.composing.level import SessionLevel, level_at
from sitegen.composing.showing_history import ShowingHistory, history_of
from sitegen.model import Details, Series
from sitegen.study.forms import Forms
from sitegen.study.overview import Overview, overview
from sitegen.study.week_room import WeekRoom, room
from sitegen.study.weeks import usual_count


@dataclass(frozen=True, slots=True, kw_only=True)
class SoFar:
    """A series up to its last session, and what follows from that for the next one."""

    series: Series
    seen: Overview
    per_week: int
    """Sessions of a usual week."""
    room: WeekRoom
    """What the week of the next session still has room for."""
    history: ShowingHistory
    level: SessionLevel
    """How hard the next session is meant to be."""

    @property
    def details(self) -> Details:
        """The series' own details."""
        return self.series.details

    @property
    def forms(self) -> Forms:
        """Every form of every exercise."""
        return self.seen.forms


def so_far(series: Series) -> SoFar:
    """Where a series stands after its last session."""
    seen = overview(series)
    per_week = usual_count(week for week, _ in seen.weeks) or 1
    left = room(series, seen)
    return SoFar(
        series=series,
        seen=seen,
        per_week=per_week,
        room=left,
        history=history_of(series, seen.forms, seen),
        level=level_at(len(left.sessions), per_week, after_week_off=left.after_week_off),
    )
