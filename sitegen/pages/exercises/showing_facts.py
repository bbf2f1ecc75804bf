"""What an episode adds to the pages of its exercises, as a fact about it (see ``pages.facts``).

It is one line of text for each exercise that an item shows, so that thousands of them load at once.
"""

from collections.abc import Iterable
from typing import NamedTuple

from sitegen.model import Appearance, Block, Episode, Item
from sitegen.pages.episode.titles import anchors_of
from sitegen.pages.phrases import Phrases
from sitegen.pages.site import Site
from sitegen.study.forms import FormKey, shown_form
from sitegen.study.progression import ProgressPoint, points_of
from sitegen.study.volume import COUNTED_KINDS
from sitegen.vocabulary import AMRAP, EMOM

SHOWINGS, SHOWN, PLACES = "showings", "shown", "places"
"""Names of the fact, of the one that tells what is new in it, and of the one for searches."""

_BETWEEN = "\x1f"
"""Between the fields of a line; no text of the content holds control characters."""


class ShowingText(NamedTuple):
    """One showing as a line of text; every field is text, some are empty."""

    slug: str
    """Of the episode, with number and title."""
    at: str
    """Seconds in the video."""
    number: str
    title: str
    exercise: str
    """Of the form shown, with the next three fields."""
    variant: str
    name: str
    change: str
    anchor: str
    """Of the item on the episode's page."""
    block: str
    kind: str
    """Of the block, as content files write it."""
    sets: str
    dose: str
    load: str
    low: str
    """Least that the episode asks of this form in all, in ``unit``; empty except in the first line."""
    high: str
    unit: str
    held_low: str
    """Least volume load (kilograms times the unit); empty where some of it is done without a load."""
    held_high: str
    assumed: str
    """Not empty where the amount is our assumption."""

    @property
    def form(self) -> tuple[str, str]:
        """Names the form shown."""
        return self.exercise, self.variant


def episode_showings(site: Site, episode: Episode) -> tuple[tuple[str, str], ...]:
    """For every exercise that an item shows, its id and its line."""
    points = _points(site, episode)
    found: list[tuple[str, str]] = []
    for block, anchors in zip(episode.blocks, anchors_of(episode), strict=True):
        for item, anchor in zip(block.items, anchors.items, strict=True):
            line = _BETWEEN.join(
                _line(site, Appearance(episode=episode, block=block, item=item), anchor, points)
            )
            found += ((exercise, line) for exercise in _exercises(site, item))
    return tuple(found)


def _exercises(site: Site, item: Item) -> tuple[str, ...]:
    """What an item shows: a variant that is another exercise of the library shows both."""
    return tuple(dict.fromkeys((item.exercise, shown_form(site.forms, item).exercise)))


def _points(site: Site, episode: Episode) -> dict[FormKey, ProgressPoint]:
    points = points_of(site.details, site.forms, episode)
    # Of a form that is done by two measures, the first is given.
    return {point.form: point for _, point in reversed(points)}


def _line(site: Site, shown: Appearance, anchor: str, points: dict[FormKey, ProgressPoint]) -> ShowingText:
    episode, block, item, phrases = shown.episode, shown.block, shown.item, site.phrases
    form = shown_form(site.forms, item)
    at = block.at if item.at is None else item.at
    # Given once: what an episode asks for in all stands beside the first showing that counts.
    point = points.pop(form.key, None) if block.kind in COUNTED_KINDS else None
    return ShowingText(
        slug=episode.slug,
        at="" if at is None else str(at),  # in a plan there is none
        number=str(episode.number),
        title=episode.title,
        exercise=form.key.exercise,
        variant=form.key.variant or "",
        name=form.name,
        change=form.change,
        anchor=anchor,
        block=block.name,
        kind=block.kind,
        sets=_sets(phrases, block),
        dose=phrases.dose_or_work(item.dose, block),
        load=phrases.load(item.load),
        low=f"{point.amount.low:g}" if point else "",
        high=f"{point.amount.high:g}" if point else "",
        unit=point.unit if point else "",
        held_low=f"{point.volume_load.low:g}" if point and point.volume_load else "",
        held_high=f"{point.volume_load.high:g}" if point and point.volume_load else "",
        assumed="yes" if point and point.assumed else "",
    )


def _sets(phrases: Phrases, block: Block) -> str:
    if block.format in (AMRAP, EMOM) and block.time is not None:
        return phrases.words("formats", block.format)
    return phrases.count(block.sets)


class ShowingPlace(NamedTuple):
    """Where a showing is found."""

    exercise: str
    at: int | None
    """Seconds in the video; None in a plan."""
    form: tuple[str, str]
    """The form shown (see :attr:`ShowingText.form`)."""
    kind: str
    """Of the block, as content files write it."""


def places_of(showings: Iterable[tuple[str, str]]) -> tuple[ShowingPlace, ...]:
    """No more of an episode's showings than a search needs, which no dose has a part in."""
    read = ((exercise, unpacked(line)) for exercise, line in showings)
    return tuple(
        ShowingPlace(exercise, int(line.at) if line.at else None, line.form, line.kind)
        for exercise, line in read
    )


def unpacked(line: str) -> ShowingText:
    """The fields of a packed line."""
    return ShowingText(*line.split(_BETWEEN))
