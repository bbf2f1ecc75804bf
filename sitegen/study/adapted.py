"""A session as somebody with needs does it, as an episode like any other.

Whatever works out time, volume, energy or loads of an episode does so for a need as well.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from sitegen.model import Block, Details, Episode, Item
from sitegen.notation import Count, Dose, Duration
from sitegen.study.forms import Forms
from sitegen.study.suitability import Suitability, Versions
from sitegen.study.timing import block_time, item_sets, pauses
from sitegen.study.version import Version
from sitegen.vocabulary import AMRAP, CIRCUIT, EMOM, INTERVALS

CLOCKED = (AMRAP, EMOM, INTERVALS)
"""Formats in which the clock says how much or how fast."""


def adapted(
    details: Details, forms: Forms, suitability: Suitability, episode: Episode, needs: Iterable[str]
) -> Episode:
    """The episode with each item in its version, without what has none and without blocks left empty."""
    needs = tuple(needs)
    paced = not suitability.combined(needs).limits.speed
    return done_as(details, forms, episode, suitability.session(episode, needs), paced=paced)


def done_as(
    details: Details, forms: Forms, episode: Episode, session: Sequence[Versions], *, paced: bool
) -> Episode:
    """The episode with each item in the version given for it; ``paced``: without the clock."""
    blocks = []
    for block, versions in zip(episode.blocks, session, strict=True):
        course = at_own_pace(details, forms, block) if paced and is_by_the_clock(block) else block
        items = tuple(
            as_item(item, version) for item, version in zip(course.items, versions, strict=True) if version
        )
        if items:
            blocks.append(replace(course, items=items))
    return replace(episode, blocks=tuple(blocks))


def as_item(item: Item, version: Version) -> Item:
    """The item in its version; a dose that the format sets stays that of the course."""
    key = version.form.key
    return replace(
        item,
        exercise=key.exercise,
        variant=key.variant,
        dose=version.dose or item.dose,
        tempo=version.tempo,
        effort=version.effort,
        load=version.load,
        versions={},
    )


def is_by_the_clock(block: Block) -> bool:
    """Whether the clock drives a block that the viewer does by herself or along with the video."""
    return block.format in CLOCKED


def at_own_pace(details: Details, forms: Forms, block: Block) -> Block:
    """A block that is driven by the clock, done in rounds without it.

    As many rounds as the clock would leave at least, one at least; a work time becomes the dose of
    what has none; the pauses are as long as the block says, or longer, for nobody counts them: the longer
    end is twice what is filmed (common practice, no source).
    """
    rounds = max(1, int(min(span.low for span in item_sets(details, forms, block))))
    exchange, break_ = pauses(details, block)
    work = block.work
    items = block.items
    if work is not None:
        timed = Dose(kind="time", low=work.low, high=work.high)
        items = tuple(item if item.dose else replace(item, dose=timed) for item in items)
    rest = replace(
        block.rest,
        between_exercises=_longer(exchange.low, exchange.high),
        between_sets=_longer(break_.low, break_.high),
    )
    sets = Count(rounds, rounds) if block.format != INTERVALS else block.sets
    return replace(block, format=CIRCUIT, sets=sets, work=None, time=None, rest=rest, items=items)


def _longer(low: float, high: float) -> Duration:
    return Duration(int(low), int(high) * 2)


def split_to_fit(details: Details, forms: Forms, episode: Episode, longest: float) -> list[list[int]]:
    """Blocks by number, shared out so that no sitting lasts longer than so many seconds.

    A sitting takes the blocks in order, each with its stretch of video and your turn, as long as they
    fit at the long end of their time. A block that is too long by itself has a sitting of its own.
    """
    shared: list[list[int]] = []
    room = 0.0
    for number, seconds in enumerate(block_lengths(details, forms, episode)):
        if not shared or seconds > room:
            shared.append([])
            room = longest
        shared[-1].append(number)
        room -= seconds
    return shared


def block_lengths(details: Details, forms: Forms, episode: Episode) -> list[float]:
    """Seconds of each block at the most: its stretch of the video, and its your turn."""
    stretches = video_stretches(episode)
    return [
        stretch + turn_length(details, forms, block)
        for block, stretch in zip(episode.blocks, stretches, strict=True)
    ]


def turn_length(details: Details, forms: Forms, block: Block) -> float:
    """Seconds of a block's your turn at the most; 0 where it is done along with the video."""
    return block_time(details, forms, block).seconds.high if block.your_turn is not None else 0.0


def video_stretches(episode: Episode) -> Iterator[float]:
    """Seconds of video from each block to the next; the first has the welcome, the last the end."""
    if episode.planned:  # there is no video yet
        yield from (0.0 for _ in episode.blocks)
        return
    starts: Sequence[int] = [0, *(block.at or 0 for block in episode.blocks[1:])]
    length = episode.video.length if episode.video and episode.video.length else starts[-1] if starts else 0
    for start, end in zip(starts, [*starts[1:], max(length, *starts)], strict=True):
        yield end - start
