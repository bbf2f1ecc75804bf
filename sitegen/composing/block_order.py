"""The order in which the exercises of a block are done."""

from collections.abc import Sequence
from itertools import combinations, permutations, zip_longest

from sitegen.composing.broken_rules import floor_changes_in_a_row, grips_in_a_row
from sitegen.composing.task import BlockToFill, Option

_ALL_ORDERS = 5
"""Exercises of a block up to which every order is tried: 120 of them; six would be 720."""


def order(
    places: BlockToFill, chosen: Sequence[Option], without: frozenset[str] = frozenset()
) -> tuple[Option, ...] | None:
    """The order of a block's options that keeps the rules about neighbours; None where none does.

    What is kept stands where it stood; of the others each in its turn as far as it goes.
    """
    best: tuple[Option, ...] | None = None
    few = len(chosen) <= _ALL_ORDERS
    chosen = sorted(chosen, key=lambda one: one.turn or 0)
    for arranged in permutations(chosen) if few else (_spread(chosen),):
        block = _among_kept(places, arranged)
        grip = "grip" not in without and places.rotating and grips_in_a_row(block)
        floor = "floor" not in without and floor_changes_in_a_row(block, rotating=places.rotating)
        if not grip and not floor and (best is None or out_of_turn(block) < out_of_turn(best)):
            best = block
            if out_of_turn(best) == 0:
                break
    return best


def out_of_turn(options: Sequence[Option]) -> int:
    """How far the options are from the order of their turns: the sum over all pairs in the wrong order."""
    turns = [option.turn for option in options if option.turn is not None]
    return sum(max(0, earlier - later) for earlier, later in combinations(turns, 2))


def _among_kept(places: BlockToFill, arranged: Sequence[Option]) -> tuple[Option, ...]:
    """What is new in its order, between what is kept in its places."""
    stays = dict(zip(places.kept_at or range(len(places.kept)), places.kept, strict=True))
    new = iter(arranged)
    return tuple(stays[n] if n in stays else next(new) for n in range(len(places.kept) + len(arranged)))


def _spread(chosen: Sequence[Option]) -> tuple[Option, ...]:
    """One likely order of many: what is on the floor together at the end, what tires the grip apart."""
    found: list[Option] = []
    for floor in (False, True):
        here = sorted((one for one in chosen if one.floor == floor), key=lambda one: one.turn or 0)
        gripping, free = ([one for one in here if one.grip == grip] for grip in (True, False))
        found += [one for pair in zip_longest(gripping, free) for one in pair if one is not None]
    return tuple(found)
