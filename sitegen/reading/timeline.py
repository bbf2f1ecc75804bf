"""Do the times of an episode make sense: ascending, inside their block, inside the video?"""

from collections.abc import Iterator

from sitegen.model import Block, Episode
from sitegen.notation import format_clock
from sitegen.problems import Location, Problem, found


def check_times(episode: Episode) -> Iterator[Problem]:
    """Problems of order and of times past the video's length; a plan has no times to check."""
    if episode.planned:
        yield from _check_plan(episode)
        return
    blocks = episode.blocks
    for index, block in enumerate(blocks):
        at = episode.location.at("blocks", index)
        following = blocks[index + 1] if index + 1 < len(blocks) else None
        if following is not None and _start(following) <= _start(block):
            relation = "at the same time as" if following.at == block.at else "before"
            start, earlier = format_clock(_start(following)), format_clock(_start(block))
            message = f"{following.name!r} starts at {start}, {relation} {block.name!r} ({earlier})"
            advice = "put the blocks in order of time, or correct the time"
            location = episode.location.at("blocks", index + 1, "at")
            yield found("problem", "time-order", location, message, advice)
        yield from _check_items(block, at, _start(following) if following else None)
        yield from _check_your_turn(block, at, following)
    yield from check_length(episode)


def _start(block: Block) -> int:
    """When a block of a filmed episode starts."""
    if block.at is None:
        raise ValueError(f"{block.name!r} has no time: its episode is a plan")
    return block.at


def _check_plan(episode: Episode) -> Iterator[Problem]:
    """A video with blocks that nobody can find in it."""
    if episode.video is None:
        return
    if not episode.blocks:
        message = "the video is there, but the episode has no blocks"
        advice = "write what is done in it under blocks:"
        yield found("problem", "missing-time", episode.location.at("blocks"), message, advice)
    for index, block in enumerate(episode.blocks):
        if block.at is None:
            message = f"the video is there, but {block.name!r} has no time in it"
            advice = "add at: with the time at which the block starts, or leave video: out until it is filmed"
            yield found("problem", "missing-time", episode.location.at("blocks", index), message, advice)


def _check_items(block: Block, location: Location, block_end: int | None) -> Iterator[Problem]:
    """Item times ascend, from the block's start to your turn or the next block."""
    end = block.your_turn if block.your_turn is not None else block_end
    earliest = _start(block)
    for index, item in enumerate(block.items):
        if item.at is None:
            continue
        at = _time_of_item(block, location, index)
        shown = format_clock(item.at)
        if item.at < earliest:
            message = f"{item.exercise!r} is shown at {shown}, before {format_clock(earliest)}"
            yield found("problem", "time-order", at, message, "write a time at or after the one before it")
        elif end is not None and item.at >= end:
            message = f"{item.exercise!r} is shown at {shown}, but its block ends at {format_clock(end)}"
            yield found("problem", "time-order", at, message, "write an earlier time, or move the end")
        earliest = max(earliest, item.at)


def _time_of_item(block: Block, location: Location, index: int) -> Location:
    """Where the time of an item is to be put right: that of a shared block follows the block's."""
    return block.item_location(index, "at") if block.routine is None else location.at("at")


def _check_your_turn(block: Block, location: Location, following: Block | None) -> Iterator[Problem]:
    turn = block.your_turn
    if turn is None:
        return
    at = location.at("your_turn")
    if turn <= _start(block):
        starts = format_clock(_start(block))
        message = f"your turn comes at {format_clock(turn)}, before the block starts ({starts})"
        yield found("problem", "time-order", at, message, "write the time at which the viewer pauses")
    elif following is not None and turn > _start(following):
        start = format_clock(_start(following))
        message = f"your turn comes at {format_clock(turn)}, after the next block starts ({start})"
        yield found("problem", "time-order", at, message, "write a time before the next block")


def check_length(episode: Episode) -> Iterator[Problem]:
    """Problems of times past the end of a video whose length is known."""
    length = episode.video.length if episode.video else None
    if length is None or episode.planned:
        return
    for index, block in enumerate(episode.blocks):
        location = episode.location.at("blocks", index)
        times = [(block.at, location.at("at")), (block.your_turn, location.at("your_turn"))]
        times += [(item.at, _time_of_item(block, location, i)) for i, item in enumerate(block.items)]
        for time, at in times:
            if time is not None and time >= length + (1 if at.path[-1] == "your_turn" else 0):
                message = f"{format_clock(time)} is past the end of the video ({format_clock(length)})"
                yield found("problem", "past-end", at, message, "correct the time or video: length:")
                break
