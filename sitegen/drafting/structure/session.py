"""From what is heard to the blocks of a session: the stages put together."""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate

from sitegen.drafting.amounts import spoken
from sitegen.drafting.amounts.candidates import BlockAmounts
from sitegen.drafting.amounts.choice import likeliest
from sitegen.drafting.amounts.doses import choose_dose
from sitegen.drafting.amounts.sets import SETS, set_candidates, set_count
from sitegen.drafting.findings import FoundBlock, FoundItem
from sitegen.drafting.heard import WHOLE, Heard
from sitegen.drafting.learned_tables import probability
from sitegen.drafting.names.passing import PERHAPS_NOT, RULED_OUT, is_said, talk_around
from sitegen.drafting.names.unknown import name_in
from sitegen.drafting.structure.acts import TalkActs, acts_of
from sitegen.drafting.structure.arcs import NEW, places_of, spans_of, talk_features
from sitegen.drafting.structure.blocks import blocks_of, format_of, kind_of
from sitegen.drafting.structure.outline import OutlineBlock, OutlineItem
from sitegen.drafting.structure.remarks import give_remarks
from sitegen.drafting.structure.stretches import Arc, Lattice, best_arcs, lattice_of, probabilities
from sitegen.notation import Count
from sitegen.vocabulary import AMRAP, EMOM

ITEM_BOUND, DOSE_BOUND, SETS_BOUND = 0.6, 0.85, 0.65
"""Below these probabilities a finding is written as a question. A wrong dose or one set too many can hurt
somebody, so their bounds are high: of 411 doses in read recordings of hands left out 12 were wrong above 0.85
(3 in 100; 30 in 100 were right), 18 above 0.8; of numbers of sets above 0.65 nine in ten were right.
"""

KIND_BOUND, TURN_BOUND, FORMAT_BOUND = 0.7, 0.75, 0.75
"""On the same recordings 97 of 100 turns above 0.75 were right, with 0.5 86, while the turns told fell by a
tenth; of formats and kinds an eighth was wrong above these, and higher bounds helped little.
"""

_SAME_S = 10.0
"""Ways that let an exercise begin within so many seconds agree on where it is shown."""


@dataclass(frozen=True, slots=True)
class ExercisesShown:
    """The exercises found in a recording."""

    acts: TalkActs
    items: list[OutlineItem]
    missing: list[OutlineItem]
    """What may be exercises that the library lacks, beside the best way: these overlap with ``items``."""


def shown_in(heard: Heard, lattice: Lattice | None = None) -> ExercisesShown:
    """The exercises that are shown, by the best way to cut the recording into stretches.

    ``lattice`` holds the scores of all stretches, where they are known already.
    """
    acts = acts_of(heard)
    if not heard.passages:
        return ExercisesShown(acts, [], [])
    if lattice is None:
        places = places_of(heard)
        lattice = lattice_of(spans_of(heard, acts, places), talk_features(heard, acts, places), heard.model)
    likely = probabilities(lattice)
    by_label: dict[str, list[tuple[float, float]]] = {}
    for arc, value in zip(lattice.arcs, likely, strict=True):
        by_label.setdefault(arc.label, []).append((heard.passages[arc.first].start, value))
    items = [_item_of(heard, lattice.arcs[n], by_label) for n in best_arcs(lattice)]
    return ExercisesShown(acts, items, list(_missing(heard, lattice.arcs, likely, items)))


_PERHAPS_MISSING = 0.25
"""Probability from which on it is asked whether an exercise is shown that the library lacks. On hands left
out 14 of 20 such exercises began near a place so likely, and 36 other places were as likely.
"""

_LEAST_MASS = 0.02
"""Less likely places are not looked at."""

_APART_S = 25.0
"""Two exercises that the library lacks begin so many seconds apart."""


