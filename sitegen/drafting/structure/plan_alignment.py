"""Laying a planned session over a recording.

The planned exercises, in their order, are laid over the stretches so that the sum of the scores is the
largest (dynamic programming, as for a session that is not known; here only the next planned exercise
may follow). A planned exercise that no stretch speaks for is passed over.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.drafting.findings import FoundBlock, FoundItem
from sitegen.drafting.heard import Heard
from sitegen.drafting.structure.acts import acts_of
from sitegen.drafting.structure.arcs import places_of, spans_of, talk_features
from sitegen.drafting.structure.blocks import place_blocks
from sitegen.drafting.structure.outline import OutlineBlock, OutlineItem
from sitegen.drafting.structure.planned_session import PlannedBlock, PlannedItem
from sitegen.drafting.structure.session import described, outline_item
from sitegen.drafting.structure.stretches import Lattice, lattice_of, talk_instead
from sitegen.notation import Dose

_PLANNED = 5.0
"""What it adds to an exercise's score that it is planned here: in a recording of the plan nearly every
planned exercise is shown, whatever little is said of it.
"""

_DOSED = 1.5
"""What it adds that the planned dose is said in the stretch."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownBlock:
    """What the recording shows of one planned block."""

    block: FoundBlock | None
    """None where nothing of it was found."""
    items: tuple[FoundItem | None, ...]
    """For each planned item."""


def shown_of(heard: Heard, plan: Sequence[PlannedBlock]) -> list[ShownBlock]:
    """For each block of a plan what the recording shows of it."""
    planned = [(b, i) for b, block in enumerate(plan) for i in range(len(block.items))]
    chosen = _laid(heard, plan, planned)
    outline = _outline(heard, plan, planned, chosen)
    found = iter(described(heard, [block for block in outline if block is not None]))
    doses = {n: plan[b].items[i].dose for n, (b, i) in enumerate(planned)}
    out = []
    for b, block in enumerate(outline):
        seen = next(found) if block is not None else None
        items = iter(seen.items if seen else ())
        rows: list[FoundItem | None] = []
        for n in (n for n, at in enumerate(planned) if at[0] == b):
            place = chosen[n]
            rows.append(next(items) if place is not None else None)
            if (row := rows[-1]) is not None and place is not None:
                _take_planned_dose(heard, place, doses[n], row)
        out.append(ShownBlock(block=seen, items=tuple(rows)))
    return out


_SAID = 0.9
"""How sure such a dose is: it is planned, and heard in the right place (our choice)."""


def _take_planned_dose(heard: Heard, place: OutlineItem, dose: Dose | None, row: FoundItem) -> None:
    """Where the planned dose is said while its exercise is shown, it is the dose, whatever else is said."""
    for amount in heard.amounts:
        said = amount.dose
        if dose is None or said is None or not place.first <= amount.first < place.end:
            continue
        if (said.kind, said.low, said.high) == (dose.kind, dose.low, dose.high):
            row.dose, row.dose_at, row.dose_confidence = dose, heard.time(amount.first), _SAID
            return


def _laid(
    heard: Heard, plan: Sequence[PlannedBlock], planned: Sequence[tuple[int, int]]
) -> list[OutlineItem | None]:
    """For each planned item the stretch that shows it; None where none does."""
    wanted = [plan[b].items[i] for b, i in planned]
    if not heard.passages or not wanted:
        return [None] * len(wanted)
    acts, places = acts_of(heard), places_of(heard)
    labels = frozenset(item.exercise for item in wanted)
    talk = talk_features(heard, acts, places)
    lattice = lattice_of(spans_of(heard, acts, places, labels), talk, heard.model)
    gains = [arc.score - talk_instead(lattice, arc) + _PLANNED for arc in lattice.arcs]
    paths = _best(lattice, gains, [item.exercise for item in wanted], _dose_bonus(heard, lattice, wanted))
    # Half as steep as the score, which counts the same words several times (our choice).
    sure = [min(0.97, 1 / (1 + math.exp((_PLANNED - gain) / 2))) for gain in gains]
    return [None if n is None else outline_item(heard, lattice.arcs[n], sure[n]) for n in paths]


def _dose_bonus(
    heard: Heard, lattice: Lattice, wanted: Sequence[PlannedItem]
) -> dict[tuple[int, int], float]:
    """What the planned dose of an item adds to an arc in which it is said, by item and arc."""
    said: dict[tuple[int, int], list[int]] = {}
    for amount in heard.amounts:
        if amount.dose is not None and not amount.counted:
            said.setdefault((amount.dose.low, amount.dose.high), []).append(amount.first)
    bonus: dict[tuple[int, int], float] = {}
    for k, item in enumerate(wanted):
        dose = item.dose
        places = said.get((dose.low, dose.high), []) if dose is not None else []
        for n, arc in enumerate(lattice.arcs):
            if arc.label == item.exercise and places:
                first, last = heard.passages[arc.first].first, heard.passages[arc.end - 1].last
                if any(first <= place <= last for place in places):
                    bonus[k, n] = _DOSED
    return bonus


def _best(
    lattice: Lattice, gains: Sequence[float], labels: Sequence[str], bonus: dict[tuple[int, int], float]
) -> list[int | None]:
    """The arcs of the planned items, in order, with the largest sum of gains."""
    n = len(lattice.talk)
    by_label: dict[str, list[list[int]]] = {label: [[] for _ in range(n + 1)] for label in labels}
    for number, arc in enumerate(lattice.arcs):
        if arc.label in by_label:
            by_label[arc.label][arc.end].append(number)
    best = [[0.0] * (n + 1)]
    taken: list[list[int | None]] = []
    for k, label in enumerate(labels):
        row = [best[-1][0]] + [0.0] * n
        took: list[int | None] = [None] * (n + 1)
        for end in range(1, n + 1):
            row[end] = max(row[end - 1], best[-1][end])
            for number in by_label[label][end]:
                gain = best[-1][lattice.arcs[number].first] + gains[number] + bonus.get((k, number), 0.0)
                if gain > row[end]:
                    row[end], took[end] = gain, number
        best.append(row)
        taken.append(took)
    chosen: list[int | None] = []
    k, end = len(labels), n
    while k > 0:
        arc_number = taken[k - 1][end]
        if arc_number is not None:
            chosen.append(arc_number)
            k, end = k - 1, lattice.arcs[arc_number].first
        elif best[k][end] == best[k - 1][end]:
            chosen.append(None)
            k -= 1
        else:
            end -= 1
    return chosen[::-1]


def _outline(
    heard: Heard,
    plan: Sequence[PlannedBlock],
    planned: Sequence[tuple[int, int]],
    chosen: Sequence[OutlineItem | None],
) -> list[OutlineBlock | None]:
    """The outline of the planned blocks of which something was found."""
    items: list[list[OutlineItem]] = [[] for _ in plan]
    for (b, _), item in zip(planned, chosen, strict=True):
        if item is not None:
            items[b].append(item)
    outline = [
        OutlineBlock(first=some[0].first, end=len(heard.tokens), items=some) if some else None
        for some in items
    ]
    place_blocks(heard, acts_of(heard), [block for block in outline if block is not None])
    return outline
