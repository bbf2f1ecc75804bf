"""What an episode adds to the pages of its exercises, as a fact about it (see ``pages.facts``).

It is one line of text for each exercise that an item shows, so that thousands of them load at once.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple, TypeAlias

from sitegen.model import Block, Episode, Item
from sitegen.output.page import fingerprint
from sitegen.pages.episode.titles import anchors_of
from sitegen.pages.phrases import Phrases
from sitegen.pages.site import Site
from sitegen.study.forms import Form, FormKey, shown_form
from sitegen.study.progression import Point, points_of
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
    assumed: str
    """Not empty where the amount is our assumption."""

    @property
    def form(self) -> tuple[str, str]:
        """Names the form shown."""
        return self.exercise, self.variant


_AT = Line._fields.index("at")


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
        unit=point.unit if point else "",
        assumed="yes" if point and point.assumed else "",
    )


def _sets(phrases: Phrases, block: Block) -> str:
    if block.format in (AMRAP, EMOM) and block.time is not None:
        return phrases.words("formats", block.format)
    return phrases.count(block.sets)


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


def unpacked(line: str) -> Line:
    """The fields of a packed line."""
    return Line(*line.split(_BETWEEN))
