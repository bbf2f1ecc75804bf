"""What is asked for at random of a series, and the judge of what is proposed: ``check`` itself."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from random import Random

from sitegen.checks.material import Material
from sitegen.checks.recovery import check_calendar
from sitegen.checks.volume import check_rise
from sitegen.composing.proposal import Proposal
from sitegen.composing.session_shape import parse_blocks, with_shared_blocks
from sitegen.composing.wishes import SessionWishes
from sitegen.model import Exercise, Series
from sitegen.notation import Count
from sitegen.study.bounds import outside
from sitegen.study.overview import overview, prime_muscles

RULES = {"volume-rise": "rise", "load-rise": "rise", "recovery": "recovery"}
"""The rule of a conflict that says what a warning of ``check`` says."""

SHAPES = (
    "strength superset, 3 sets",
    "conditioning circuit 2, 3 rounds; strength tri-set, 2-3 sets",
    "conditioning intervals 3, 2 rounds; strength superset, 3 sets; strength straight sets 1, 2 sets",
    "strength giant set 4, 2 sets; strength superset, 2 sets",
    "conditioning every minute on the minute 2; strength superset, 4 sets",
)


def some_series(series: Series, draw: Random) -> Series:
    """The first sessions of a series, with other days and bounds, and some of its exercises only."""
    sessions = series.sessions[: draw.randint(1, len(series.sessions))]
    used = {name for episode in sessions for name in episode.exercises}
    kept = {
        name: one for name, one in series.exercises.items() if name in used or draw.random() < draw.random()
    }
    kept = _with_links(series, kept)
    low = draw.randint(0, 4)
    bounds = replace(
        series.details.bounds,
        sets_per_week=Count(low, low + draw.randint(4, 16)),
        muscles={} if draw.random() < 0.5 else series.details.bounds.muscles,
        push_per_pull=draw.choice([None, 1.0, 1.5]),
        rise=draw.choice([None, 0.2, 0.5]),
        load_rise=draw.choice([None, 0.15]),
    )
    week = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday")
    days = tuple(sorted(draw.sample(week, draw.randint(2, 4)), key=week.index))
    schedule = series.details.schedule
    assert schedule is not None
    schedule = replace(schedule, days=days, deload_every=draw.choice([None, 2, 5]))
    details = replace(series.details, bounds=bounds, schedule=schedule)
    return replace(series, details=details, episodes=sessions, upcoming=(), exercises=kept)


def _with_links(series: Series, kept: Mapping[str, Exercise]) -> dict[str, Exercise]:
    """The exercises, and all that their variants are."""
    names: set[str] = set()
    more = set(kept)
    while more:
        names |= more
        more = {link for name in more for link in series.exercises[name].links} - names
    return {name: one for name, one in series.exercises.items() if name in names}


def some_wishes(series: Series, draw: Random) -> SessionWishes:
    """Mostly little, sometimes much."""
    return SessionWishes(
        minutes=draw.choice([None, 30, 45]),
        kit=draw.choice([None, None, frozenset(draw.sample(sorted(series.details.kit), 4))]),
        more=frozenset(draw.choice([[], ["lats"], ["calves", "hinge"]])),
        new=draw.choice([0, 1, 3]),
    )


def some_shape(series: Series, draw: Random):
    """None for that of the week before."""
    text = draw.choice([None, *SHAPES])
    return with_shared_blocks(series, text) if text and parse_blocks(text) else None


def with_session(series: Series, proposal: Proposal) -> Series:
    """The series with a proposal as its last session, not yet out."""
    return replace(series, upcoming=(*series.upcoming, proposal.episode))


def unsaid(series: Series, proposal: Proposal) -> list[str]:
    """What ``check`` finds of the session, and the proposal does not name as a conflict."""
    said = {one.rule for one in proposal.conflicts}
    composed = with_session(series, proposal)
    before = [what for _, what in _of_the_week(series, composed.sessions[-1].number)]
    found = (*_of_the_week(composed, composed.sessions[-1].number), *_of_the_session(composed))
    return [what for rule, what in found if rule not in said and what not in before]


def _of_the_week(series: Series, number: int) -> Iterator[tuple[str, str]]:
    """The limits that the week of a session is outside of; of the last week where it is not there yet."""
    seen = overview(series)
    there = any(number in week.sessions for week, _ in seen.weeks)
    number = number if there else seen.weeks[-1][0].sessions[-1]
    bounds = series.details.bounds
    under, over = outside(bounds, seen.weeks, prime_muscles(series.details, seen.forms, series.sessions))
    for rule, some in (("lower limit", under), ("sets", over)):
        for one in some:
            if number in one.week.sessions:
                yield rule, f"{one.muscle}: {one.sets}, limits {one.limits}"
    for week, training in seen.weeks:
        most, both = bounds.push_per_pull, training.balance
        if number in week.sessions and most is not None and both.push.mid > most * both.pull.mid + 1e-9:
            yield "push and pull", f"{both.push} to {both.pull}"


def _of_the_session(series: Series) -> Iterator[tuple[str, str]]:
    """Warnings of ``check`` at the last session."""
    material = Material(series=series, cues={})
    for check in (check_rise, check_calendar):
        for problem in check(material):
            if problem.location.file == series.sessions[-1].location.file and problem.check in RULES:
                yield RULES[problem.check], problem.message
