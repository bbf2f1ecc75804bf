"""Which of the amounts said is the dose of an item, and which the number of sets of a block.

Every amount near an item is a candidate; a learned table (``data/amounts.tsv``) scores each by where it
is said, how, and between which words. The dose is the likeliest one, its probability the confidence.
"""

import math
from bisect import bisect_left
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from sitegen.drafting.amounts import spoken
from sitegen.drafting.amounts.spoken import Amount
from sitegen.drafting.heard import Heard
from sitegen.drafting.structure.outline import OutlineBlock, OutlineItem
from sitegen.drafting.tables import word_list
from sitegen.notation import Dose

DOSE, SIDES, SETS = "dose", "sides", "sets"
"""The tables."""

Feature = tuple[str, float]
_SIZES, _SECONDS = (1, 3, 5, 30), (4, 9, 90)
"""Bounds between numbers and times that are doses seldom or often."""

_AROUND, _FAR = 4, 10
_NEAR_NAME = 9
"""Words between an amount and the name that it goes with."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """An amount that may be meant, with what is seen of it."""

    amount: Amount
    features: list[Feature]


@dataclass(frozen=True, slots=True)
class Chosen:
    """A dose with its probability and the token at which it is said."""

    dose: Dose
    confidence: float
    first: int


def probability(score: float) -> float:
    """Log-odds as a probability."""
    return 1 / (1 + math.exp(-max(-30.0, min(30.0, score))))


# -- doses


def dose_candidates(
    heard: Heard, blocks: Sequence[OutlineBlock], block: OutlineBlock, item: OutlineItem
) -> list[Candidate]:
    """The amounts that may be an item's dose: all of its block, and those said before the first block."""
    begin = blocks[0].items[0].first if blocks and blocks[0].items else 0
    amounts = [a for a in heard.amounts if a.kind in (spoken.DOSE, spoken.WORK)]
    within = [a for a in amounts if block.first <= a.first < max(block.told, item.end)]
    own = [a for a in within if item.first <= a.first < item.end and not a.counted]
    timed = sum(_unit(a) == "time" and not a.counted for a in within)
    within += [as_time for a in within if (as_time := _as_time(a)) is not None]
    within += [a for a in amounts if a.first < min(begin, block.first) and not a.counted]
    said = Counter(_key(a) for a in within if not a.counted)
    owners = _owners(heard, block)
    lists = _lists(within)
    number = next(n for n, one in enumerate(block.items) if one is item)
    out = []
    for amount in within:
        where = _where(block, item, amount)
        if amount.counted and where != "own":
            continue
        bound = _bound(heard, owners, item, amount)
        features: list[Feature] = [("bias", 1.0), (f"where {where}", 1.0), (f"{where} {amount.kind}", 1.0)]
        features += [*_how(amount), *_words_around(heard, amount, where)]
        features += [
            (f"{where} {amount.form}", 1.0),
            (f"names {bound}", 1.0),
            (f"{where}, names {bound}", 1.0),
            ("said again", float(said[_key(amount)] > 1)),
            ("kinds of numbers", math.log1p(len(said))),
        ]
        place, length = lists.get(amount.first, (0, 0))
        if length > 1 and length == len(block.items):
            features.append(("its place in a list" if place == number else "another's place in a list", 1.0))
        if amount.form == "as time":
            features += [("as time, times said", math.log1p(timed)), *_held(heard, item)]
        elif amount.form == "bare":
            features += [("bare, times said", math.log1p(timed))]
        if where == "own" and amount in own:
            order = own.index(amount)
            features.append((f"own number {min(order, 3)} of {min(len(own), 4)}", 1.0))
            features += [("last of own", float(order == len(own) - 1)), ("alone", float(len(own) == 1))]
            features.append(("words after start", math.log1p(amount.first - item.first)))
            passed = (amount.first - item.first) / max(1, item.end - item.first)
            features.append((f"{min(3, int(4 * passed))}/4 of its talk", 1.0))
            features.append((f"{min(3, int(4 * passed))}/4 {_unit(amount)}", 1.0))
        elif not own:
            features.append((f"{where}, none of its own", 1.0))
        out.append(Candidate(amount, features))
    return out


