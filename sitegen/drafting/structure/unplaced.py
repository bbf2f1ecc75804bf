"""What is heard and has no place in the draft, so that nothing is lost in silence.

These are whole names of exercises that are not drafted, names given to something that is neither in the
library nor drafted, and amounts (loads, tempos and efforts too) that no item or block has taken. Counting
aloud, and what is said again of what is drafted already, is left out.
"""

from collections.abc import Iterator, Sequence

from sitegen.drafting.amounts import spoken
from sitegen.drafting.found import FoundBlock, Unplaced
from sitegen.drafting.heard import WHOLE, Heard
from sitegen.drafting.structure.remarks import unplaced_remarks

_LEAST_REPS = 4
"""Smaller bare numbers are hardly ever doses: "one more", "two hands"."""


def unplaced_in(heard: Heard, blocks: Sequence[FoundBlock]) -> list[Unplaced]:
    """Names and amounts without a place, in order of time; each name and amount of a minute once."""
    every = [*_names(heard, blocks), *_amounts(heard, blocks), *unplaced_remarks(heard, blocks)]
    found = sorted(every, key=lambda u: u.at)
    seen: set[tuple[str, int]] = set()
    out = []
    for one in found:
        key = (one.text, int(one.at // 60))
        if key not in seen:
            seen.add(key)
            out.append(one)
    return out


def _names(heard: Heard, blocks: Sequence[FoundBlock]) -> Iterator[Unplaced]:
    drafted = {item.exercise for block in blocks for item in block.items}
    for mention in heard.mentions:
        if mention.cover >= WHOLE and mention.best and mention.exercise not in drafted:
            yield Unplaced(text=mention.exercise, at=heard.time(mention.first))
    named = {item.heard for block in blocks for item in block.items}
    for first, last in _called(heard):
        words = heard.words(first, last)
        covered = any(m.first <= last and m.last >= first for m in heard.mentions if m.best)
        if not covered and words not in named:
            yield Unplaced(text=f"“{words}”", at=heard.time(first))


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
    first = min((block.start for block in blocks), default=0.0)
    last = max((block.your_turn or block.items[-1].start + 120 for block in blocks), default=0.0)
    taken = {str(item.dose) for block in blocks for item in block.items}
    taken |= {str(item.dose).replace(" each side", "") for block in blocks for item in block.items}
    for amount in heard.amounts:
        at = heard.time(amount.first)
        if amount.counted or not first <= at <= last:
            continue
        if amount.kind == spoken.DOSE and amount.dose is not None:
            small = amount.form == "bare" and amount.dose.high < _LEAST_REPS
            if (
                not small
                and str(amount.dose) not in taken
                and str(amount.dose).split(" each")[0] not in taken
            ):
                yield Unplaced(text=str(amount.dose), at=at)
        elif amount.kind == spoken.DISTANCE:
            yield Unplaced(text=amount.text, at=at)
