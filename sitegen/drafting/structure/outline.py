"""The outline of a session: which tokens belong to which block and item.

Made from a recording by :mod:`sitegen.drafting.structure.session`, or from its truth when the weights of
kinds, formats, sets and doses are learned: these look at outlines only.
"""

from dataclasses import dataclass, field

from sitegen.drafting.heard import Heard


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


def passage_at(heard: Heard, seconds: float) -> int:
    """The passage that begins nearest to a time."""
    return min(range(len(heard.passages)), key=lambda p: abs(heard.passages[p].start - seconds))


def turn_passage(heard: Heard, seconds: float) -> int:
    """The passage that hands over at a time: which begins or ends nearest to it."""
    passages = heard.passages
    return min(
        range(len(passages)),
        key=lambda p: min(abs(passages[p].start - seconds), abs(passages[p].end - seconds)),
    )


def outline_of_times(
    heard: Heard, blocks: list[tuple[float, float | None, list[tuple[str | None, float]]]]
) -> list[OutlineBlock]:
    """The outline of known times: start and turn of each block, exercise and start of each item."""
    passages = heard.passages
    out = []
    for index, (start, turn, items) in enumerate(blocks):
        following = blocks[index + 1][0] if index + 1 < len(blocks) else None
        end = passages[passage_at(heard, following)].first if following is not None else len(heard.tokens)
        block = OutlineBlock(first=passages[passage_at(heard, start)].first, end=end)
        if turn is not None:
            block.turn = min(end, passages[turn_passage(heard, turn)].last + 1)
        for exercise, at in items:
            first = passages[passage_at(heard, at)].first
            block.items.append(OutlineItem(exercise=exercise, first=first, end=block.told, told=block.told))
        close_items(block)
        out.append(block)
    return out


def close_items(block: OutlineBlock) -> None:
    """Let each item end where the next one begins."""
    for item, following in zip(block.items, block.items[1:], strict=False):
        item.end = following.first
        item.told = min(item.told, item.end)
    for item in block.items:
        item.end = max(item.first, item.end)
        item.told = max(item.first, min(item.told, item.end))
