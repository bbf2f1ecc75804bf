"""How much of each recurring exercise the sessions ask for, one after the other."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from sitegen.model import Episode
from sitegen.pages.balance.charts import Axis, Bar, bars
from sitegen.pages.balance.facts import POINTS, NamedPoint
from sitegen.pages.balance.labels import amount
from sitegen.pages.load_words import weight_words
from sitegen.pages.phrases import rise_words
from sitegen.pages.site import Site
from sitegen.study.forms import FormKey
from sitegen.study.progression import ProgressPoint, lines_of, recurring
from sitegen.study.span import NOTHING


@dataclass(frozen=True, slots=True, kw_only=True)
class PointView:
    """One session's share of an exercise."""

    slug: str
    number: int
    form: str
    """Name of the form where it is not the main one."""
    sets: str
    amount: str
    load: str
    change: str
    """Against the time before in the same form; empty where there is none to compare with."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LineView:
    """An exercise through the sessions."""

    exercise: str
    name: str
    bars: tuple[Bar, ...]
    """Solid for the main form, hatched for others; heights compare amounts in the same unit."""
    points: tuple[PointView, ...]
    loads: bool
    forms: bool


def line_views(site: Site, episodes: Iterable[Episode]) -> tuple[LineView, ...]:
    """The exercises that come in at least two of the episodes, by name."""
    shown: list[NamedPoint] = [point for e in episodes for point in site.facts.of(e, POINTS)]
    lines = recurring(lines_of((one.exercise, one.point) for one in shown))
    names = {one.point.form: one.form for one in shown if one.point.form != (one.exercise, None)}
    ordered = sorted(lines, key=lambda exercise: site.exercise(exercise).name)
    return tuple(_line(site, exercise, lines[exercise], names) for exercise in ordered)


def _line(site: Site, exercise: str, line: Sequence[ProgressPoint], names: Mapping[FormKey, str]) -> LineView:
    points = tuple(_point(site, point, names.get(point.form, "")) for point in line)
    return LineView(
        exercise=exercise,
        name=site.exercise(exercise).name,
        bars=_bars(exercise, line),
        points=points,
        loads=any(point.load for point in points),
        forms=any(point.form for point in points),
    )


def _bars(exercise: str, line: Sequence[ProgressPoint]) -> tuple[Bar, ...]:
    most: dict[str, float] = {}
    for point in line:
        most[point.unit] = max(most.get(point.unit, 0), point.amount.high)
    shares = [point.amount * (1 / (most[point.unit] or 1)) for point in line]
    is_main = [point.form == (exercise, None) for point in line]
    main = [share if mine else NOTHING for share, mine in zip(shares, is_main, strict=True)]
    other = [NOTHING if mine else share for share, mine in zip(shares, is_main, strict=True)]
    return bars(Axis(1), main, other, [str(point.number) for point in line], gutter=0)


def _point(site: Site, point: ProgressPoint, form: str) -> PointView:
    return PointView(
        slug=point.episode,
        number=point.number,
        form=form,
        sets=amount(site.phrases, point.sets),
        amount=_amount(site, point),
        load=weight_words(site, point.load_kg) if point.load_kg else "",
        change=rise_words(site.theme.strings.balance, point.rise),
    )


def _amount(site: Site, point: ProgressPoint) -> str:
    text = site.phrases.amount(point.unit, point.amount.low, point.amount.high)
    return str(site.theme.strings.balance.about.format(amount=text)) if point.assumed else text