_LISTED = 6
"""Words between two amounts that are listed one behind the other: "squats fifteen, split squats ten"."""


def _lists(amounts: Sequence[Amount]) -> dict[int, tuple[int, int]]:
    """For amounts that are listed their place in the list and its length, by first token."""
    out: dict[int, tuple[int, int]] = {}
    run: list[Amount] = []
    spoken_once = {a.first: a for a in amounts if not a.counted and a.form != "as time"}
    for amount in [*(spoken_once[first] for first in sorted(spoken_once)), None]:
        if run and (amount is None or amount.first - run[-1].last > _LISTED):
            out |= {one.first: (place, len(run)) for place, one in enumerate(run)}
            run = []
        if amount is not None:
            run.append(amount)
    return out


def _unit(amount: Amount) -> str:
    dose = dose_in(amount)
    return "" if dose is None else dose.unit if dose.kind == "count" else dose.kind


_LEAST_TIME = 10


def _as_time(amount: Amount) -> Amount | None:
    """A number alone read as seconds: "same again, twenty" of a stretch."""
    dose = amount.dose
    bare = amount.form == "bare" and dose is not None and dose.kind == "count" and not amount.counted
    if dose is None or not bare or dose.low < _LEAST_TIME or dose.low % 5 or dose.high > 120:
        return None
    return replace(amount, dose=replace(dose, kind="time", unit="reps"), form="as time")


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


def _owners(heard: Heard, block: OutlineBlock) -> dict[int, str]:
    """The tokens that are words of a name of just one exercise of the block, with that exercise."""
    words: dict[str, set[str]] = {}
    for item in block.items:
        card = heard.library.cards.get(item.exercise or "")
        for word in card.attributes[0] if card else ():
            words.setdefault(word, set()).add(item.exercise or "")
    owners = {}
    for index in range(block.first, min(len(heard.tokens), max(block.told, block.items[-1].end))):
        exercises = words.get(heard.stems[index], set())
        if len(exercises) == 1 and heard.tokens[index].value is None:
            owners[index] = next(iter(exercises))
    return owners


def _bound(heard: Heard, owners: dict[int, str], item: OutlineItem, amount: Amount) -> str:
    """Whose names stand before and behind an amount, and which of both comes first in the sentence.

    In "heels twelve, wall ten" a number follows its name, in "twelve heels and ten of the wall" it
    precedes it; the beginning of the sentence tells which.
    """
    first = amount.first
    before = after = "none"
    for index in range(amount.first - 1, max(-1, amount.first - _NEAR_NAME), -1):
        if heard.tokens[index].value is not None or heard.tokens[index + 1].break_before >= 2:
            break
        if index in owners:
            before = "own" if owners[index] == item.exercise else "other"
            break
    for index in range(amount.last + 1, min(len(heard.tokens), amount.last + _NEAR_NAME)):
        if heard.tokens[index].value is not None or heard.tokens[index].break_before >= 2:
            break
        if index in owners:
            after = "own" if owners[index] == item.exercise else "other"
            break
    while first > max(0, amount.first - 30) and heard.tokens[first].break_before < 2:
        first -= 1
    opens = next(
        (i for i in range(first, amount.first + 1) if i in owners or heard.tokens[i].value is not None),
        amount.first,
    )
    return f"{before} {after} {'names first' if opens in owners else 'numbers first'}"


def _where(block: OutlineBlock, item: OutlineItem, amount: Amount) -> str:
    """Where an amount is said, seen from an item."""
    if item.first <= amount.first < item.told:
        return "own"
    if item.first <= amount.first < item.end:
        return "own recap"
    if amount.first < block.first:
        return "session"
    if amount.first < block.items[0].first:
        return "head"
    if amount.first >= block.items[-1].told:
        return "tail"
    return (
        "last"
        if block.items[-1].first <= amount.first
        else "before"
        if amount.first < item.first
        else "after"
    )