def _missing(
    heard: Heard, arcs: Sequence[Arc], likely: Sequence[float], items: Sequence[OutlineItem]
) -> Iterator[OutlineItem]:
    """The places where exercises that the library lacks likely begin, likeliest first.

    The best way hardly ever holds one: many ways do, each with another beginning or end, and none of them is
    likely by itself. So the probabilities of all ways are added up.
    """
    mass: dict[int, float] = {}
    ends: dict[int, tuple[float, int]] = {}
    for arc, value in zip(arcs, likely, strict=True):
        if arc.label == NEW:
            mass[arc.first] = mass.get(arc.first, 0.0) + value
            ends[arc.first] = max(ends.get(arc.first, (0.0, 0)), (value, arc.end))
    starts = {first: heard.passages[first].start for first in sorted(mass)}
    times, sums = [*starts.values()], [0.0, *accumulate(mass[first] for first in starts)]
    summed = {
        first: sums[bisect_right(times, at + _SAME_S)] - sums[bisect_left(times, at - _SAME_S)]
        for first, at in starts.items()
        if mass[first] > _LEAST_MASS
    }
    taken = [heard.time(item.first) for item in items if item.exercise is None]
    for first in sorted(summed, key=lambda place: (-summed[place], place)):
        if summed[first] < _PERHAPS_MISSING:
            return
        if all(abs(starts[first] - at) > _APART_S for at in taken):
            taken.append(starts[first])
            last = heard.passages[ends[first][1] - 1].last + 1
            yield OutlineItem(
                exercise=None,
                first=heard.passages[first].first,
                end=last,
                told=last,
                confidence=min(0.99, summed[first]),
            )


def _item_of(heard: Heard, arc: Arc, by_label: dict[str, list[tuple[float, float]]]) -> OutlineItem:
    """The item of an arc; its confidence is the probability that its exercise begins near."""
    start = heard.passages[arc.first].start
    # Arcs come in the order of their starts.
    others = by_label[arc.label]
    low, high = (bisect_left(others, (start + by,)) for by in (-_SAME_S, _SAME_S + 1e-6))
    near = (likely for _, likely in others[low:high])
    return outline_item(heard, arc, calibrated(heard, "item", min(1.0, sum(near))))


def outline_item(heard: Heard, arc: Arc, confidence: float) -> OutlineItem:
    """The item that an arc shows."""
    end = heard.passages[arc.end].first if arc.end < len(heard.passages) else len(heard.tokens)
    first = heard.passages[arc.first].first
    exercise = arc.label if arc.label != NEW else None
    return OutlineItem(exercise=exercise, first=first, end=end, told=end, confidence=confidence)


def calibrated(heard: Heard, what: str, likely: float) -> float:
    """A probability as it was found to be right on recordings of other hands (Platt's scaling)."""
    table = heard.model["calibration"].weights
    odds = math.log(max(1e-4, likely) / max(1e-4, 1 - likely))
    value = table.get(f"{what}: bias", 0.0) + table.get(f"{what}: slope", 1.0) * odds
    # Nothing that is only heard is certain.
    return min(0.99, probability(value))


_LEAST_ITEM = 0.35
"""Less likely exercises are listed as heard and not placed. On the own recordings none of these was right,
and one of the 55 exercises of another hand.
"""


def session_of(heard: Heard) -> list[FoundBlock]:
    """The blocks of a recording of which nothing is known beforehand, without what is unlikely."""
    blocks = all_found(heard)
    for block in blocks:
        likely = [one for one in block.items if one.exercise is None or one.confidence >= _LEAST_ITEM]
        if any(one.exercise for one in likely):
            block.unlikely = [one for one in block.items if one not in likely]
            block.items = likely
    return blocks


def all_found(heard: Heard, shown: ExercisesShown | None = None) -> list[FoundBlock]:
    """The blocks with all that was found, however unlikely; ``shown`` where it is known already."""
    shown = shown or shown_in(heard)
    if not shown.items:
        return []
    blocks = described(heard, blocks_of(heard, shown.acts, shown.items))
    for item in shown.missing:
        _add_missing(heard, item, blocks)
    return blocks


def _add_missing(heard: Heard, item: OutlineItem, blocks: Sequence[FoundBlock]) -> None:
    """Put what may be an exercise that the library lacks where it is shown."""
    at = heard.time(item.first)
    block = next((b for b in reversed(blocks) if b.start <= at), blocks[0])
    name, named = name_in(heard, item.first, item.told)
    found = FoundItem(
        exercise=None, heard=name, start=at, named_at=heard.time(named), confidence=item.confidence
    )
    block.items.append(found)
    block.items.sort(key=lambda one: one.start)


def described(heard: Heard, outline: Sequence[OutlineBlock]) -> list[FoundBlock]:
    """The blocks of an outline with kinds, formats, sets, doses, rests and remarks."""
    return [_block(heard, outline, block) for block in outline]


