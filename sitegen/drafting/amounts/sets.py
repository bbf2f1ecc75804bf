"""Which of the amounts said is the number of sets of a block."""

import math
from collections import Counter
from collections.abc import Sequence

from sitegen.drafting.amounts import spoken
from sitegen.drafting.amounts.choice import PossibleAmount, words_around
from sitegen.drafting.amounts.spoken import SpokenAmount
from sitegen.drafting.heard import Heard
from sitegen.drafting.structure.outline import OutlineBlock

SETS = "sets"
"""The table."""

_MOST_TIMES = 5
"""Sets that a bare "times" is taken for; more are repetitions (common practice, no source)."""


def set_candidates(heard: Heard, blocks: Sequence[OutlineBlock], block: OutlineBlock) -> list[PossibleAmount]:
    """The amounts that may be the number of sets of a block."""
    begin = blocks[0].items[0].first if blocks and blocks[0].items else 0
    index = next(i for i, b in enumerate(blocks) if b is block)
    previous = blocks[index - 1].told if index else 0
    after_turn = min(block.end, block.told + 12)  # a sentence more: sets are told last, or as she hands over
    sets = [a for a in heard.amounts if a.count is not None or _perhaps_sets(heard, a)]
    said = Counter(set_count(a) for a in sets if previous <= a.first < after_turn)
    out = []
    for amount in sets:
        if amount.first < previous or amount.first >= after_turn:
            if amount.first >= begin or index == 0:
                continue
            where = "session"
        elif block.items and amount.first < block.items[0].first:
            where = "head"
        elif block.items and amount.first >= block.items[-1].told:
            where = "tail"
        else:
            where = "inside"
        features = [
            ("bias", 1.0),
            (f"where {where}", 1.0),
            (f"{amount.word or 'bare'} {where}", 1.0),
            (f"form {amount.form}", 1.0),
            *words_around(heard, amount, where),
            ("said again", float(said[set_count(amount)] > 1)),
            ("other numbers", math.log1p(max(0, len(said) - 1))),
            (f"number {min(6, set_count(amount)[0])}", 1.0),
            ("has a turn", float(block.turn is not None)),
            ("one item", float(len(block.items) == 1)),
        ]
        out.append(PossibleAmount(amount, features))
    return out


def _perhaps_sets(heard: Heard, amount: SpokenAmount) -> bool:
    """A small bare number with "times" behind it: "do that three times"."""
    dose = amount.dose
    return (
        amount.kind == spoken.DOSE
        and dose is not None
        and dose.kind == "count"
        and dose.high <= _MOST_TIMES
        and not amount.counted
        and heard.tokens[amount.last].text == "times"
    )


def set_count(amount: SpokenAmount) -> tuple[int, int]:
    """Fewest and most sets that an amount gives."""
    if amount.count is not None:
        return amount.count.low, amount.count.high
    return (amount.dose.low, amount.dose.high) if amount.dose else (1, 1)