def _key(amount: Amount) -> tuple[str, int, int, str]:
    dose = dose_in(amount)
    return (dose.kind, dose.low, dose.high, dose.unit) if dose else ("", 0, 0, "")


def dose_in(amount: Amount) -> Dose | None:
    """The dose that an amount gives: a work time is one too."""
    if amount.kind == spoken.WORK and amount.length is not None:
        return Dose(kind="time", low=amount.length.low, high=amount.length.high)
    return amount.dose


def _how(amount: Amount) -> Iterator[Feature]:
    dose = dose_in(amount)
    if dose is None:
        return
    unit = dose.kind if dose.kind != "count" else dose.unit
    yield f"form {amount.form} {unit}", 1.0
    yield f"kind {amount.kind}", 1.0
    yield "sided", float(amount.sided)
    yield "counted", float(amount.counted)
    yield "range", float(dose.low != dose.high)
    if dose.kind == "count":
        size = bisect_left(_SIZES, dose.high)
        yield f"size {size}", 1.0
        yield "even", float(dose.high % 5 == 0 or dose.high in (6, 8, 12))
        if amount.form == "bare":
            yield f"bare size {min(3, size)}", 1.0
    elif dose.kind == "time":
        yield f"seconds {bisect_left(_SECONDS, dose.high)}", 1.0


def _words_around(heard: Heard, amount: Amount, where: str) -> Iterator[Feature]:
    """The words before and behind an amount, in its sentence."""
    tokens, shapes = heard.tokens, heard.shapes
    first = amount.first
    while first > max(0, amount.first - _AROUND) and tokens[first].break_before < 2:
        first -= 1
    last = amount.last
    while last + 1 < min(len(tokens), amount.last + 1 + _AROUND) and tokens[last + 1].break_before < 2:
        last += 1
    before, after = shapes[first : amount.first], shapes[amount.last + 1 : last + 1]
    for word in dict.fromkeys(before):
        yield f"before {word}", 1.0
    for word in dict.fromkeys(after):
        yield f"after {word}", 1.0
    yield f"next before {before[-1] if before else '|'}", 1.0
    yield f"next after {after[0] if after else '|'}", 1.0
    if not before and not after:
        yield f"alone in its sentence {where}", 1.0
    back = heard.shapes[max(0, amount.first - _FAR) : amount.first]
    ahead = heard.shapes[amount.last + 1 : amount.last + 1 + _FAR]
    yield "taken back", float(bool(word_list("taken_back").intersection(ahead[:3])))
    yield "corrects", float(bool(word_list("corrects").intersection(back[-5:])))
    yield "another time", float(bool(word_list("another_time").intersection([*back, *ahead])))
    yield "of somebody", float(bool(word_list("somebody").intersection([*back[-6:], *ahead[:4]])))
    around = {*before, *after}
    if around & word_list("everything"):
        yield f"of everything {where}", 1.0


def choose_dose(
    heard: Heard, blocks: Sequence[OutlineBlock], block: OutlineBlock, item: OutlineItem
) -> Chosen | None:
    """The likeliest dose of an item; None where nothing is said that may be one."""
    found = _choose(heard, DOSE, dose_candidates(heard, blocks, block, item), _key)
    if found is None:
        return None
    best, confidence = found
    dose = dose_in(best)
    if dose is None:
        return None
    if not best.sided and dose.kind != "max" and not dose.parts:
        sided = probability(heard.model[SIDES].score(side_features(heard, item, best)))
        dose = replace(dose, per_side=sided > 0.5)
        confidence *= max(sided, 1 - sided)
    return Chosen(dose, confidence, best.first)