def _block(heard: Heard, outline: Sequence[OutlineBlock], block: OutlineBlock) -> FoundBlock:
    kind, likely = kind_of(heard, outline, block)
    found = FoundBlock(name="", kind=kind, start=heard.time(block.first))
    found.kind_confidence = calibrated(heard, "kind", likely)
    if block.turn is not None:
        found.your_turn = heard.tokens[block.turn - 1].end
        found.turn_confidence = calibrated(heard, "turn", block.turn_likely)
    _times(heard, outline, block, found)
    found.format, likely = format_of(heard, outline, block, work=found.work is not None)
    found.format_confidence = calibrated(heard, "format", likely)
    _sets(heard, outline, block, found)
    amounts = BlockAmounts(heard, outline, block)
    for item in block.items:
        found.items.append(_item(heard, amounts, item))
    give_remarks(heard, block, found)
    return found


def turn_is_told(block: FoundBlock) -> bool:
    """Whether a turn is sure enough to be written; else it is asked."""
    return block.your_turn is not None and block.turn_confidence >= TURN_BOUND


def _sets(heard: Heard, outline: Sequence[OutlineBlock], block: OutlineBlock, found: FoundBlock) -> None:
    chosen = likeliest(heard, SETS, set_candidates(heard, outline, block), set_count)
    if chosen is None or found.format in (AMRAP, EMOM):
        return
    amount, confidence = chosen
    found.sets, found.sets_at = Count(*set_count(amount)), heard.time(amount.first)
    found.sets_confidence = calibrated(heard, "sets", confidence)


_LONG_S, _BEHIND = 180, 12
"""A time of three minutes and more is that of a whole block; words behind its turn that still tell of it."""


def _times(heard: Heard, outline: Sequence[OutlineBlock], block: OutlineBlock, found: FoundBlock) -> None:
    """Rests and work time said in a block, or once for the whole session."""
    first = outline[0].items[0].first
    for amount in heard.amounts:
        inside = block.first <= amount.first < max(block.told + _BEHIND, block.items[-1].end)
        if amount.length is None or not (inside or amount.first < first):
            continue
        if amount.kind == spoken.WORK:
            found.work = amount.length
        elif amount.kind == spoken.REST:
            # Rests are told as "between sets rest a minute" and as "a minute of rest between rounds".
            words = heard.words(amount.first - 4, amount.last + 6).split()
            if {"sets", "set", "rounds", "round"} & set(words):
                found.rest_sets = amount.length
            elif inside:
                found.rest_exercises = found.rest_exercises or amount.length
    for amount in heard.amounts:
        dose = amount.dose
        if dose and dose.kind == "time" and dose.low >= _LONG_S and block.first <= amount.first < block.told:
            found.time_said = found.time_said or (amount.first, dose.low)


_TOLD = 9
"""Words on each side of a name that are quoted where it may be ruled out: as far off as that may be said."""


def _item(heard: Heard, amounts: BlockAmounts, item: OutlineItem) -> FoundItem:
    names = [m for m in heard.mentions if m.exercise == item.exercise and item.first <= m.first < item.end]
    mention = max(
        (m for m in names if not m.aside),
        key=lambda m: (round(m.cover, 1), -m.first),
        default=None,
    )
    if item.exercise is None:
        name, named = name_in(heard, item.first, item.told)
    elif mention is not None:
        name, named = heard.words(mention.first, mention.last), mention.first
    else:
        name, named = "", item.first
    whole = [m for m in names if m.best and m.cover >= WHOLE]
    ruled_out = next((m for m in whole if m.aside == RULED_OUT), None)
    if all(m.aside or is_said(PERHAPS_NOT, talk_around(heard.tokens, m.first, m.last)) for m in whole):
        ruled_out = next(iter(whole), None)
    out = FoundItem(
        exercise=item.exercise,
        variant=mention.variant if mention is not None else None,
        heard=name,
        start=heard.time(item.first),
        named_at=heard.time(named),
        confidence=item.confidence,
        plain=mention in whole,
        ruled_out=heard.words(ruled_out.first - _TOLD, ruled_out.last + _TOLD) if ruled_out else "",
    )
    chosen = choose_dose(amounts, item)
    if chosen is not None:
        out.dose, likely, said = chosen
        out.dose_at, out.dose_confidence = heard.time(said), calibrated(heard, "dose", likely)
    return out
