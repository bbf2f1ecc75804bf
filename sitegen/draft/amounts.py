"""Amounts said in talk: the records, and finding all of them in a recording."""

from collections.abc import Iterator
from dataclasses import dataclass

from sitegen.draft.words import Stream
from sitegen.notation import Count, Dose, Duration


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """One dose said, from token ``first`` to ``last``."""

    first: int
    last: int
    dose: Dose
    plain: int
    """How plainly it is a dose: 3 with its unit or side, 2 asked for, 1 a number on its own, 0 a number
    among words.
    """
    aside: bool
    """Said under a condition, about another time or by the way."""
    changed: bool
    """Said to put an earlier one right."""
    each: bool = False
    """Said with a bare "each", which may mean each side, or each of several exercises."""
    for_all: bool = False
    """Said of every exercise of the block."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetsSaid:
    """A number of sets or rounds."""

    first: int
    last: int
    count: Count
    word: str
    """``sets`` or ``rounds``; empty for "twice", "three times" and the like."""
    changed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeSaid:
    """A length of time that is no dose."""

    first: int
    last: int
    length: Duration
    kind: str
    """``rest`` (not said after what), ``rest_sets``, ``rest_exercises``, ``work`` or ``time`` (of a whole
    block).
    """


@dataclass(frozen=True, slots=True)
class Amounts:
    """All amounts of a recording, each kind in order."""

    doses: list[Amount]
    sets: list[SetsSaid]
    times: list[TimeSaid]

    def first_dose(self, first: int, last: int) -> Amount | None:
        """The first dose said for now between two tokens, leaving out numbers among words."""
        return next(
            (a for a in self.doses if first <= a.first <= last and not a.aside and not a.for_all and a.plain),
            None,
        )


def counting(stream: Stream) -> Iterator[int]:
    """Tokens that count aloud, up or down: three or more numbers in a row, each one more or one less."""
    run: list[int] = []
    step = 0
    for index, token in enumerate(stream.tokens):
        difference = _difference(stream, run, index)
        if abs(difference) == 1 and (len(run) == 1 or difference == step):
            step = difference
            run.append(index)
            continue
        if len(run) >= 3:
            yield from run
        run = [index] if token.value is not None else []
    if len(run) >= 3:
        yield from run


def _difference(stream: Stream, run: list[int], index: int) -> int:
    """How much a number is above the last one of a run; 0 where it does not follow it."""
    value = stream.tokens[index].value
    if not run or run[-1] != index - 1 or value is None:
        return 0
    return value - (stream.tokens[run[-1]].value or 0)