def _choose(
    heard: Heard, table: str, candidates: Sequence[Candidate], key: Callable[[Amount], object]
) -> tuple[Amount, float] | None:
    """The likeliest of some candidates, those with the same ``key`` taken together, with its probability.

    A conditional logit: the probabilities of all candidates, and that none is meant, add up to 1.
    """
    odds = [math.exp(min(30.0, heard.model[table].score(c.features))) for c in candidates]
    if not odds:
        return None
    totals: dict[object, float] = {}
    for candidate, value in zip(candidates, odds, strict=True):
        totals[key(candidate.amount)] = totals.get(key(candidate.amount), 0.0) + value
    likeliest = max(totals, key=lambda k: totals[k])
    same = [n for n, c in enumerate(candidates) if key(c.amount) == likeliest]
    best = candidates[max(same, key=lambda n: odds[n])]
    return best.amount, totals[likeliest] / (1 + sum(odds))


def side_features(heard: Heard, item: OutlineItem, amount: Amount) -> list[Feature]:
    """What tells that a dose without a side is one for each side: "and the other leg"."""
    out: list[Feature] = [("bias", 1.0)]
    words = heard.shapes[item.first : item.end]
    for word in dict.fromkeys(words):
        out.append((f"says {word}", 1.0))
    sides, other = word_list("sides"), word_list("other_side")
    changes = sum(a in other and b in sides for a, b in pairwise(words))
    out.append(("changes sides", math.log1p(changes)))
    card = heard.library.cards.get(item.exercise or "")
    if card:
        for word in card.attributes[0]:
            out.append((f"name {word}", 1.0))
    dose = dose_in(amount)
    if dose:
        out.append((f"unit {dose.kind} {dose.unit}", 1.0))
        out.append((f"form {amount.form}", 1.0))
    after = heard.shapes[amount.last + 1 : amount.last + 5]
    out.append(("on a side", 2 * float(bool(sides.intersection(after)))))
    before = heard.shapes[max(item.first, amount.first - 5) : amount.first]
    out.append(("on a side before", float(bool(sides.intersection(before)))))
    out.extend((f"after {word}", 1.0) for word in dict.fromkeys(after))
    return out


# -- sets


def set_candidates(heard: Heard, blocks: Sequence[OutlineBlock], block: OutlineBlock) -> list[Candidate]:
    """The amounts that may be the number of sets of a block."""
    begin = blocks[0].items[0].first if blocks and blocks[0].items else 0
    index = next(i for i, b in enumerate(blocks) if b is block)
    previous = blocks[index - 1].told if index else 0
    after_turn = min(block.end, block.told + 12)
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
        form = f"{amount.word or 'bare'} {where}"
        features: list[Feature] = [
            ("bias", 1.0),
            (f"where {where}", 1.0),
            (form, 1.0),
            (f"form {amount.form}", 1.0),
        ]
        features += _words_around(heard, amount, where)
        features += [
            ("said again", float(said[set_count(amount)] > 1)),
            ("other numbers", math.log1p(max(0, len(said) - 1))),
            (f"number {min(6, set_count(amount)[0])}", 1.0),
            ("has a turn", float(block.turn is not None)),
            ("one item", float(len(block.items) == 1)),
        ]
        out.append(Candidate(amount, features))
    return out


def _perhaps_sets(heard: Heard, amount: Amount) -> bool:
    """A small bare number with "times" behind it: "do that three times"."""
    dose = amount.dose
    return (
        amount.kind == spoken.DOSE
        and dose is not None
        and dose.kind == "count"
        and dose.high <= 5
        and not amount.counted
        and heard.tokens[amount.last].text == "times"
    )


def set_count(amount: Amount) -> tuple[int, int]:
    """Fewest and most sets that an amount gives."""
    if amount.count is not None:
        return amount.count.low, amount.count.high
    return (amount.dose.low, amount.dose.high) if amount.dose else (1, 1)


def choose_sets(
    heard: Heard, blocks: Sequence[OutlineBlock], block: OutlineBlock
) -> tuple[Amount, float] | None:
    """The likeliest number of sets of a block, with its probability."""
    return _choose(heard, SETS, set_candidates(heard, blocks, block), set_count)
