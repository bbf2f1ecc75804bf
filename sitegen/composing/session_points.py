"""The points of a session, by which one is better than another.

Points are

- those of each option by itself (variety, emphasis, what needs keep of it),
- what muscles and patterns still want, in two shares (first what the week lacks, then what it usually
  has): the second set of a muscle is worth no more than the first, so that the gain of several options
  together is never more than the sum of what each would gain alone. That sum is the bound by which
  the search leaves branches;
- less what a session costs: kit that is set up, a pattern that comes again, neighbours with the same
  prime muscle, two of one sort in a block of conditioning, what comes before its turn (a carry before the
  big lifts), pairs and beginnings of the sessions before. Costs are never below 0, so the bound may leave
  them out.
"""

from collections.abc import Sequence
from itertools import combinations

from sitegen.composing.block_order import out_of_turn
from sitegen.composing.task import Option, Task, summed

# What a session loses. All of it is our own choice, in the same points as what it gains: a set that the week
# lacks gives 12 (``filling.URGENT_POINTS`` for each quarter), a session of rest of an exercise 3.
SET_UP = 3
"""For a piece of kit that is set up: as much as one session of rest, so that of equals the one with less to
fetch is taken and nothing else is given up for it."""
REPEATED_PATTERN = 8
"""For a pattern that comes again: less than a set that the week lacks, for which a pattern may come twice."""
SHARED_MUSCLE = 12
"""For neighbours that share a prime muscle, which would work through the other's rest: a whole set lost."""
SHARED_HELP = 4
"""For neighbours of which one helps with a prime muscle of the other: a third of that, for it is tired
less."""
SAME_STRAIN = 10
"""For neighbours of one pattern, or that strain the same part: nearly as bad as one muscle twice."""
OUT_OF_TURN = 4
"""For each two exercises in the wrong order, by how far they are apart: a carry before a big lift, which is
four turns too early, costs more than a set gives."""
NO_CONTRAST = 12
"""For what two neighbours in conditioning have in common: as bad there as one muscle twice in strength."""
PAIRED_BEFORE = 14
"""For a pair that stood in one block before: as much as a new exercise gives, so that new pairs come."""
BEGUN_ALIKE = 10
"""For each session before whose strength began with the same sorts of lift: less than a set, a matter of
taste."""
NOTHING_FOR_A_NEED = 60
"""For each need for which a block trains nothing of what it is for: five sets that the week lacks, so that it
happens only where hardly anything else can stand there."""


def score(task: Task, blocks: Sequence[Sequence[Option]]) -> int:
    """Points of a whole session in its order."""
    chosen = [option for block in blocks for option in block]
    return worth(task, chosen) - _cost(task, blocks)


def worth(task: Task, chosen: Sequence[Option]) -> int:
    """Points of options without what their order and their company costs."""
    fed = summed(option.feeds for option in chosen)
    gained = sum(task.wants[name].worth(amount) for name, amount in fed.items() if name in task.wants)
    return gained + sum(option.points for option in chosen)


def _cost(task: Task, blocks: Sequence[Sequence[Option]]) -> int:
    patterns = [option.pattern for block in blocks for option in block]
    again = len(patterns) - len(set(patterns))
    together = [
        pair
        for places, block in zip(task.places, blocks, strict=False)
        if places.rotating
        for pair in combinations(block, 2)
    ]
    shared = sum(len(one.prime & other.prime) for one, other in together)
    helped = sum(len(one.prime & other.assist) + len(one.assist & other.prime) for one, other in together)
    alike = sum(len(one.strains & other.strains) + (one.pattern == other.pattern) for one, other in together)
    early = out_of_turn([option for block in blocks for option in block])
    sorts = sum(len(one.sort & other.sort) for one, other in together)
    known = [pair for block in blocks for pair in combinations(block, 2)]
    paired = sum(frozenset((one.key, other.key)) in task.paired for one, other in known) if task.paired else 0
    return (
        SET_UP * _set_ups(blocks)
        + REPEATED_PATTERN * again
        + SHARED_MUSCLE * shared
        + SHARED_HELP * helped
        + SAME_STRAIN * alike
        + OUT_OF_TURN * early
        + NO_CONTRAST * sorts
        + PAIRED_BEFORE * paired
        + NOTHING_FOR_A_NEED * sum(len(_left_out(block)) for block in blocks)
        + BEGUN_ALIKE * (task.begun.count(lifts_begun(blocks)) if task.begun else 0)
    )


def _left_out(block: Sequence[Option]) -> frozenset[str]:
    """Needs for which nothing in a block trains what the block is for."""
    return frozenset.intersection(*(option.astray for option in block)) if block else frozenset()


def lifts_begun(blocks: Sequence[Sequence[Option]]) -> frozenset[str]:
    """The large lifts of the first block of strength."""
    first = next((block for block in blocks if any(option.turn is not None for option in block)), ())
    return frozenset(option.lift for option in first if option.lift)


def _set_ups(blocks: Sequence[Sequence[Option]]) -> int:
    """How often a piece of kit is fetched: once for each run of blocks that use it."""
    count, before = 0, frozenset[str]()
    for block in blocks:
        here = frozenset(piece for option in block for piece in option.kit)
        count += len(here - before)
        before = here
    return count
