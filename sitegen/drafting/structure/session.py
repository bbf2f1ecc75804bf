"""From what is heard to the blocks of a session: the stages put together."""

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.drafting.amounts import spoken
from sitegen.drafting.amounts.doses import BlockAmounts, choose_dose
from sitegen.drafting.amounts.sets import choose_sets, set_count
from sitegen.drafting.found import FoundBlock, FoundItem
from sitegen.drafting.heard import Heard
from sitegen.drafting.names.unknown import name_in
from sitegen.drafting.structure.acts import Acts, acts_of
from sitegen.drafting.structure.arcs import NEW, Arc, Places, arcs_of, places_of, talk_features
from sitegen.drafting.structure.blocks import blocks_of, format_of, kind_of
from sitegen.drafting.structure.outline import OutlineBlock, OutlineItem
from sitegen.drafting.structure.remarks import give_remarks
from sitegen.drafting.structure.stretches import best_arcs, lattice_of, probabilities
from sitegen.notation import Count
from sitegen.vocabulary import AMRAP, EMOM

ITEM_BOUND, DOSE_BOUND, SETS_BOUND = 0.6, 0.8, 0.6
"""Below these probabilities a finding is written as a question. A wrong dose or one set too many can hurt
somebody, so their bounds are high. Chosen on hands left out (``python -m tests.bench captions``).
"""

KIND_BOUND, TURN_BOUND, FORMAT_BOUND = 0.7, 0.5, 0.8
"""What is more likely wrong than right is asked, never written; of formats and kinds, on hands left out, a
tenth and more were wrong below these.
"""

_SAME_S = 10.0
"""Ways that let an exercise begin within so many seconds agree on where it is shown."""


@dataclass(frozen=True, slots=True)
class Shown:
    """The exercises found in a recording."""

    acts: Acts
    places: Places
    items: list[OutlineItem]


def shown_in(heard: Heard) -> Shown:
    """The exercises that are shown, by the best way to cut the recording into stretches."""
    acts, places = acts_of(heard), places_of(heard)
    if not heard.passages:
        return Shown(acts, places, [])
    lattice = lattice_of(arcs_of(heard, acts, places), talk_features(heard, acts, places), heard.model)
    likely = probabilities(lattice)
    by_label: dict[str, list[tuple[float, float]]] = {}
    for arc, probability in zip(lattice.arcs, likely, strict=True):
        by_label.setdefault(arc.label, []).append((heard.passages[arc.first].start, probability))
    items = [_item_of(heard, lattice.arcs[n], by_label) for n in best_arcs(lattice)]
    return Shown(acts, places, items)


def _item_of(heard: Heard, arc: Arc, by_label: dict[str, list[tuple[float, float]]]) -> OutlineItem:
    """The item of an arc; its confidence is the probability that its exercise begins near."""
    start = heard.passages[arc.first].start
    # Arcs come in the order of their starts.
    others = by_label[arc.label]
    low, high = (bisect_left(others, (start + by,)) for by in (-_SAME_S, _SAME_S + 1e-6))
    near = (likely for _, likely in others[low:high])
    end = heard.passages[arc.end].first if arc.end < len(heard.passages) else len(heard.tokens)
    return OutlineItem(
        exercise=arc.label if arc.label != NEW else None,
        first=heard.passages[arc.first].first,
        end=end,
        told=end,
        confidence=calibrated(heard, "item", min(1.0, sum(near))),
    )


def calibrated(heard: Heard, what: str, probability: float) -> float:
    """A probability as it was found to be right on recordings of other hands (Platt's scaling)."""
    table = heard.model["calibration"].weights
    odds = math.log(max(1e-4, probability) / max(1e-4, 1 - probability))
    value = table.get(f"{what}: bias", 0.0) + table.get(f"{what}: slope", 1.0) * odds
    # Nothing that is only heard is certain.
    return min(0.99, 1 / (1 + math.exp(-value)))


def session_of(heard: Heard) -> list[FoundBlock]:
    """The blocks of a recording of which nothing is known beforehand."""
    shown = shown_in(heard)
    if not shown.items:
        return []
    return described(heard, blocks_of(heard, shown.acts, shown.items))


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


def _sets(heard: Heard, outline: Sequence[OutlineBlock], block: OutlineBlock, found: FoundBlock) -> None:
    chosen = choose_sets(heard, outline, block)
    if chosen is None or found.format in (AMRAP, EMOM):
        return
    amount, confidence = chosen
    confidence = calibrated(heard, "sets", confidence)
    found.sets, found.sets_word = Count(*set_count(amount)), amount.word
    found.sets_at, found.sets_confidence = heard.time(amount.first), confidence


def _times(heard: Heard, outline: Sequence[OutlineBlock], block: OutlineBlock, found: FoundBlock) -> None:
    """Rests and work time said in a block, or once for the whole session."""
    first = outline[0].items[0].first
    for amount in heard.amounts:
        inside = block.first <= amount.first < max(block.told + 12, block.items[-1].end)
        if amount.length is None or not (inside or amount.first < first):
            continue
        if amount.kind == spoken.WORK:
            found.work = amount.length
        elif amount.kind == spoken.REST:
            words = heard.words(amount.first - 4, amount.last + 6).split()
            if {"sets", "set", "rounds", "round"} & set(words):
                found.rest_sets = amount.length
            elif inside:
                found.rest_exercises = found.rest_exercises or amount.length
    for amount in heard.amounts:
        dose = amount.dose
        if dose and dose.kind == "time" and dose.low >= 180 and block.first <= amount.first < block.told:
            found.time_said = found.time_said or (amount.first, dose.low)


def _item(heard: Heard, amounts: BlockAmounts, item: OutlineItem) -> FoundItem:
    mention = max(
        (m for m in heard.mentions if m.exercise == item.exercise and item.first <= m.first < item.end),
        key=lambda m: (round(m.cover, 1), -m.first),
        default=None,
    )
    if item.exercise is None:
        name, named = name_in(heard, item.first, item.told)
    elif mention is not None:
        name, named = heard.words(mention.first, mention.last), mention.first
    else:
        name, named = "", item.first
    out = FoundItem(
        exercise=item.exercise,
        variant=mention.variant if mention is not None else None,
        heard=name,
        start=heard.time(item.first),
        named_at=heard.time(named),
        confidence=item.confidence,
    )
    chosen = choose_dose(amounts, item)
    if chosen is not None:
        out.dose, out.dose_at = chosen.dose, heard.time(chosen.first)
        out.dose_confidence = calibrated(heard, "dose", chosen.confidence)
    return out
