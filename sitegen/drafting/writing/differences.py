"""Where a plan and its recording differ, in words."""

from collections.abc import Iterator, Sequence

from sitegen.drafting.findings import FoundBlock, FoundItem
from sitegen.drafting.structure.plan_alignment import ShownBlock
from sitegen.drafting.structure.planned_session import PlannedBlock, PlannedItem
from sitegen.notation import Dose, format_clock

SURE, SHOWN = 0.85, 0.6
"""Confidence of a dose, and of sets and exercises, from which on a difference is worth a word."""


def differences_of(
    plan: Sequence[PlannedBlock], shown: Sequence[ShownBlock], session: Sequence[FoundBlock]
) -> Iterator[str]:
    """Doses and sets said otherwise, exercises left out, shown in another order, or shown without being
    planned.
    """
    for block, found in zip(plan, shown, strict=True):
        yield from _sets(block, found)
        for item, seen in zip(block.items, found.items, strict=True):
            if seen is None:
                yield _missing(item, session)
            elif differs(item.dose, seen):
                at = seen.dose_at if seen.dose_at is not None else seen.start
                yield f"{item.exercise}: planned {item.dose}, said {seen.dose} at {format_clock(at)}"
    yield from _unplanned(plan, session)


def differs(planned: Dose | None, seen: FoundItem) -> bool:
    """Whether a dose is said that is surely another one than planned."""
    if planned is None or seen.dose is None or seen.dose_confidence < SURE:
        return False
    # Neither the split of a set is compared nor what is left in reserve.
    said, meant = ((dose.kind, dose.low, dose.high, dose.per_side) for dose in (seen.dose, planned))
    return said != meant


def _sets(block: PlannedBlock, found: ShownBlock) -> Iterator[str]:
    seen = found.block
    told = seen and seen.sets and seen.sets_confidence >= SHOWN
    if seen and told and block.own_items and block.sets and seen.sets != block.sets:
        at = seen.sets_at if seen.sets_at is not None else seen.start
        yield f"{block.name}: planned {block.sets} sets, said {seen.sets} at {format_clock(at)}"


def _missing(item: PlannedItem, session: Sequence[FoundBlock]) -> str:
    shown = (i for block in session for i in block.items if i.exercise == item.exercise)
    elsewhere = next((i for i in shown if i.confidence >= SHOWN), None)
    if elsewhere:
        return f"{item.exercise}: shown at {format_clock(elsewhere.start)}, in another order than planned"
    return f"{item.exercise}: planned, but not found in the recording"


def _unplanned(plan: Sequence[PlannedBlock], session: Sequence[FoundBlock]) -> Iterator[str]:
    planned = {item.exercise for block in plan for item in block.items}
    for item in (item for block in session for item in block.items):
        name = item.exercise or repr(item.heard)
        if item.exercise not in planned and item.confidence >= SHOWN:
            yield f"{name}: shown at {format_clock(item.start)}, but not planned"
