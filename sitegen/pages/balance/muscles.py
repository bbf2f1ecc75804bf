"""Sets of each muscle by week: a small chart for each, and the same as a table, by region."""

from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.pages.balance.charts import Axis, Bar, bars
from sitegen.pages.balance.labels import WeekLabel, amount
from sitegen.pages.balance.weeks_together import TrainedWeek
from sitegen.pages.site import Site
from sitegen.study.bounds import limits_of
from sitegen.study.span import NOTHING, Span
from sitegen.vocabulary import MUSCLE_REGIONS, REGIONS


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekSets:
    """Sets of a muscle in a week as text; empty for none."""

    sets: str
    rounds: str
    """Of conditioning blocks."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MuscleView:
    """A muscle with its chart and its row of the table."""

    name: str
    range: str
    """Fewest to most strength sets in a week; empty for none."""
    most: float
    bars: tuple[Bar, ...]
    limits: tuple[float, float] | None
    """Pixels down to the trainer's upper and lower limit."""
    limits_text: str
    cells: tuple[WeekSets, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RegionView:
    """The muscles of a region."""

    id: str
    muscles: tuple[MuscleView, ...]


def muscle_axis(weeks: Sequence[TrainedWeek]) -> Axis:
    """One scale for all muscles, so that their charts can be compared."""
    tops = (
        one.training.strength.get(muscle, NOTHING).high + one.training.conditioning.get(muscle, NOTHING).high
        for one in weeks
        for muscle in {*one.training.strength, *one.training.conditioning}
    )
    return Axis(max(tops, default=1))


def region_views(
    site: Site, weeks: Sequence[TrainedWeek], labels: Sequence[WeekLabel], axis: Axis
) -> tuple[RegionView, ...]:
    """The regions with a trained muscle, from the shoulders down."""
    regions = MUSCLE_REGIONS | dict(site.details.muscles)
    trained = {muscle for one in weeks for muscle in (*one.training.strength, *one.training.conditioning)}
    by_region = {region: [m for m in regions if m in trained and regions[m] == region] for region in REGIONS}
    return tuple(
        RegionView(id=region, muscles=tuple(_muscle(site, muscle, weeks, labels, axis) for muscle in muscles))
        for region, muscles in by_region.items()
        if muscles
    )


def _muscle(
    site: Site, muscle: str, weeks: Sequence[TrainedWeek], labels: Sequence[WeekLabel], axis: Axis
) -> MuscleView:
    strength = [one.training.strength.get(muscle, NOTHING) for one in weeks]
    rounds = [one.training.conditioning.get(muscle, NOTHING) for one in weeks]
    limits, phrases = limits_of(site.details.bounds, muscle), site.phrases
    return MuscleView(
        name=muscle,
        range=amount(phrases, Span(min(s.low for s in strength), max(s.high for s in strength))),
        most=max(span.high for span in strength),
        bars=bars(axis, strength, rounds, [label.short for label in labels]),
        limits=(axis.y(limits.high), axis.y(limits.low)) if limits else None,
        limits_text=phrases.count(limits) if limits else "",
        cells=tuple(
            WeekSets(sets=amount(phrases, sets), rounds=amount(phrases, conditioning))
            for sets, conditioning in zip(strength, rounds, strict=True)
        ),
    )
