"""The amounts that may be the dose of an item, and what is seen of each.

Every amount of its block is a candidate, and those said before the block: a session is told beforehand as
a list, a block is opened with what holds for all its exercises. A dose told while its exercise is shown and
again in the recap is surer than either, so each candidate knows where else the same is said.
"""

import math
from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain
from typing import NamedTuple

from sitegen.drafting.amounts import spoken
from sitegen.drafting.amounts.choice import PossibleAmount, words_around
from sitegen.drafting.amounts.spoken import SpokenAmount
from sitegen.drafting.heard import WHOLE, Heard, sentence_around
from sitegen.drafting.learned_tables import Feature, phrases_said, word_list
from sitegen.drafting.structure.outline import OutlineBlock, OutlineItem
from sitegen.drafting.transcript.passages import SENTENCE
from sitegen.notation import Dose
from sitegen.vocabulary import INTERVALS

_SIZES, _SECONDS = (1, 3, 5, 30), (4, 9, 90)
"""Bounds between numbers and times that are doses seldom or often."""

_NEAR_NAME, _OFF = 9, (1, 3, 6)
"""Words between an amount and the name that it goes with: at most, and bounds between near and far."""

_SENTENCE = 30
"""Words before an amount among which its sentence begins; longer ones are hardly ever said (our choice)."""

_MOST_HAVE = 0.67
"""Share of a block's exercises with their own doses above which most have one: two of three (our choice)."""

_LISTED = 6
"""Words between two amounts that are listed one behind the other: "squats fifteen, split squats ten"."""

_LEAST_TIME, _MOST_TIME = 10, 120
"""Seconds; a smaller or larger number alone is never read as a time, nor one that fives do not go into."""

Size = tuple[str, int, int, str]


def dose_in(amount: SpokenAmount) -> Dose | None:
    """The dose that an amount gives: a work time is one too."""
    if amount.kind == spoken.WORK and amount.length is not None:
        return Dose(kind="time", low=amount.length.low, high=amount.length.high)
    return amount.dose


def size(dose: Dose) -> Size:
    """What of a dose is compared before sides are."""
    return dose.kind, dose.low, dose.high, dose.unit


def dose_key(amount: SpokenAmount) -> Size:
    """What amounts of one size have in common; all that are no doses have the same."""
    dose = dose_in(amount)
    return size(dose) if dose else ("", 0, 0, "")


def _unit(amount: SpokenAmount) -> str:
    dose = dose_in(amount)
    return "" if dose is None else dose.unit if dose.kind == "count" else dose.kind


_Said = tuple[str, bool]
"""Where an amount is said, seen from an item, and whether beside the item's own name."""


class _SameSize(NamedTuple):
    """Where the amounts of one size are said, seen from an item."""

    said: Counter[_Said]
    """How many there are of each sort."""
    at: Mapping[int, Sequence[_Said]]
    """Those that begin at a token."""


