"""Warnings about sets a week, push against pull, jumps in volume and load, and exercises that never grow.

Weekly sets and push against pull are counted in strength blocks; jumps in both strength and
conditioning blocks (see ``sitegen.study.training``).
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from sitegen.checks.material import Material
from sitegen.model import Episode, Series
from sitegen.notation.english import listed
from sitegen.problems import Location, Problem, found
from sitegen.study.bounds import MuscleOutsideLimits, outside
from sitegen.study.forms import FormKey
from sitegen.study.next_dose import LOAD_RISE
from sitegen.study.overview import Overview, overview, prime_muscles
from sitegen.study.progression import ProgressPoint, progression, rise
from sitegen.study.span import ROUNDING, Span
from sitegen.study.volume import COUNTED_KINDS

STANDSTILL = 4
"""Sessions with an exercise after which it should have grown (common practice, no source)."""


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
    series: Series, found_: Iterable[MuscleOutsideLimits], check: str, word: str, advice: str
) -> Iterator[Problem]:
    by_muscle: dict[str, list[MuscleOutsideLimits]] = {}
    for one in found_:
        by_muscle.setdefault(one.muscle, []).append(one)
    for muscle, weeks in by_muscle.items():
        sets = listed(f"{one.sets.in_halves} in week {one.week.number}" for one in weeks)
        limits = weeks[0].limits
        message = f"{muscle} has {word} strength sets than the {limits} the series sets for a week: {sets}"
        own = muscle in series.details.bounds.muscles
        steps = ("muscles", muscle) if own else ("sets_per_week",)
        location = series.details.location.at("bounds", *steps)
        yield found("warning", check, location, message, f"{advice}, or change the bounds of {muscle}")


def _push(series: Series, seen: Overview) -> Iterator[Problem]:
    most = series.details.bounds.push_per_pull
    if most is None:
        return
    balances = [(week, training.balance) for week, training in seen.weeks]
    above = [(week, b) for week, b in balances if b.push.mid > most * b.pull.mid + ROUNDING]
    if above:
        weeks = listed(f"{b.push.in_halves} to {b.pull.in_halves} in week {week.number}" for week, b in above)
        message = f"push to pull: {weeks}, above the {most:g} to 1 the series sets"
        location = series.details.location.at("bounds", "push_per_pull")
        yield found("warning", "push-pull", location, message, "add rows or pulldowns, or take presses out")


def check_rise(material: Material) -> Iterator[Problem]:
    """An exercise whose volume, or whose load, jumps from one episode to the next that has it."""
    series, bounds = material.series, material.series.details.bounds
    episodes = {episode.slug: episode for episode in series.sessions}
    forms = material.forms
    for exercise, line in progression(series.details, forms, episodes.values()).items():
        name = series.exercises[exercise].name
        for index, point in enumerate(line):
            location, earlier = _item_location(episodes[point.episode], point), line[:index]
            if bounds.rise is not None and point.rise is not None and point.rise > bounds.rise + ROUNDING:
                message = _rise_words(name, earlier, point, bounds.rise)
                yield found("warning", "volume-rise", location, message, "grow in smaller steps")
            elif _jumps(point, LOAD_RISE if bounds.load_rise is None else bounds.load_rise):
                message = _load_words(name, earlier, point, bounds.load_rise)
                advice = "take a smaller step, do fewer with the heavier load, or set bounds: load_rise:"
                yield found("warning", "load-rise", location, message, advice)


def check_standstill(material: Material) -> Iterator[Problem]:
    """An exercise that comes again and again in strength blocks and is never asked for more of.

    Training that is to go on having an effect has to ask for more bit by bit (American College of Sports
    Medicine 2009, progressive overload). As many as possible grows by itself and is left aside.
    """
    series = material.series
    episodes = {episode.slug: episode for episode in series.sessions}
    forms = material.forms
    # What prepares or eases need not grow.
    strength = [
        replace(e, blocks=tuple(b for b in e.blocks if b.kind == "strength")) for e in episodes.values()
    ]
    for points in _by_form(progression(series.details, forms, strength)):
        if len(points) >= STANDSTILL and not any(point.assumed for point in points) and _stands(points):
            last = points[-1]
            amount = f"{points[0].amount.in_halves} {last.unit} in all"
            numbers = listed(str(point.number) for point in points)
            message = f"{forms[last.form].name} never grows: {amount} at most in episodes {numbers}"
            advice = "ask for more of it or for more load in one of them; sitegen propose says how much"
            location = _item_location(episodes[last.episode], last)
            yield found("warning", "standstill", location, message, advice)


def _by_form(lines: Mapping[str, Sequence[ProgressPoint]]) -> Iterable[list[ProgressPoint]]:
    """Points of the same form in the same unit."""
    groups: dict[tuple[FormKey, str], list[ProgressPoint]] = {}
    for point in (point for line in lines.values() for point in line):
        groups.setdefault((point.form, point.unit), []).append(point)
    return groups.values()


def _stands(points: Sequence[ProgressPoint]) -> bool:
    """Whether nothing after the first is more than the first: neither in amount nor in load."""
    first, *later = points
    return all(
        one.amount.mid <= first.amount.mid + ROUNDING
        and not (rise(first.load_kg, one.load_kg) or 0) > ROUNDING
        for one in later
    )


def _jumps(point: ProgressPoint, most: float) -> bool:
    """Whether the load rises by more than ``most``, and is not made up for: household loads come in steps,
    and fewer repetitions with the next one are the usual way to take it (common practice, no source)."""
    rises = (point.load_rise, point.rise)
    return all(one is not None and one > most + ROUNDING for one in rises)


def _before(earlier: Sequence[ProgressPoint], point: ProgressPoint) -> ProgressPoint:
    return next(p for p in reversed(earlier) if (p.form, p.unit) == (point.form, point.unit))


def _rise_words(name: str, earlier: Sequence[ProgressPoint], point: ProgressPoint, most: float) -> str:
    before = _before(earlier, point)
    grown = f"from {before.amount.in_halves} to {point.amount.in_halves} {point.unit} in all"
    if before.volume_load and point.volume_load and before.load_kg and point.load_kg:
        with_load = f"{_kilograms(before.load_kg)} to {_kilograms(point.load_kg)} kg"
        grown += f" and from {with_load}" if before.load_kg != point.load_kg else ""
    return (
        f"{name} rises by {_percent(point.rise or 0)} from episode {before.number}, {grown}, "
        f"more than the {_percent(most)} the series allows"
    )


def _load_words(name: str, earlier: Sequence[ProgressPoint], point: ProgressPoint, most: float | None) -> str:
    before = _before(earlier, point)
    limit = f"the {_percent(most)} the series allows" if most is not None else "the 2-10 % of ACSM 2009"
    loads = " to ".join(_kilograms(p.load_kg) for p in (before, point) if p.load_kg)
    return (
        f"the load of {name} rises by {_percent(point.load_rise or 0)} from episode {before.number}, "
        f"from {loads} kg, more than {limit}, and its repetitions do not make up for it"
    )


def _kilograms(mass: Span) -> str:
    low, high = (f"{end:.1f}" for end in (mass.low, mass.high))
    return low if low == high else f"{low}-{high}"


def _percent(fraction: float) -> str:
    return f"{fraction * 100:.0f} %"


def _item_location(episode: Episode, point: ProgressPoint) -> Location:
    """Where the episode first asks for the form; in its own file, also where a routine brings it."""
    for index, block in enumerate(episode.blocks):
        for place, item in enumerate(block.items):
            if block.kind in COUNTED_KINDS and (item.exercise, item.variant) == point.form:
                own = block.location.file == episode.location.file
                return block.item_location(place) if own else episode.location.at("blocks", index)
    return episode.location
