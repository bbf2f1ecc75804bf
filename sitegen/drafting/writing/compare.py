"""Does a published episode agree with what its captions say?"""

from collections.abc import Iterator

from sitegen.drafting.findings import FoundItem
from sitegen.drafting.heard import WHOLE, Heard, hear
from sitegen.drafting.structure.plan_alignment import shown_of
from sitegen.drafting.structure.planned_session import plan_of_episode
from sitegen.drafting.writing.differences import differs
from sitegen.model import Episode, Item, Series
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
    clear = [item is not None and item.confidence >= _HEARD for block in shown for item in block.items]
    if not clear or sum(clear) < _LEAST_FOUND * len(clear):
        return []
    problems: list[Problem] = []
    for index, (block, recording) in enumerate(zip(episode.blocks, shown, strict=True)):
        for number, (item, seen) in enumerate(zip(block.items, recording.items, strict=True)):
            if seen is None:
                continue
            # Of a shared routine the episode says only where it takes it up.
            at = episode.location.at("blocks", index)
            location = block.item_location(number) if block.routine is None else at
            problems += _chapter(heard, item, seen, location)
            if differs(item.dose, seen):
                problems.append(_dose(item, seen, location))
    return problems


def _chapter(heard: Heard, item: Item, seen: FoundItem, location: Location) -> Iterator[Problem]:
    if item.at is None or seen.confidence < _HEARD or abs(item.at - seen.start) <= MOST_OFF_S:
        return
    whole = (m for m in heard.mentions if m.exercise == item.exercise and m.cover >= WHOLE)
    if any(abs(heard.time(m.first) - item.at) <= MOST_OFF_S for m in whole):
        return
    at, heard_at = format_clock(item.at), format_clock(seen.start)
    message = f"{item.exercise!r} is marked at {at}, but said to be shown at {heard_at}"
    advice = f"look at the video, and write at: {heard_at} if it is so"
    yield found("warning", "chapter-off", location, message, advice)


def _dose(item: Item, seen: FoundItem, location: Location) -> Problem:
    at = format_clock(seen.dose_at if seen.dose_at is not None else seen.start)
    message = f"{item.exercise!r} has the dose {item.dose}, but {seen.dose} is said at {at}"
    advice = "change the dose, or note on the page that it differs"
    return found("warning", "dose-said", location, message, advice)
