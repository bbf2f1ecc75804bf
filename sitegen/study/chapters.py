"""The chapters of a video, from the times of blocks and items, and the list of times that video
hosts accept.

The usual rules of video hosts for a list of times in a description (they agree in help and news pages
of three of them, 2020 to 2022): the first entry is 0:00, there are at least three, they ascend,
and each lasts at least 10 seconds.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sitegen.model import Block, Episode

SHORTEST = 10
"""Seconds that an entry of the list lasts at least."""
FEWEST = 3
"""Entries that the list has at least."""
OPEN_END = 3600
"""Seconds given to the last chapter where the video has no known length: players stop at its end anyway."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """A stretch of the video, in seconds; ``end`` is not part of it."""

    start: int
    end: int
    block: int | None
    """Index of the block; None for what comes before the first one."""
    item: int | None = None
    """Index of the item that is shown; None for a whole block."""
    parts: tuple["Chapter", ...] = ()
    """The items of a block, each inside it."""


@dataclass(frozen=True, slots=True)
class ListedTime:
    """One line of the list of times."""

    start: int
    chapters: tuple[Chapter, ...]
    """What it stands for; more than one where some were too short to stand alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TimesList:
    """The list of times, and what had to be done so that a host accepts it."""

    entries: tuple[ListedTime, ...]
    added: tuple[Chapter, ...] = ()
    """Items listed because there are too few blocks."""

    @property
    def shared(self) -> tuple[ListedTime, ...]:
        """Entries that stand for several chapters."""
        return tuple(entry for entry in self.entries if len(entry.chapters) > 1)

    @property
    def enough(self) -> bool:
        """False where even with all items there are too few entries."""
        return len(self.entries) >= FEWEST


def chapters(episode: Episode) -> tuple[Chapter, ...]:
    """The chapters without a gap from 0 to the video's end, one for each block.

    What comes before the first block is a chapter of its own. A block that starts when the
    next one does, or past the end, gets none. A plan has no chapters yet.
    """
    starts = [block.at for block in episode.blocks if block.at is not None]
    if episode.planned or not starts:
        return ()
    opening = [Chapter(start=0, end=starts[0], block=None)] if starts[0] > 0 else []
    length = episode.video.length if episode.video else None
    ends = [*starts[1:], length if length is not None else starts[-1] + OPEN_END]
    found = [
        Chapter(start=start, end=end, block=index, parts=tuple(_parts(index, block, end)))
        for index, (block, start, end) in enumerate(zip(episode.blocks, starts, ends, strict=True))
        if end > start
    ]
    return (*opening, *found)


def _parts(index: int, block: Block, block_end: int) -> Iterator[Chapter]:
    """The items whose time is marked; those shown at the same time share their stretch."""
    end = block_end if block.your_turn is None else min(block.your_turn, block_end)
    times = [item.at for item in block.items if item.at is not None]
    for item_index, item in enumerate(block.items):
        if item.at is None:
            continue
        # Items shown at the same time share the stretch up to the next one.
        until = min((time for time in times if time > item.at), default=end)
        if item.at < min(until, end):
            yield Chapter(start=item.at, end=min(until, end), block=index, item=item_index)


def entry_list(found: Sequence[Chapter]) -> TimesList:
    """The list of times for chapters as :func:`chapters` gives them."""
    entries = _long_enough(found)
    if not entries or len(entries) >= FEWEST:
        return TimesList(entries=tuple(entries))
    added = tuple(_room_for_parts(entries, found))
    entries += (ListedTime(part.start, (part,)) for part in added)
    return TimesList(entries=tuple(sorted(entries, key=lambda entry: entry.start)), added=added)


def _long_enough(found: Sequence[Chapter]) -> list[ListedTime]:
    """A chapter too short to stand alone joins the entry before; a short first one takes in the next."""
    entries: list[ListedTime] = []
    for chapter in found:
        before = entries[-1] if entries else None
        if before and min(chapter.end - chapter.start, chapter.start - before.start) < SHORTEST:
            entries[-1] = ListedTime(before.start, (*before.chapters, chapter))
        else:
            entries.append(ListedTime(chapter.start, (chapter,)))
    return entries


def _room_for_parts(entries: Sequence[ListedTime], found: Sequence[Chapter]) -> Iterator[Chapter]:
    """Items that can be listed besides: at least the shortest time from every other entry and the end."""
    taken = [entry.start for entry in entries] + [found[-1].end]
    for part in (part for chapter in found for part in chapter.parts):
        if all(abs(part.start - time) >= SHORTEST for time in taken):
            taken.append(part.start)
            yield part