class BlockAmounts:
    """The amounts that may be doses of a block's items, worked out once for the block."""

    def __init__(self, heard: Heard, blocks: Sequence[OutlineBlock], block: OutlineBlock) -> None:
        self.heard, self.block = heard, block
        index = next((n for n, one in enumerate(blocks) if one is block), 0)
        self.number = {id(item): n for n, item in enumerate(block.items)}
        self.begin = blocks[0].items[0].first if blocks and blocks[0].items else 0
        """Where the first exercise of the session begins."""
        self.ahead = _told_before(blocks, index)
        """From where on what is said may open this block."""
        end = max(block.told, block.items[-1].end)
        amounts = [a for a in heard.amounts if dose_in(a) is not None and a.first < end]
        self.owners = _owners(heard, blocks, block, end)
        self.lists = _lists(amounts)
        opened = [a for a in amounts if a.first >= self.ahead]
        before = [a for a in amounts if a.first < min(self.begin, self.ahead) and not a.counted]
        self.amounts = [*opened, *before]
        self.timed = sum(_unit(a) == "time" and not a.counted for a in opened)
        self.said = Counter(dose_key(a) for a in opened if not a.counted)
        self.sizes: dict[Size, list[SpokenAmount]] = {}
        for amount in self.amounts:
            if not amount.counted:
                self.sizes.setdefault(dose_key(amount), []).append(amount)
        self._same: dict[tuple[int, Size], _SameSize] = {}
        told = sum(any(_is_own(item, a) for a in opened) for item in block.items)
        self.of_own = "of most" if told > _MOST_HAVE * len(block.items) else "of some" if told else "of none"
        talk = (token.text for token in heard.tokens[self.ahead : block.told])
        self.intervals = INTERVALS in phrases_said("format_words", talk)

    def candidates(self, item: OutlineItem) -> list[PossibleAmount]:
        """The doses that may be the item's, each once."""
        own = sorted(a.first for a in self.amounts if item.first <= a.first < item.end and not a.counted)
        out = []
        for amount in self.amounts:
            where = self._where(item, amount)
            if amount.counted and where != "own":
                continue
            for reading in _readings(self.heard, item, amount):
                out.append(PossibleAmount(reading, list(self._features(item, reading, where, own))))
        return out

    def _where(self, item: OutlineItem, amount: SpokenAmount) -> str:
        """Where an amount is said, seen from an item."""
        block, at = self.block, amount.first
        if item.first <= at < item.told:
            return "own"
        if item.first <= at < item.end:
            return "own recap"
        if at < self.ahead or at < self.begin:
            return "session"
        if at < block.first:
            return "ahead"
        if at < block.items[0].first:
            return "head"
        if at >= block.items[-1].told:
            return "tail"
        if block.items[-1].first <= at:
            return "last"
        return "before" if at < item.first else "after"

    def _features(
        self, item: OutlineItem, amount: SpokenAmount, where: str, own: Sequence[int]
    ) -> Iterator[Feature]:
        heard = self.heard
        yield "bias", 1.0
        yield f"where {where}", 1.0
        yield f"{where} {amount.kind}", 1.0
        yield f"{where} {amount.form}", 1.0
        yield from _how(amount)
        yield from words_around(heard, amount, where)
        bound, gap = self.bound(item, amount)
        yield f"names {bound}", 1.0
        yield f"{where}, names {bound}", 1.0
        if gap is not None:
            yield f"own name {bisect_left(_OFF, gap)} words off", 1.0
        yield "kinds of numbers", math.log1p(len(self.said))
        yield from self._again(item, amount, where)
        # What tells of a dose for the whole block: few exercises have one of their own.
        yield f"{where} {_unit(amount)}, own doses {self.of_own}", 1.0
        if where in _OPENING and self.intervals:
            yield f"{where} {_unit(amount)}, intervals", 1.0
        place, length = self.lists.get(amount.first, (0, 0))
        if length > 1 and length == len(self.block.items):
            right = place == self.number[id(item)]
            yield "its place in a list" if right else "another's place in a list", 1.0
        if amount.form == "as time":
            yield "as time, times said", math.log1p(self.timed)
            yield from _held(heard, item)
        elif amount.form == "bare":
            yield "bare, times said", math.log1p(self.timed)
        if where != "own":
            if not own:
                yield f"{where}, none of its own", 1.0
            return
        yield f"own number {min(bisect_left(own, amount.first), 3)} of {min(len(own), 4)}", 1.0
        yield "last of own", float(bisect_right(own, amount.first) == len(own))
        yield "alone", float(len(own) == 1)
        yield "words after start", math.log1p(amount.first - item.first)
        passed = (amount.first - item.first) / max(1, item.end - item.first)
        yield f"{min(3, int(4 * passed))}/4 of its talk", 1.0  # quarters; its very end is in the last one
        yield f"{min(3, int(4 * passed))}/4 {_unit(amount)}", 1.0

    def _again(self, item: OutlineItem, amount: SpokenAmount, where: str) -> Iterator[Feature]:
        """Where else the same is said: again in a recap it is surer, of another exercise less so."""
        same = self._same_size(item, dose_key(amount))
        this = Counter(same.at.get(amount.first, ()))
        others = same.said - this
        yield "said again", float(bool(others))
        for place in dict.fromkeys(place for place, _ in others):
            yield f"said again {place}", 1.0
            yield f"{where}, said again {place}", 1.0
        yield "said again with its name", float(any(named for _, named in others))

    def _same_size(self, item: OutlineItem, size: Size) -> "_SameSize":
        """Where the amounts of a size are said, worked out once, for long talk may repeat a number
        thousands of times."""
        known = self._same.get((id(item), size))
        if known is None:
            at: dict[int, list[_Said]] = {}
            for a in self.sizes.get(size, ()):
                named = "own" in self.bound(item, a)[0].split()[:2]
                at.setdefault(a.first, []).append((self._where(item, a), named))
            known = self._same[id(item), size] = _SameSize(Counter(chain.from_iterable(at.values())), at)
        return known

    def bound(self, item: OutlineItem, amount: SpokenAmount) -> tuple[str, int | None]:
        """Whose names stand before and behind an amount, which of both comes first in the sentence, and how
        many words lie between the amount and the item's own name.

        In "heels twelve, wall ten" a number follows its name, in "twelve heels and ten of the wall" it
        precedes it; the beginning of the sentence tells which.
        """
        tokens, owners = self.heard.tokens, self.owners
        gap: int | None = None
        before = after = "none"
        for index in range(amount.first - 1, max(-1, amount.first - _NEAR_NAME), -1):
            if tokens[index].value is not None or tokens[index + 1].break_before >= SENTENCE:
                break
            if index in owners:
                before = "own" if owners[index] == item.exercise else "other"
                gap = amount.first - index if before == "own" else None
                break
        for index in range(amount.last + 1, min(len(tokens), amount.last + _NEAR_NAME)):
            if tokens[index].value is not None or tokens[index].break_before >= SENTENCE:
                break
            if index in owners:
                after = "own" if owners[index] == item.exercise else "other"
                if after == "own":
                    gap = min(index - amount.last, gap or _NEAR_NAME)
                break
        first, _ = sentence_around(tokens, amount.first, amount.first, _SENTENCE, 0)
        opens = next(
            (i for i in range(first, amount.first + 1) if i in owners or tokens[i].value is not None),
            amount.first,
        )
        return f"{before} {after} {'names first' if opens in owners else 'numbers first'}", gap


