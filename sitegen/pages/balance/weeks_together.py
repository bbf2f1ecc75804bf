"""The weeks shown together on one page, with what each asks for.

A page shows half a year: the newest part is ``balance/index.html``, earlier ones have pages of
their own whose addresses stay.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from sitegen.model import Episode
from sitegen.pages.balance.facts import TRAINING
from sitegen.pages.schedule.series_plan import series_request
from sitegen.pages.site import Site
from sitegen.study.training import Training, together
from sitegen.study.weeks import Week, session_weeks

WEEKS_ON_A_PAGE = 26
"""Half a year: a page stays short enough to be scrolled through (our choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeeksTogether:
    """Some weeks in a row with their episodes."""

    address: str
    weeks: tuple[Week, ...]
    episodes: tuple[Episode, ...]
    """Each once, by number."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TrainedWeek:
    """A week and what its sessions ask for in all."""

    week: Week | None
    """None for a series without days: all sessions then stand together."""
    training: Training


def parts_of(site: Site) -> tuple[WeeksTogether, ...]:
    """The parts, earliest first; one without weeks where no session has a day."""
    weeks = _weeks(site)
    if not weeks:
        return (WeeksTogether(address=_address((), newest=True), weeks=(), episodes=site.series.episodes),)
    groups = [tuple(group) for _, group in groupby(weeks, lambda week: (week.number - 1) // WEEKS_ON_A_PAGE)]
    return tuple(
        WeeksTogether(
            address=_address(group, newest=group is groups[-1]), weeks=group, episodes=_episodes(site, group)
        )
        for group in groups
    )


def _weeks(site: Site) -> tuple[Week, ...]:
    """Weeks with the sessions that are out; the plan knows the others too."""
    out = {episode.number for episode in site.series.episodes}
    weeks = session_weeks(site.series.episodes, series_request(site))
    shown = ((week, tuple(n for n in week.sessions if n in out)) for week in weeks)
    return tuple(
        Week(number=week.number, monday=week.monday, sessions=sessions)
        for week, sessions in shown
        if sessions
    )


def _address(weeks: Sequence[Week], *, newest: bool) -> str:
    if newest:
        return "balance/index.html"
    first = (weeks[0].number - 1) // WEEKS_ON_A_PAGE * WEEKS_ON_A_PAGE + 1
    return f"balance/weeks-{first}-{first + WEEKS_ON_A_PAGE - 1}/index.html"


def _episodes(site: Site, weeks: Sequence[Week]) -> tuple[Episode, ...]:
    shown = {number for week in weeks for number in week.sessions}
    return tuple(episode for episode in site.series.episodes if episode.number in shown)


def trained_weeks(site: Site, part: WeeksTogether) -> tuple[TrainedWeek, ...]:
    """What each week asks for; a session held twice counts twice."""
    trainings: dict[int, Training] = {e.number: site.facts.of(e, TRAINING) for e in part.episodes}
    if not part.weeks:
        return (TrainedWeek(week=None, training=together(trainings.values())),)
    return tuple(
        TrainedWeek(week=week, training=together(trainings[number] for number in week.sessions))
        for week in part.weeks
    )
