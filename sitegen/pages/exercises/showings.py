"""Where an exercise is shown, with the doses, so that its progress over the series can be seen.

What an episode adds to the pages of its exercises is a fact about it (see ``pages.facts``): one
line of text for each exercise that an item shows, so that thousands of them load at once.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple, TypeAlias

from sitegen.model import Block, Episode, Item
from sitegen.notation import Duration, format_clock
from sitegen.output.page import fingerprint
from sitegen.pages.episode.titles import anchors_of
from sitegen.pages.exercises.lists import FormLink
from sitegen.pages.phrases import Phrases
from sitegen.pages.site import Site
from sitegen.pages.theme import plural
from sitegen.study.forms import Form, FormKey, shown_form
from sitegen.study.progression import Point, points_of, rise
from sitegen.study.span import Span
from sitegen.study.volume import COUNTED_KINDS
from sitegen.vocabulary import AMRAP, EMOM

PackedLines: TypeAlias = Sequence[tuple[Episode, str]]
"""Showings with their lines packed."""

_BETWEEN = "\x1f"
"""Between the fields of a line; no text of the content holds control characters."""


class Line(NamedTuple):
    """One showing as a line of text; every field is text, some are empty."""

    exercise: str
    """Of the form shown, with the next three fields."""
    variant: str
    name: str
    change: str
    at: str
    """Seconds in the video."""
    anchor: str
    """Of the item on the episode's page."""
    block: str
    sets: str
    dose: str
    load: str
    low: str
    """Least that the episode asks of this form in all, in ``unit``; empty except in the first line."""
    high: str
    unit: str
    """``about`` is put before it where the amount is our assumption."""

    @property
    def form(self) -> tuple[str, str]:
        """Names the form shown."""
        return self.exercise, self.variant


_AT = Line._fields.index("at")


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """What an episode asks of a form in all, and how that compares with the time before."""

    amount: str
    """Of all sets and both sides together."""
    bar: int
    """Length of its bar from 1 to 100; the largest amount of the same kind has 100."""
    rise: str
    """``25 % more`` against the time before; empty for the first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Showing:
    """One showing, as a line of the exercise's page."""

    slug: str
    number: int
    title: str
    at: str
    clock: str
    anchor: str
    """Of the item on the episode's page, below the video."""
    block: str
    form: FormLink | None
    """The form shown, where it is not the main form."""
    sets: str
    dose: str
    load: str
    progress: Progress | None
    """None for a further showing in the same episode, where nothing can be compared, and where sets
    do not count (warm-up and the like)."""


# --- facts about an episode ----------------------------------------------------------------


def episode_showings(site: Site, episode: Episode) -> tuple[tuple[str, str], ...]:
    """For every exercise that an item shows, its id and its line."""
    points = _points(site, episode)
    return tuple(
        (exercise, _BETWEEN.join(line))
        for block, anchors in zip(episode.blocks, anchors_of(episode), strict=True)
        for item, anchor in zip(block.items, anchors.items, strict=True)
        for exercise, line in _lines(site, block, item, anchor, points)
    )


def episode_times(site: Site, episode: Episode) -> str:
    """Fingerprint of which exercises an episode shows when."""
    return fingerprint(
        *((_exercises(site, item), _at(block, item)) for block in episode.blocks for item in block.items)
    )


def _exercises(site: Site, item: Item) -> tuple[str, ...]:
    """What an item shows: a variant that is another exercise of the library shows both."""
    return tuple(dict.fromkeys((item.exercise, shown_form(site.forms, item).exercise)))


def _at(block: Block, item: Item) -> int:
    return block.at if item.at is None else item.at


def _points(site: Site, episode: Episode) -> dict[FormKey, Point]:
    points = points_of(site.details, site.forms, episode)
    # Of a form that is done by two measures, the first is given.
    return {point.form: point for _, point in reversed(points)}


def _lines(
    site: Site, block: Block, item: Item, anchor: str, points: dict[FormKey, Point]
) -> Iterator[tuple[str, Line]]:
    form = shown_form(site.forms, item)
    # Given once: what an episode asks for in all stands beside the first showing that counts.
    point = points.pop(form.key, None) if block.kind in COUNTED_KINDS else None
    line = _line(site.phrases, block, item, form, anchor, point)
    return ((exercise, line) for exercise in _exercises(site, item))


