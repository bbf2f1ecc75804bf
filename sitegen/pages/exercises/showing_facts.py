"""What an episode adds to the pages of its exercises, as a fact about it (see ``pages.facts``)."""

from collections.abc import Iterable
from typing import NamedTuple

from sitegen.model import Appearance, Block, Episode
from sitegen.pages.episode.titles import anchors_of
from sitegen.pages.phrases import Phrases
from sitegen.pages.site import Site
from sitegen.study.forms import FormKey, shown_form
from sitegen.study.progression import ProgressPoint, points_of
from sitegen.study.span import NOTHING, Span
from sitegen.study.volume import COUNTED_KINDS
from sitegen.vocabulary import AMRAP, EMOM

SHOWINGS, SHOWN, PLACES = "showings", "shown", "places"
"""Names of the fact, of the one that tells what is new in it, and of the one for searches."""


class ShowingFact(NamedTuple):
    """One showing of an exercise."""

    slug: str
    """Of the episode, with number and title."""
    at: int | None
    """Seconds in the video; None in a plan."""
    number: int
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
    unit: str
    """Of ``amount``; empty except in the first showing that counts."""
    amount: Span
    """What the episode asks of this form in all."""
    held: Span | None
    """Volume load (kilograms times the unit); None where some of it is done without a load."""
    assumed: bool
    """True where the amount is our assumption."""

    @property
    def form(self) -> tuple[str, str]:
        """Names the form shown."""
        return self.exercise, self.variant


def episode_showings(site: Site, episode: Episode) -> tuple[tuple[str, ShowingFact], ...]:
    """For every exercise that an item shows, its id and the showing."""
    # Of a form that is done by two measures, the first is given.
    points = {point.form: point for _, point in reversed(points_of(site.details, site.forms, episode))}
    found: list[tuple[str, ShowingFact]] = []
    for block, anchors in zip(episode.blocks, anchors_of(episode), strict=True):
        for item, anchor in zip(block.items, anchors.items, strict=True):
            shown = _showing(site, Appearance(episode=episode, block=block, item=item), anchor, points)
            # A variant that is another exercise of the library shows both.
            exercises = dict.fromkeys((item.exercise, shown_form(site.forms, item).exercise))
            found += ((exercise, shown) for exercise in exercises)
    return tuple(found)


def _showing(site: Site, shown: Appearance, anchor: str, points: dict[FormKey, ProgressPoint]) -> ShowingFact:
    episode, block, item, phrases = shown.episode, shown.block, shown.item, site.phrases
    form = shown_form(site.forms, item)
    # Given once: what an episode asks for in all stands beside the first showing that counts.
    point = points.pop(form.key, None) if block.kind in COUNTED_KINDS else None
    return ShowingFact(
        slug=episode.slug,
        at=block.at if item.at is None else item.at,
        number=episode.number,
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
        unit=point.unit if point else "",
        amount=point.amount if point else NOTHING,
        held=point.volume_load if point else None,
        assumed=point is not None and point.assumed,
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
    """The form shown (see :attr:`ShowingFact.form`)."""
    kind: str
    """Of the block, as content files write it."""


def places_of(showings: Iterable[tuple[str, ShowingFact]]) -> tuple[ShowingPlace, ...]:
    """No more of an episode's showings than a search needs, which no dose has a part in."""
    return tuple(ShowingPlace(exercise, one.at, one.form, one.kind) for exercise, one in showings)
