"""What is asked about an exercise however likely it is, for what is wrong here can hurt somebody."""

from collections.abc import Sequence

from sitegen.drafting.findings import FoundBlock, FoundItem
from sitegen.drafting.structure.session import DOSE_BOUND
from sitegen.model import Series

_HURTING = ("jumping", "stairs and steps", "getting to the floor")
"""Demands that frail people are hurt by most; one that nothing else of a block makes is likely a mistake."""


def doubt_about(series: Series, blocks: Sequence[FoundBlock], block: FoundBlock, item: FoundItem) -> str:
    """Why it is asked whether an exercise of the library is shown; empty where nothing but its probability
    decides.
    """
    if item.ruled_out:
        return f"she says “… {item.ruled_out} …”"
    if not item.heard:
        return "it is described, not named"
    if item.plain and item.dose_confidence >= DOSE_BOUND:
        return ""
    # One plainly named is asked about only where nothing in the whole session makes its demand.
    group = [one for each in blocks for one in each.items] if item.plain else block.items
    others = {demand for one in group if one is not item for demand in _demands(series, one)}
    own = next((d for d in _HURTING if d in _demands(series, item) and d not in others), "")
    return own and f"nothing else {'in this session' if item.plain else 'in this block'} asks for {own}"


def _demands(series: Series, item: FoundItem) -> tuple[str, ...]:
    exercise = series.exercises.get(item.exercise or "")
    return exercise.demands if exercise else ()
