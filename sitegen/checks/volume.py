"""Warnings about sets a week, push against pull, and jumps in volume, by the bounds of the series.

Weekly sets and push against pull are counted in strength blocks; jumps in both strength and
conditioning blocks (see ``sitegen.study.training``).
"""

from collections.abc import Iterable, Iterator, Sequence

from sitegen.checks.material import Material
from sitegen.model import Episode, Series
from sitegen.problems import Problem, Spot, found
from sitegen.study.bounds import Outside, outside
from sitegen.study.forms import forms_of
from sitegen.study.overview import Overview, overview, prime_muscles
from sitegen.study.progression import Point, progression
from sitegen.study.schedule.reasons import listed
from sitegen.study.span import Span
from sitegen.study.volume import COUNTED_KINDS

SLACK = 1e-9
"""Half as much again is not more than 50 %, whatever the arithmetic leaves over."""


def check_week(material: Material) -> Iterator[Problem]:
    """Muscles under or over their weekly limits, and weeks in which push is far above pull."""
    series = material.series
    bounds = series.details.bounds
    if bounds.sets_per_week is None and not bounds.muscles and bounds.push_per_pull is None:
        return
    seen = overview(series)
    muscles = prime_muscles(series.details, seen.forms, series.sessions)
    under, over = outside(bounds, seen.weeks, muscles)
    yield from _outside(series, under, "volume-low", "fewer", "add a set, choose another exercise")
    yield from _outside(series, over, "volume-high", "more", "take sets out, spread them over other weeks")
    yield from _push(series, seen)


def _outside(
    series: Series, found_: Iterable[Outside], check: str, word: str, advice: str
) -> Iterator[Problem]:
    by_muscle: dict[str, list[Outside]] = {}
    for one in found_:
        by_muscle.setdefault(one.muscle, []).append(one)
    for muscle, weeks in by_muscle.items():
        sets = listed(f"{span(one.sets)} in week {one.week.number}" for one in weeks)
        limits = weeks[0].limits
        message = f"{muscle} has {word} strength sets than the {limits} the series sets for a week: {sets}"
        own = muscle in series.details.bounds.muscles
        steps = ("muscles", muscle) if own else ("sets_per_week",)
        spot = series.details.spot.at("bounds", *steps)
        yield found("warning", check, spot, message, f"{advice}, or change the bounds of {muscle}")


def _push(series: Series, seen: Overview) -> Iterator[Problem]:
    most = series.details.bounds.push_per_pull
    if most is None:
        return
    balances = [(week, training.balance) for week, training in seen.weeks]
    above = [(week, b) for week, b in balances if b.push.mid > most * b.pull.mid + SLACK]
    if above:
        weeks = listed(f"{span(b.push)} to {span(b.pull)} in week {week.number}" for week, b in above)
        message = f"push to pull: {weeks}, above the {most:g} to 1 the series sets"
        spot = series.details.spot.at("bounds", "push_per_pull")
        yield found("warning", "push-pull", spot, message, "add rows or pulldowns, or take presses out")


def check_rise(material: Material) -> Iterator[Problem]:
    """An exercise whose volume jumps from one episode to the next that has it."""
    series = material.series
    most = series.details.bounds.rise
    if most is None:
        return
    episodes = {episode.slug: episode for episode in series.sessions}
    forms = forms_of(series.exercises)
    for exercise, line in progression(series.details, forms, episodes.values()).items():
        for index, point in enumerate(line):
            if point.rise is not None and point.rise > most + SLACK:
                spot = _item_spot(episodes[point.episode], point)
                message = _rise_words(series.exercises[exercise].name, line[:index], point, most)
                yield found("warning", "volume-rise", spot, message, "grow in smaller steps")


def _rise_words(name: str, earlier: Sequence[Point], point: Point, most: float) -> str:
    before = next(p for p in reversed(earlier) if (p.form, p.unit) == (point.form, point.unit))
    grown = f"from {span(before.amount)} to {span(point.amount)} {point.unit} in all"
    return (
        f"{name} rises by {_percent(point.rise or 0)} from episode {before.number}, {grown}, "
        f"more than the {_percent(most)} the series allows"
    )


def _percent(fraction: float) -> str:
    return f"{fraction * 100:.0f} %"


def _item_spot(episode: Episode, point: Point) -> Spot:
    """Where the episode first asks for the form; in its own file, also where a routine brings it."""
    for index, block in enumerate(episode.blocks):
        for place, item in enumerate(block.items):
            if block.kind in COUNTED_KINDS and (item.exercise, item.variant) == point.form:
                own = block.spot.file == episode.spot.file
                return block.item_spot(place) if own else episode.spot.at("blocks", index)
    return episode.spot


def span(amount: Span) -> str:
    """``12`` or ``9-12``, in halves."""
    low, high = (round(end * 2) / 2 for end in (amount.low, amount.high))
    return f"{low:g}" if low == high else f"{low:g}-{high:g}"
