"""How much of each recurring exercise the sessions ask for, one after the other."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from sitegen.model import Episode
from sitegen.notation import Duration
from sitegen.pages.balance.charts import Axis, Bar, bars
from sitegen.pages.balance.facts import POINTS, read_points
from sitegen.pages.balance.labels import amount
from sitegen.pages.site import Site
from sitegen.pages.theme import plural
from sitegen.study.forms import FormKey
from sitegen.study.load import shown_mass
from sitegen.study.progression import Point, lines_of, recurring
from sitegen.study.span import NOTHING, Span


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
    shown = [point for e in episodes for point in read_points(site.facts.of(e, POINTS), e)]
    lines = recurring(lines_of((one.exercise, one.point) for one in shown))
    names = {one.point.form: one.form for one in shown if one.point.form != (one.exercise, None)}
    ordered = sorted(lines, key=lambda exercise: site.exercise(exercise).name)
    return tuple(_line(site, exercise, lines[exercise], names) for exercise in ordered)


def _line(site: Site, exercise: str, line: Sequence[Point], names: Mapping[FormKey, str]) -> LineView:
    points = tuple(_point(site, point, names.get(point.form, "")) for point in line)
    return LineView(
        exercise=exercise,
        name=site.exercise(exercise).name,
        bars=_bars(exercise, line),
        points=points,
        loads=any(point.load for point in points),
        forms=any(point.form for point in points),
    )


def _bars(exercise: str, line: Sequence[Point]) -> tuple[Bar, ...]:
    most: dict[str, float] = {}
    for point in line:
        most[point.unit] = max(most.get(point.unit, 0), point.amount.high)
    shares = [point.amount * (1 / (most[point.unit] or 1)) for point in line]
    main = [
        share if _is_main(point, exercise) else NOTHING for point, share in zip(line, shares, strict=True)
    ]
    other = [
        NOTHING if _is_main(point, exercise) else share for point, share in zip(line, shares, strict=True)
    ]
    return bars(Axis(1), main, other, [str(point.number) for point in line], gutter=0)


def _is_main(point: Point, exercise: str) -> bool:
    return point.form == (exercise, None)


def _point(site: Site, point: Point, form: str) -> PointView:
    return PointView(
        slug=point.episode,
        number=point.number,
        form=form,
        sets=amount(site.phrases, point.sets),
        amount=_amount(site, point),
        load=_load(site, point.load_kg),
        change=_change(site, point.rise),
    )


def _amount(site: Site, point: Point) -> str:
    low, high = round(point.amount.low), round(point.amount.high)
    if point.unit == "seconds":
        text = site.phrases.duration(Duration(low, high))
    else:
        counted = site.theme.strings.notation.counted[point.unit]
        text = plural(counted, high).replace("#", site.phrases.number(low, high))
    return str(site.theme.strings.balance.about.format(amount=text)) if point.assumed else text


def _load(site: Site, mass: Span | None) -> str:
    if mass is None:
        return ""
    shown = shown_mass(mass, site.details.units)
    return f"{site.phrases.number(shown.low, shown.high)} {shown.unit}"


def _change(site: Site, rise: float | None) -> str:
    if rise is None:
        return ""
    words = site.theme.strings.balance
    percent = round(100 * rise)
    if percent == 0:
        return str(words.same)
    return str((words.more if percent > 0 else words.less).format(percent=abs(percent)))
