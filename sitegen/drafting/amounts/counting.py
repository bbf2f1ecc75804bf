"""Numbers that are counted up or down aloud: they keep the time of a set and are no dose."""

from collections.abc import Sequence
from itertools import pairwise

from sitegen.drafting.learned_tables import word_map, words_in
from sitegen.drafting.transcript.words import Token

_NEXT_COUNT_S = 12.0
"""Numbers of counting aloud follow each other within so many seconds: a slow repetition takes no longer
(common practice, no source).
"""

_MOST_BETWEEN = 8
"""Words between two numbers of counting, "three, keep the chest up, four": more are talk (our choice)."""

_JOINING = words_in("to or by of")
"""Words between two numbers of one amount: "eight or nine", "two to three"."""


def counted_aloud(tokens: Sequence[Token]) -> set[int]:
    """The numbers that are counted up or down aloud: "three, four, five", "three two one"."""
    numbers = [i for i, token in enumerate(tokens) if token.value is not None]
    out: set[int] = set()
    for before, after in pairwise(numbers):
        first, second = tokens[before], tokens[after]
        step = (second.value or 0) - (first.value or 0)
        between = [token.text for token in tokens[before + 1 : after]]
        if abs(step) != 1 or second.start - first.end > _NEXT_COUNT_S:
            continue
        if len(between) > _MOST_BETWEEN or _JOINING.intersection(between):
            continue
        # "One two" side by side is counting whatever stands around it.
        if not between or (_alone(tokens, before) and _alone(tokens, after)):
            out.update((before, after))
    return out


def _alone(tokens: Sequence[Token], index: int) -> bool:
    """Whether a number is no part of a phrase that goes on: a break or nothing countable follows."""
    if index + 1 >= len(tokens) or tokens[index + 1].break_before > 0:
        return True
    return tokens[index].break_before > 0 and tokens[index + 1].text not in word_map("units")
