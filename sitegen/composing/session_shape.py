"""The shape of a session: its blocks with the number of their places, before any exercise is chosen."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from sitegen.model import Block, Episode, Rest, Series
from sitegen.notation import Count, Duration, NotationError
from sitegen.problems import Location
from sitegen.vocabulary import AMRAP, BLOCK_KINDS, EMOM, FORMATS, INTERVALS, ITEMS_OF_FORMAT, STRAIGHT

WORKING_KINDS = ("strength", "conditioning")
"""Kinds of block that are composed; the others are shared blocks, taken over from the series."""

MOST_PLACES = 6
"""Exercises of one block."""
FEWEST_SETS, MOST_SETS = 2, 4
"""Sets of a strength block between which the length of a session is adjusted (common practice, no source)."""

_USUAL_TIME = Duration(360, 360)
"""Of rounds and minutes against the clock where nothing is said: 6 minutes."""
_USUAL_WORK, _USUAL_PAUSE = Duration(30, 30), Duration(30, 30)
"""Of intervals where nothing is said."""
_RESTS = {
    "strength": Rest(
        between_exercises=Duration(15, 15), between_sets=Duration(60, 90), after=Duration(120, 120)
    ),
    "conditioning": Rest(
        between_exercises=Duration(15, 15), between_sets=Duration(45, 45), after=Duration(120, 120)
    ),
}
"""Inside the ranges that the study of timing documents."""

# "strength tri-set 3, 3 sets": the format is as short as can be, so that a number after it is that of places.
_BLOCK = re.compile(
    r"(?P<kind>[a-z-]+) (?P<format>[a-z -]+?)(?: (?P<places>\d+))?"
    r"(?:,? (?P<sets>\d+(?:-\d+)?) (?:sets|rounds))?"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockShape:
    """A block without exercises."""

    block: Block
    """Everything but its items, of which it has none."""
    places: int
    asked: bool = False
    """Whether the trainer asked for this number of sets; else they are chosen after the exercises."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionShape:
    """The parts of a session."""

    opening: tuple[str, ...]
    """Shared blocks at the beginning, by id."""
    blocks: tuple[BlockShape, ...]
    closing: tuple[str, ...]


def is_rotating(block: Block) -> bool:
    """Whether its items are done in turn, round after round."""
    return block.format != STRAIGHT


def shape_of(episode: Episode) -> SessionShape:
    """The shape of a session that is written."""
    working = [n for n, block in enumerate(episode.blocks) if is_composed(block)]
    first, last = (working[0], working[-1]) if working else (len(episode.blocks), -1)
    shapes = tuple(
        BlockShape(block=emptied(episode.blocks[n], episode.location), places=len(episode.blocks[n].items))
        for n in working
    )
    opening = tuple(block.routine for block in episode.blocks[:first] if block.routine)
    closing = tuple(block.routine for block in episode.blocks[last + 1 :] if block.routine)
    return SessionShape(opening=opening, blocks=shapes, closing=closing)


def is_composed(block: Block) -> bool:
    """Whether its exercises are chosen by the program, where they are not the trainer's."""
    return block.routine is None and block.kind in WORKING_KINDS


def emptied(block: Block, location: Location) -> Block:
    """A block without what belongs to its exercises and its video; sets are those at their lower end."""
    return replace(block, items=(), at=None, your_turn=None, note="", location=location)


def first_shape(opening: tuple[str, ...] = (), closing: tuple[str, ...] = ()) -> SessionShape:
    """The shape for an empty series: some conditioning, then three pairs (common practice, no source)."""
    words = "conditioning circuit 2, 3 rounds; strength superset, 3 sets; strength superset, 3 sets"
    return SessionShape(opening=opening, blocks=parse_blocks(words), closing=closing)


def with_shared_blocks(series: Series, text: str) -> SessionShape:
    """Blocks as the trainer writes them, between the shared blocks of the last sessions that have some.

    Raises NotationError as :func:`parse_blocks` does.
    """
    opening, closing = shared_around(series)
    return SessionShape(opening=opening, blocks=parse_blocks(text), closing=closing)