def _line(phrases: Phrases, block: Block, item: Item, form: Form, anchor: str, point: Point | None) -> Line:
    return Line(
        exercise=form.key.exercise,
        variant=form.key.variant or "",
        name=form.name,
        change=form.change,
        at=str(_at(block, item)),
        anchor=anchor,
        block=block.name,
        sets=_sets(phrases, block),
        dose=phrases.dose(item.dose) or (phrases.duration(block.work) if block.work else ""),
        load=phrases.load(item.load),
        low=f"{point.amount.low:g}" if point else "",
        high=f"{point.amount.high:g}" if point else "",
        unit=("about " if point.assumed else "") + point.unit if point else "",
    )


def _sets(phrases: Phrases, block: Block) -> str:
    if block.format in (AMRAP, EMOM) and block.time is not None:
        return phrases.words("formats", block.format)
    return phrases.count(block.sets)


# --- the showings of an exercise -----------------------------------------------------------


def lines_by_exercise(site: Site) -> Mapping[str, PackedLines]:
    """Every showing of each exercise, packed, in the order of the series."""
    found: dict[str, list[tuple[Episode, str]]] = {exercise: [] for exercise in site.series.exercises}
    for episode in site.series.episodes:
        for exercise, line in site.facts.of(episode, "showings"):
            found[exercise].append((episode, line))
    return found


def packed_facts(shown: PackedLines) -> str:
    """Everything that the page of an exercise says of its showings, for keys."""
    return _BETWEEN.join(
        f"{e.slug}{_BETWEEN}{e.number}{_BETWEEN}{e.title}{_BETWEEN}{line}" for e, line in shown
    )


def time_of(line: str) -> int:
    """Seconds in the video of a packed line."""
    return int(line.split(_BETWEEN, _AT + 1)[_AT])


def showings(site: Site, exercise_id: str, packed: PackedLines) -> tuple[Showing, ...]:
    """The showings of an exercise for its page."""
    lines = [(episode, Line(*line.split(_BETWEEN))) for episode, line in packed]
    progress = _progress(site, [line for _, line in lines])
    return tuple(
        _showing(site, exercise_id, episode, line, after)
        for (episode, line), after in zip(lines, progress, strict=True)
    )


def _showing(
    site: Site, exercise_id: str, episode: Episode, line: Line, progress: Progress | None
) -> Showing:
    link = FormLink(
        exercise=line.exercise,
        id=line.variant,
        name=line.name,
        change=line.change,
        change_word=site.phrases.words("changes", line.change) if line.change else "",
    )
    return Showing(
        slug=episode.slug,
        number=episode.number,
        title=episode.title,
        at=line.at,
        clock=format_clock(int(line.at)),
        anchor=line.anchor,
        block=line.block,
        form=link if line.form != (exercise_id, "") else None,
        sets=line.sets,
        dose=line.dose,
        load=line.load,
        progress=progress,
    )


def _progress(site: Site, lines: Sequence[Line]) -> list[Progress | None]:
    """For each line; only where there are two to compare."""
    alike: dict[tuple[object, ...], list[int]] = {}
    for place, line in enumerate(lines):
        if line.unit:
            alike.setdefault((line.form, line.unit.removeprefix("about ")), []).append(place)
    found: list[Progress | None] = [None] * len(lines)
    for places in alike.values():
        amounts = [_amount(lines[place]) for place in places]
        most = max(amount.mid for amount in amounts)
        for before, place in zip([None, *places], places if len(places) > 1 else (), strict=False):
            found[place] = _compared(site, lines[place], None if before is None else lines[before], most)
    return found


def _amount(line: Line) -> Span:
    return Span(float(line.low), float(line.high))


def _compared(site: Site, line: Line, before: Line | None, most: float) -> Progress:
    words = site.theme.strings.exercise
    assumed = [one.unit.startswith("about ") for one in (line, before) if one]
    change = None if before is None or any(assumed) else rise(_amount(before), _amount(line))
    text = _amount_words(site, line)
    return Progress(
        amount=words.about.format(amount=text) if assumed[0] else text,
        bar=max(1, round(100 * _amount(line).mid / most)),
        rise="" if change is None else _percent(words, change),
    )


def _amount_words(site: Site, line: Line) -> str:
    low, high, unit = round(float(line.low)), round(float(line.high)), line.unit.removeprefix("about ")
    if unit == "seconds":
        return site.phrases.duration(Duration(low, high))
    return plural(site.theme.strings.notation.counted[unit], high).replace(
        "#", site.phrases.number(low, high)
    )


def _percent(words: Any, change: float) -> str:
    percent = round(100 * change)
    if percent == 0:
        return str(words.same)
    return str((words.more if percent > 0 else words.less).format(percent=abs(percent)))
