"""A session made better by exchanging its exercises, where the search was cut short.

What such a search has found first is often one exchange from a better one.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import combinations, product
from math import comb

from sitegen.composing.block_order import order
from sitegen.composing.broken_rules import broken
from sitegen.composing.session_points import score, worth
from sitegen.composing.task import Blocks, BlockToFill, Option, Task

MOST_EXCHANGES = 8
"""Exchanges after a search that was cut short."""
MOST_TOGETHER = 70
"""Choices of two up to which two exercises of a block are exchanged at once: of twelve there are 66. What is
done on the floor has no standing neighbour in a pair, so that one alone could never be exchanged."""


def exchanged(task: Task, blocks: Blocks) -> Blocks:
    """A session with single options exchanged for others as long as that gains points."""
    best = score(task, blocks)
    for _ in range(MOST_EXCHANGES):
        better = max(_exchanges(task, blocks, best), key=lambda pair: pair[0], default=None)
        if better is None:
            break
        best, blocks = better
    return blocks


def _exchanges(task: Task, blocks: Blocks, least: int) -> Iterator[tuple[int, Blocks]]:
    """All sessions with one exercise of a block exchanged, or two where there are few to choose from, or with
    exercises of two blocks in each other's place, that keep the rules and have more points."""
    own = [_not_kept(places, block) for places, block in zip(task.places, blocks, strict=True)]
    for index, places in enumerate(task.places):
        elsewhere = [option for other in (*blocks[:index], *blocks[index + 1 :]) for option in other]
        taken = {option.key for option in (*elsewhere, *places.kept)}
        for new in _others(places, own[index], taken):
            if worth(task, [*elsewhere, *places.kept, *new]) > least:  # costs are never below 0
                yield from _better(task, blocks, {index: new}, least)
    for here, there in combinations(range(len(blocks)), 2):
        for change in _swaps(task.places[here], own[here], task.places[there], own[there]):
            yield from _better(task, blocks, dict(zip((here, there), change, strict=True)), least)


def _better(
    task: Task,
    blocks: Blocks,
    change: Mapping[int, Sequence[Option]],
    least: int,
) -> Iterator[tuple[int, Blocks]]:
    """The session with other options in some blocks, where it keeps the rules and has more points."""
    tried = list(blocks)
    for index, new in change.items():
        ordered = order(task.places[index], new, task.rules.without)
        if ordered is None:
            return
        tried[index] = ordered
    points = score(task, tried)
    if points > least and not broken(task, tried):
        yield points, tuple(tried)


def _not_kept(places: BlockToFill, block: Sequence[Option]) -> list[Option]:
    kept = {id(option) for option in places.kept}
    return [option for option in block if id(option) not in kept]


def _swaps(
    one: BlockToFill, here: Sequence[Option], other: BlockToFill, there: Sequence[Option]
) -> Iterator[tuple[list[Option], list[Option]]]:
    """The new options of two blocks with an exercise of each in the place of the other."""
    into_one = {option.key: option for option in one.options}
    into_other = {option.key: option for option in other.options}
    for a, b in product(here, there):
        if b.key in into_one and a.key in into_other:
            yield (
                [*(option for option in here if option is not a), into_one[b.key]],
                [*(option for option in there if option is not b), into_other[a.key]],
            )


def _others(places: BlockToFill, new: Sequence[Option], taken: Collection[str]) -> Iterator[list[Option]]:
    """The new options of a block with one or two of them exchanged."""
    here = {option.key for option in new}
    free = [option for option in places.options if option.key not in taken and option.key not in here]
    for number in (1, 2):
        if number > len(new) or (number > 1 and comb(len(free), number) > MOST_TOGETHER):
            return
        for out in combinations(new, number):
            staying = [option for option in new if all(option is not other for other in out)]
            for into in combinations(free, number):
                yield [*staying, *into]
