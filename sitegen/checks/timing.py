"""Warnings about time: of a session that takes another than it announces, and of work that does not fit the
time that its format, or the video, gives it.

What is told is sure: the short end of every assumption is already too long.
"""

from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.model import Block, Details, Episode
from sitegen.notation import format_clock
from sitegen.problems import Problem, found
from sitegen.study.forms import Forms, shown_form
from sitegen.study.span import Span
from sitegen.study.timing import block_time, dose_seconds, item_sets, round_seconds, session_time
from sitegen.vocabulary import AMRAP, EMOM, INTERVALS

ALONG_SLACK = 1.1
"""A block done along with the video may take a tenth longer than its stretch: tempos are never kept to the
second (common practice, no source)."""


def check_announced_time(material: Material) -> Iterator[Problem]:
    """A session that takes longer than it announces, or clearly shorter."""
    series = material.series
    forms = material.forms
    for episode in series.sessions:
        if episode.lasts is None:
            continue
        time = session_time(series.details, forms, episode)
        if episode.planned:
            yield from _check_plan(episode, time.your_turn)
            continue
        taken = time.seconds
        if taken is None:
            continue
        low, high = taken.minutes
        announced = f"{_minutes(episode.lasts.low / 60, episode.lasts.high / 60)} it announces"
        location, advice = episode.location.at("lasts"), f"write lasts: {_minutes(low, high)}"
        if high > episode.lasts.high / 60:
            message = f"the session takes {_minutes(low, high)}, longer than the {announced}"
            yield found("warning", "session-time", location, message, f"{advice}, or take something out")
        elif high < episode.lasts.low / 60:
            message = f"the session takes {_minutes(low, high)}, less than the {announced}"
            yield found("warning", "session-time", location, message, advice)


def _check_plan(episode: Episode, doing: Span) -> Iterator[Problem]:
    """A plan that takes longer than announced before a word of explanation is filmed."""
    low, high = doing.minutes
    if episode.lasts is not None and high > episode.lasts.high / 60:
        announced = _minutes(episode.lasts.low / 60, episode.lasts.high / 60)
        message = f"doing the session takes {_minutes(low, high)}, longer than the {announced} it announces"
        advice = "take something out, or announce more; what the film explains comes on top"
        yield found("warning", "session-time", episode.location.at("lasts"), message, advice)


def _minutes(low: float, high: float) -> str:
    return f"{low:g} min" if low == high else f"{low:g}-{high:g} min"


def check_doses_fit(material: Material) -> Iterator[Problem]:
    """A dose that its minute or interval has no room for, a round longer than the time for all rounds, and an
    item whose minute never comes."""
    series = material.series
    forms = material.forms
    for episode in series.sessions:
        for block in episode.blocks:
            yield from _unfit(series.details, forms, block)


def _unfit(details: Details, forms: Forms, block: Block) -> Iterator[Problem]:
    if block.format == AMRAP and block.time:
        yield from _long_round(details, forms, block)
    if block.format == EMOM:
        for index, sets in enumerate(item_sets(details, forms, block)):
            if sets.high == 0:
                name = shown_form(forms, block.items[index]).name
                location = block.item_location(index)
                message = f"{name!r} never gets its minute: {len(block.items)} items take turns"
                yield found("warning", "no-turn", location, message, "give the block more minutes")
    # A minute, or the work time of an interval at its longest.
    room = 60 if block.format == EMOM else block.work.high if block.work else None
    if block.format in (EMOM, INTERVALS) and room is not None:
        for index, item in enumerate(block.items):
            seconds = dose_seconds(details, forms, item, item.dose).low if item.dose else 0
            if seconds > room:
                at, name = block.item_location(index, "dose"), shown_form(forms, item).name
                message = f"{item.dose} of {name!r} take {seconds:.0f} s, and there are {room} s"
                yield found("warning", "dose-time", at, message, "write a smaller dose, or give it more time")


def _long_round(details: Details, forms: Forms, block: Block) -> Iterator[Problem]:
    one = round_seconds(details, forms, block).low
    if block.time and one > block.time.high:
        location = block.location.at("time")
        message = (
            f"one round of {block.name!r} takes {one:.0f} s, longer than the {block.time} for all rounds"
        )
        yield found("warning", "dose-time", location, message, "give it more time, or smaller doses")


def check_along(material: Material) -> Iterator[Problem]:
    """A block done along with the video that takes longer than its stretch of the video."""
    series = material.series
    forms = material.forms
    for episode in series.sessions:
        for index, block in enumerate(episode.blocks):
            room = _stretch(episode, index)
            if block.your_turn is not None or room is None:
                continue
            time = block_time(series.details, forms, block)
            needed = time.seconds.low - time.after.low
            if needed > room * ALONG_SLACK:
                message = (
                    f"{block.name!r} is done along with the video, takes {_clock(needed)}, "
                    f"and has {_clock(room)} of it"
                )
                advice = (
                    "add your_turn:, where the viewer pauses and does it, or correct sets, doses or times"
                )
                yield found("warning", "along-time", episode.location.at("blocks", index), message, advice)


def _stretch(episode: Episode, index: int) -> int | None:
    """Seconds of video from a block to the next, or to the end; None where that is not known."""
    begin = episode.blocks[index].at
    length = episode.video.length if episode.video else None
    end = episode.blocks[index + 1].at if index + 1 < len(episode.blocks) else length
    return None if begin is None or end is None else end - begin


def _clock(seconds: float) -> str:
    return format_clock(round(seconds))
