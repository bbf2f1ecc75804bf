"""The outline of a session: which tokens belong to which block and item.

Made from a recording by :mod:`sitegen.drafting.structure.session`, or from its truth when the weights of
kinds, formats, sets and doses are learned: these look at outlines only.
"""

from dataclasses import dataclass, field


@dataclass(slots=True, kw_only=True)
class OutlineItem:
    """One exercise shown, from token ``first`` up to ``end``."""

    exercise: str | None
    """Id in the library; None where the library lacks it."""
    first: int
    end: int
    """Where the next exercise, the viewer's turn or the next block begins."""
    told: int
    """Where its own talk ends: behind it there may be a recap of the block."""
    confidence: float = 1.0


@dataclass(slots=True, kw_only=True)
class OutlineBlock:
    """One part of the session, from token ``first`` up to ``end``."""

    first: int
    end: int
    turn: int | None = None
    """Token behind the words that hand over to the viewer."""
    turn_likely: float = 0.0
    """Probability of that turn, not yet put to scale."""
    items: list[OutlineItem] = field(default_factory=list)

    @property
    def told(self) -> int:
        """Where the block is told to the end: its turn, or its end."""
        return self.turn if self.turn is not None else self.end


def close_items(block: OutlineBlock) -> None:
    """Let each item end where the next one begins."""
    for item, following in zip(block.items, block.items[1:], strict=False):
        item.end = following.first
    for item in block.items:
        item.end = max(item.first, item.end)
        item.told = max(item.first, min(item.told, item.end))