def shared_around(series: Series) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The shared blocks that a session last opened and last closed with, by id."""
    shapes = [shape_of(episode) for episode in reversed(series.sessions)]
    return (
        next((one.opening for one in shapes if one.opening), ()),
        next((one.closing for one in shapes if one.closing), ()),
    )


def parse_blocks(text: str) -> tuple[BlockShape, ...]:
    """Blocks as the trainer writes them: ``conditioning circuit 2, 3 rounds; strength tri-set, 3 sets``.

    Raises NotationError, with what to write instead.
    """
    return tuple(_parsed(part.strip(), number) for number, part in enumerate(text.split(";"), start=1))


def _parsed(text: str, number: int) -> BlockShape:
    example = "write for example: conditioning circuit 2, 3 rounds; strength superset, 3 sets"
    match = _BLOCK.fullmatch(text)
    if not match or match["kind"] not in BLOCK_KINDS:
        raise NotationError(f"{text!r} is no block", example)
    kind, format_ = match["kind"], match["format"].strip()
    if kind not in WORKING_KINDS:
        raise NotationError(
            f"a {kind} is not composed", "shared blocks of that kind are taken over by themselves"
        )
    if format_ not in FORMATS:
        raise NotationError(f"there is no format {format_!r}", f"write one of {', '.join(FORMATS)}")
    fewest, most = ITEMS_OF_FORMAT.get(format_, (1, MOST_PLACES))
    places = int(match["places"] or (2 if format_ not in ITEMS_OF_FORMAT else fewest))
    if not fewest <= places <= min(most, MOST_PLACES):
        limits = str(fewest) if fewest == most else f"{fewest} to {min(most, MOST_PLACES)}"
        raise NotationError(f"a {format_} has {limits} exercises, not {places}", example)
    sets = Count.parse(match["sets"] or "3")
    return BlockShape(
        block=new_block(kind, format_, sets, number), places=places, asked=match["sets"] is not None
    )


def new_block(kind: str, format_: str, sets: Count, number: int = 1) -> Block:
    """A block without exercises, with the usual rests and times."""
    rest = _RESTS[kind]
    if format_ == STRAIGHT:
        rest = replace(rest, between_exercises=None)
    if format_ in (AMRAP, EMOM):
        rest = Rest(after=rest.after)
        sets = Count(1, 1)
    if format_ == INTERVALS:
        rest = Rest(between_exercises=_USUAL_PAUSE, between_sets=_USUAL_PAUSE, after=rest.after)
    return Block(
        name=f"Part {number}",
        kind=kind,
        format=format_,
        sets=sets,
        rest=rest,
        work=_USUAL_WORK if format_ == INTERVALS else None,
        time=_USUAL_TIME if format_ in (AMRAP, EMOM) else None,
        items=(),
        location=Location("plan"),
    )


def lengths(shape: SessionShape) -> Iterator[SessionShape]:
    """The shape itself, then shorter and longer ones: a set less or more in each strength block."""
    for change in (0, -1, 1, -2):
        changed = tuple(_with_sets(one, change) for one in shape.blocks)
        if change == 0 or changed != shape.blocks:
            yield replace(shape, blocks=changed)
    if len(shape.blocks) > 1:  # at last without a block
        yield from (replace(shape, blocks=blocks) for blocks in _without_one(shape.blocks))


def _without_one(blocks: Sequence[BlockShape]) -> Iterator[tuple[BlockShape, ...]]:
    for index in reversed(range(len(blocks))):
        fewer = tuple(_with_sets(one, -2) for place, one in enumerate(blocks) if place != index)
        if any(one.block.kind == "strength" for one in fewer):
            yield fewer


def _with_sets(one: BlockShape, change: int) -> BlockShape:
    block = one.block
    if block.kind != "strength" or block.format in (AMRAP, EMOM):
        return one

    def changed(count: int) -> int:
        return count if change == 0 else min(MOST_SETS, max(FEWEST_SETS, count + change))

    sets = Count(changed(block.sets.low), changed(block.sets.high))
    return replace(one, block=replace(block, sets=sets))
