"""How much of each exercise the series asks for, from episode to episode.

Where something is held the amount is weighed: repetitions times kilograms, the trade's volume load. Ten with
8 kg are a third more than ten with 6 kg.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from sitegen.model import Details, Episode
from sitegen.study.doses import dose_in
from sitegen.study.forms import FormKey, Forms
from sitegen.study.load import load_mass
from sitegen.study.span import Span
from sitegen.study.timing import MAX_REPS
from sitegen.study.volume import CountedItem, counted_items


@dataclass(frozen=True, slots=True, kw_only=True)
class ProgressPoint:
    """One form of an exercise in one episode; items alike in form and unit are added up."""

    episode: str
    """Slug."""
    number: int
    """Of the episode."""
    form: FormKey
    sets: Span
    amount: Span
    """Of all sets and both sides together, in ``unit``."""
    unit: str
    """``reps``, ``steps``, ``breaths`` or ``seconds``."""
    assumed: bool = False
    """True where the amount is our assumption for ``max``."""
    load_kg: Span | None = None
    """What is held in all hands, from the lightest item to the heaviest; None where nothing is."""
    volume_load: Span | None = None
    """Kilograms times the unit, over all sets; None where some of it is done without a load."""
    rise: float | None = None
    """Change against the point before in the same form and unit, as a fraction (0.5 = half as much again),
    at the middle of both ranges: of the volume load where both have one, else of ``amount``. None for the
    first and where one is assumed."""
    load_rise: float | None = None
    """Change of ``load_kg``; None where one of the two is without load."""


def progression(
    details: Details, forms: Forms, episodes: Iterable[Episode]
) -> dict[str, list[ProgressPoint]]:
    """Points of each exercise by its id, in the order of the episodes given.

    Sets count as in the study of volume: those of strength and conditioning blocks.
    """
    return lines_of(pair for episode in episodes for pair in points_of(details, forms, episode))


def lines_of(points: Iterable[tuple[str, ProgressPoint]]) -> dict[str, list[ProgressPoint]]:
    """Points of each exercise, from pairs of its id and a point in the order of the episodes."""
    lines: dict[str, list[ProgressPoint]] = {}
    for exercise, point in points:
        line = lines.setdefault(exercise, [])
        line.append(_with_rise(point, line))
    return lines


def recurring(lines: Mapping[str, list[ProgressPoint]]) -> dict[str, list[ProgressPoint]]:
    """Only exercises that come in two or more episodes."""
    return {name: line for name, line in lines.items() if len({point.episode for point in line}) > 1}


def points_of(details: Details, forms: Forms, episode: Episode) -> list[tuple[str, ProgressPoint]]:
    """Exercise and point of each form in one episode, without a rise."""
    merged: dict[tuple[FormKey, str], tuple[str, ProgressPoint]] = {}
    for one in counted_items(details, forms, episode):
        point = _point(episode, one)
        key = (point.form, point.unit)
        if key in merged:
            point = _together(merged[key][1], point)
        merged[key] = (one.form.exercise, point)
    return list(merged.values())


def _point(episode: Episode, one: CountedItem) -> ProgressPoint:
    amount, unit = _amount(one)
    load = load_mass(one.item.load) if one.item.load else None
    return ProgressPoint(
        episode=episode.slug,
        number=episode.number,
        form=one.form.key,
        sets=one.sets,
        amount=amount * one.sets,
        unit=unit,
        assumed=dose_in(one.block, one.item).kind == "max",
        load_kg=load,
        volume_load=amount * one.sets * load if load else None,
    )


def _amount(one: CountedItem) -> tuple[Span, str]:
    """What a set comes to on average, both sides together, and its measure."""
    dose = dose_in(one.block, one.item)
    sets = dose.sets or (dose,)
    amounts = [MAX_REPS if set_.kind == "max" else Span(set_.low, set_.high) for set_ in sets]
    low, high = (sum(ends) / len(sets) for ends in zip(*((a.low, a.high) for a in amounts), strict=True))
    return Span(low, high) * dose.sides, "reps" if dose.kind == "max" else dose.measure


def _together(one: ProgressPoint, other: ProgressPoint) -> ProgressPoint:
    return replace(
        one,
        sets=one.sets + other.sets,
        amount=one.amount + other.amount,
        assumed=one.assumed or other.assumed,
        load_kg=_hull(one.load_kg, other.load_kg),
        volume_load=one.volume_load + other.volume_load if one.volume_load and other.volume_load else None,
    )


def _hull(one: Span | None, other: Span | None) -> Span | None:
    if one is None or other is None:
        return one or other
    # The least and the most of both, for sets with several loads.
    return Span(min(one.low, other.low), max(one.high, other.high))


def _with_rise(point: ProgressPoint, line: list[ProgressPoint]) -> ProgressPoint:
    alike = [before for before in line if (before.form, before.unit) == (point.form, point.unit)]
    if not alike:
        return point
    before = alike[-1]
    known = not (point.assumed or before.assumed)
    grown = growth(before, point) if known else None
    return replace(point, rise=grown, load_rise=rise(before.load_kg, point.load_kg))


def growth(before: ProgressPoint, after: ProgressPoint) -> float | None:
    """Change of the volume load where both have one, else of the amount."""
    if before.volume_load and after.volume_load:
        return rise(before.volume_load, after.volume_load)
    return rise(before.amount, after.amount)


def rise(before: Span | None, after: Span | None) -> float | None:
    """Change at the middle of both ranges, as a fraction; None where one is unknown or nothing."""
    if before is None or after is None or before.mid == 0:
        return None
    return after.mid / before.mid - 1
