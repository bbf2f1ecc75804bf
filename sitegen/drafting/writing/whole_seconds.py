"""Times of a draft in whole seconds, so that they ascend as an episode's times must."""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class BlockTimes:
    """Whole seconds; None where nothing was found."""

    at: int | None
    items: tuple[int | None, ...]
    your_turn: int | None


def settled(found: Sequence[tuple[float | None, Sequence[float | None], float | None]]) -> list[BlockTimes]:
    """From start, starts of items and your turn of each block: cut to seconds, and moved where two would
    clash.

    A block starts after the one before it and not before that one's turn; items do not come before
    their block or each other; a turn comes after its last item.
    """
    settled_times: list[BlockTimes] = []
    latest = -1
    for start, items, turn in found:
        times = _block(start, items, turn, latest + 1)
        settled_times.append(times)
        known = [t for t in (times.at, *times.items) if t is not None]
        latest = max([latest, *known, *([times.your_turn - 1] if times.your_turn is not None else [])])
    return settled_times


def _block(
    start: float | None, items: Sequence[float | None], turn: float | None, earliest: int
) -> BlockTimes:
    at = None if start is None else max(int(start), earliest)
    latest = earliest if at is None else at
    placed: list[int | None] = []
    for item in items:
        if item is not None:
            latest = max(int(item), latest)
        placed.append(None if item is None else latest)
    your_turn = None if turn is None else max(int(turn), latest + 1)
    return BlockTimes(at, tuple(placed), your_turn)