_OPENING = ("session", "ahead", "head", "tail")
"""Where what holds for a whole block is said."""


def _is_own(item: OutlineItem, amount: SpokenAmount) -> bool:
    """Whether an amount that is likely a dose is said while an exercise is shown."""
    # A bare number up to four is as likely one of sets, or counts something else (our choice).
    large = amount.form != "bare" or amount.sided or (amount.dose is not None and amount.dose.high > 4)
    return large and not amount.counted and item.first <= amount.first < item.told


def _told_before(blocks: Sequence[OutlineBlock], index: int) -> int:
    """The token from which on talk may belong to a block: behind the turn of the one before it, or behind
    the start of that one's last exercise.
    """
    if not index:
        return 0
    before = blocks[index - 1]
    return before.turn if before.turn is not None else before.items[-1].first


def _owners(
    heard: Heard, blocks: Sequence[OutlineBlock], block: OutlineBlock, end: int
) -> dict[int, str | None]:
    """The tokens up to ``end`` that are words of a name, with the exercise whose name it is.

    A word of one exercise of the block only is its; what names another exercise of the session is another's.
    """
    words: dict[str, set[str]] = {}
    own = {item.exercise for item in block.items if item.exercise}
    for exercise in own:
        card = heard.library.cards.get(exercise)
        for word in card.attributes[0] if card else ():
            words.setdefault(word, set()).add(exercise)
    owners: dict[int, str | None] = {}
    for mention in heard.mentions:
        if mention.cover >= WHOLE and mention.best and mention.first < end:
            for index in range(mention.first, mention.last + 1):
                owners[index] = mention.exercise if mention.exercise in own else None
    for index in range(end if end <= len(heard.stems) else len(heard.stems)):
        exercises = words.get(heard.stems[index], ())
        if len(exercises) == 1 and heard.tokens[index].value is None and index not in owners:
            owners[index] = next(iter(exercises))
    return owners


def _lists(amounts: Sequence[SpokenAmount]) -> dict[int, tuple[int, int]]:
    """For amounts that are listed their place in the list and its length, by first token."""
    out: dict[int, tuple[int, int]] = {}
    run: list[SpokenAmount] = []
    for amount in [*(a for a in amounts if not a.counted), None]:
        if run and (amount is None or amount.first - run[-1].last > _LISTED):
            out |= {one.first: (place, len(run)) for place, one in enumerate(run)}
            run = []
        if amount is not None:
            run.append(amount)
    return out


def _readings(heard: Heard, item: OutlineItem, amount: SpokenAmount) -> Iterator[SpokenAmount]:
    """What an amount may mean: a number alone may be seconds ("same again, twenty" of a stretch), and
    breaths where she speaks of them.
    """
    yield amount
    dose = amount.dose
    if dose is None or amount.form != "bare" or dose.kind != "count" or amount.counted:
        return
    if dose.low >= _LEAST_TIME and dose.high <= _MOST_TIME and dose.low % 5 == 0:
        yield replace(amount, dose=replace(dose, kind="time", unit="reps"), form="as time")
    near = heard.shapes[max(item.first, amount.first - _BREATHS) : amount.last + _BREATHS]
    if dose.high <= _BREATHS and word_list("breaths").intersection(near):
        yield replace(amount, dose=replace(dose, unit="breaths"), form="as breaths")


_BREATHS = 12
"""Words around a number within which breaths are spoken of; and more breaths are never told (our choice)."""


def _held(heard: Heard, item: OutlineItem) -> Iterator[Feature]:
    """What tells that an exercise goes by time."""
    exercise = heard.series.exercises.get(item.exercise or "")
    if exercise is not None:
        yield f"as time, pattern {exercise.pattern}", 1.0
    card = heard.library.cards.get(item.exercise or "")
    for word in card.attributes[0] if card else ():
        yield f"as time, name {word}", 1.0
    hold = word_list("held").intersection(heard.shapes[item.first : item.end])
    yield "as time, held", float(bool(hold))


def _how(amount: SpokenAmount) -> Iterator[Feature]:
    dose = dose_in(amount)
    if dose is None:
        return
    yield f"form {amount.form} {_unit(amount)}", 1.0
    yield f"kind {amount.kind}", 1.0
    yield "sided", float(amount.sided)
    yield "counted", float(amount.counted)
    yield "range", float(dose.low != dose.high)
    if dose.kind == "count":
        large = bisect_left(_SIZES, dose.high)
        yield f"size {large}", 1.0
        # Numbers of repetitions that trainers like (common practice, no source).
        yield "even", float(dose.high % 5 == 0 or dose.high in (6, 8, 12))
        if amount.form == "bare":
            yield f"bare size {min(3, large)}", 1.0
    elif dose.kind == "time":
        yield f"seconds {bisect_left(_SECONDS, dose.high)}", 1.0
