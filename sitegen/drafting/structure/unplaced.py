"""What is heard and has no place in the draft, so that nothing is lost in silence.

These are whole names of exercises that are not drafted, or shown over again, names given to something that is
neither in the library nor drafted, and amounts (loads, tempos and efforts too) that no item or block has
taken. Counting aloud, and what is said again of what is drafted already, is left out.
"""

from collections.abc import Iterator, Sequence

from sitegen.drafting.amounts.candidates import size
from sitegen.drafting.findings import FoundBlock, Unplaced
from sitegen.drafting.heard import WHOLE, Heard
from sitegen.drafting.structure.acts import SHOWN, shown_features
from sitegen.drafting.structure.remarks import quoted, unplaced_remarks

_LONG_S = 120.0
"""An exercise is hardly ever told for longer where nothing tells its end."""

_LEAST_REPS = 4
"""Smaller bare numbers are hardly ever doses: "one more", "two hands"."""


def unplaced_in(heard: Heard, blocks: Sequence[FoundBlock]) -> list[Unplaced]:
    """Names and amounts without a place, in order of time; each name and amount of a minute once."""
    every = [*_names(heard, blocks), *_amounts(heard, blocks), *unplaced_remarks(heard, blocks)]
    found = sorted(every, key=lambda u: u.at)
    seen: set[tuple[str, int]] = set()
    out = []
    for one in found:
        key = (one.text, int(one.at // 60))  # a word said over and over is one question a minute
        if key not in seen:
            seen.add(key)
            out.append(one)
    return out


def _names(heard: Heard, blocks: Sequence[FoundBlock]) -> Iterator[Unplaced]:
    unlikely = [item for block in blocks for item in block.unlikely if item.exercise]
    yield from (Unplaced(text=f"{item.exercise}, perhaps", at=item.start) for item in unlikely)
    where = {item.exercise: n for n, block in enumerate(blocks) for item in block.items}
    for mention in heard.mentions:
        if mention.cover < WHOLE or not mention.best:
            continue
        at = heard.time(mention.first)
        if mention.exercise not in where and all(mention.exercise != one.exercise for one in unlikely):
            yield Unplaced(text=mention.exercise, at=at)
        elif (
            # An exercise is drafted once only. Named again in a later block it may be shown over again.
            _block_at(blocks, at) > where.get(mention.exercise, len(blocks))
            and heard.model[SHOWN].score(shown_features(heard, mention)) > 0
        ):
            yield Unplaced(text=f"{mention.exercise}, again", at=at)
    named = {item.heard for block in blocks for item in block.items}
    for first, last in _called(heard):
        words = heard.words(first, last)
        covered = any(m.first <= last and m.last >= first for m in heard.mentions if m.best)
        if not covered and words not in named:
            yield Unplaced(text=f"“{words}”", at=heard.time(first))


def _block_at(blocks: Sequence[FoundBlock], at: float) -> int:
    """The number of the block that a time falls into."""
    return max(n for n, block in enumerate(blocks) if n == 0 or block.start <= at)


def _called(heard: Heard) -> Iterator[tuple[int, int]]:
    """The tokens of what is said to be called something, up to three words and the end of the clause."""
    for index, token in enumerate(heard.tokens[:-1]):
        if token.text != "called":
            continue
        first = index + 1
        while first < len(heard.tokens) - 1 and heard.tokens[first].text in ("a", "an", "the", "it", "them"):
            first += 1
        last = first
        while last + 1 < min(len(heard.tokens), first + 3) and not heard.tokens[last + 1].break_before:
            last += 1
        if not heard.tokens[first].break_before:
            yield first, last


def _amounts(heard: Heard, blocks: Sequence[FoundBlock]) -> Iterator[Unplaced]:
    if not blocks:
        return
    last = max(block.your_turn or block.items[-1].start + _LONG_S for block in blocks)
    for amount in heard.amounts:
        at = heard.time(amount.first)
        if amount.counted or not blocks[0].start <= at <= last or amount.dose is None:
            continue
        small = amount.form == "bare" and amount.dose.high < _LEAST_REPS
        # The doses of the next block may be told beforehand.
        near = [item.dose for block in blocks[_block_at(blocks, at) :][:2] for item in block.items]
        if not small and size(amount.dose) not in [size(dose) for dose in near if dose is not None]:
            yield Unplaced(text=f"{amount.dose} (“… {quoted(heard, amount)} …”)", at=at)
