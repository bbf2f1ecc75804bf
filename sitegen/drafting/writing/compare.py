"""Does a published episode agree with what its captions say?"""

from collections.abc import Iterator

from sitegen.drafting.findings import FoundItem
from sitegen.drafting.heard import WHOLE, Heard, hear
from sitegen.drafting.structure.plan_alignment import ShownBlock, shown_of
from sitegen.drafting.structure.planned_session import plan_of_episode
from sitegen.drafting.writing.differences import differs
from sitegen.model import Block, Episode, Item, Series
from sitegen.notation import format_clock
from sitegen.problems import Location, Problem, found
from sitegen.reading.captions.cues import Captions

MOST_OFF_S = 10
"""A chapter may be so many seconds off."""

_HEARD = 0.5
"""Confidence that is enough for an exercise that the episode has at this place of its order."""

_LEAST_FOUND = 0.5
"""Where fewer of the exercises are heard, the captions say too little to judge an episode by them."""


def compare_recording(episode: Episode, captions: Captions, series: Series) -> list[Problem]:
    """Warnings for chapters more than ten seconds off (``chapter-off``) and doses that are said otherwise
    (``dose-said``).
    """
    plan = plan_of_episode(episode)
    heard = hear(captions, series)
    shown = shown_of(heard, plan)
    seen = [item is not None and item.confidence >= _HEARD for block in shown for item in block.items]
    if not seen or sum(seen) < _LEAST_FOUND * len(seen):
        return []
    return list(_problems(episode, heard, shown))


def _problems(episode: Episode, heard: Heard, shown: list[ShownBlock]) -> Iterator[Problem]:
    for index, (block, recording) in enumerate(zip(episode.blocks, shown, strict=True)):
        for number, (item, seen) in enumerate(zip(block.items, recording.items, strict=True)):
            if seen is None:
                continue
            location = _location(episode, index, block, number)
            yield from _chapter(heard, item, seen, location)
            if differs(item.dose, seen):
                yield _dose(item, seen, location)


def _location(episode: Episode, index: int, block: Block, number: int) -> Location:
    """Where the item's time is written; for a shared routine, where the episode takes it up."""
    if block.routine is not None:
        return episode.location.at("blocks", index)
    return block.item_location(number)


def _chapter(heard: Heard, item: Item, seen: FoundItem, location: Location) -> Iterator[Problem]:
    if item.at is None or seen.confidence < _HEARD or abs(item.at - seen.start) <= MOST_OFF_S:
        return
    if _is_named_near(heard, item, item.at):
        return
    at, heard_at = format_clock(item.at), format_clock(seen.start)
    message = f"{item.exercise!r} is marked at {at}, but said to be shown at {heard_at}"
    advice = f"look at the video, and write at: {heard_at} if it is so"
    yield found("warning", "chapter-off", location, message, advice)


def _is_named_near(heard: Heard, item: Item, at: int) -> bool:
    """Whether the exercise is also called by its whole name at the time that is marked."""
    return any(
        mention.exercise == item.exercise
        and mention.cover >= WHOLE
        and abs(heard.time(mention.first) - at) <= MOST_OFF_S
        for mention in heard.mentions
    )


def _dose(item: Item, seen: FoundItem, location: Location) -> Problem:
    at = format_clock(seen.dose_at if seen.dose_at is not None else seen.start)
    message = f"{item.exercise!r} has the dose {item.dose}, but {seen.dose} is said at {at}"
    advice = "change the dose, or note on the page that it differs"
    return found("warning", "dose-said", location, message, advice)
