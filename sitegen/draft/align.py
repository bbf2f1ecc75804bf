"""Laying a planned session over a recording: a sequence alignment by dynamic programming.

The planned exercises, in order, are matched with mentions, in order, so that the sum of the scores is
largest (Needleman and Wunsch, J Mol Biol 48:443-453, 1970, with planned items in the place of one sequence
and mentions in that of the other). Mentions may be passed over for nothing; a planned item that is not
found costs
:data:`MISSED`.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.draft.mentions import Mention

MISSED = -0.5
"""Score of a planned item that no mention is given to."""

_PLANNED = 2.0
"""What it adds to a mention's score that the exercise is planned."""

_PERHAPS = 1.0
"""The same where the name may mean the planned exercise among others."""

_GUESSED = 0.4
"""Score of a planned item for a name that nothing in the library answers to: it may have been misheard."""

_MOST = 5.0
_AGAIN, _MOST_AGAIN = 0.8, 2.4
"""What each earlier mention takes away, and all together: an exercise is shown when it is named first."""

_OFFERED = 1.5
"""What it takes away that the exercise was only offered in place of another, told about or denied."""


@dataclass(frozen=True, slots=True)
class Planned:
    """One planned item: its place in the plan and its exercise."""

    block: int
    item: int
    exercise: str


def aligned(plan: Sequence[Planned], mentions: Sequence[Mention]) -> list[Mention | None]:
    """For each planned item the mention that shows it; None where none does."""
    rows, columns = len(plan) + 1, len(mentions) + 1
    again = _times_named(mentions)
    best = [[0.0] * columns for _ in range(rows)]
    taken = [[False] * columns for _ in range(rows)]
    for i in range(1, rows):
        best[i][0] = best[i - 1][0] + MISSED
        for j in range(1, columns):
            best[i][j] = max(best[i][j - 1], best[i - 1][j] + MISSED)
            fit = _fit(plan[i - 1], mentions[j - 1])
            if fit is None:
                continue
            fit -= min(_MOST_AGAIN, _AGAIN * again[j - 1])
            if best[i - 1][j - 1] + fit > best[i][j]:
                best[i][j] = best[i - 1][j - 1] + fit
                taken[i][j] = True
    return _traced(best, taken, mentions)


def _times_named(mentions: Sequence[Mention]) -> list[int]:
    """How often the exercise of each mention was spoken of for now before."""
    counts: dict[str, int] = {}
    before = []
    for mention in mentions:
        exercise = mention.naming.exercise
        before.append(counts.get(exercise, 0))
        counts[exercise] = before[-1] + (mention.score > 0)
    return before


def _traced(
    best: list[list[float]], taken: list[list[bool]], mentions: Sequence[Mention]
) -> list[Mention | None]:
    """The best path, read backwards."""
    chosen: list[Mention | None] = []
    i, j = len(best) - 1, len(mentions)
    while i > 0:
        if j > 0 and taken[i][j]:
            chosen.append(mentions[j - 1])
            i, j = i - 1, j - 1
        elif j > 0 and best[i][j] == best[i][j - 1]:
            j -= 1
        else:
            chosen.append(None)
            i -= 1
    return chosen[::-1]


def _fit(planned: Planned, mention: Mention) -> float | None:
    """How well a mention shows a planned item; None where it does not at all."""
    naming = mention.naming
    if naming.exercise == planned.exercise:
        fit = _PLANNED
    elif planned.exercise in naming.others:
        fit = _PERHAPS * naming.others[planned.exercise]
    elif naming.announced and not naming.exercise:
        return _GUESSED
    else:
        return None
    held_back = _OFFERED if mention.conditional or mention.elsewhere else 0.0
    return fit + max(-_MOST, min(_MOST, mention.score)) - held_back
