"""A plan that is written already, with what of it is the trainer's and stays."""

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass, replace

from sitegen.composing.session_shape import is_composed
from sitegen.model import Block, Episode, Item


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenPlan:
    """A plan and the places of it that are chosen again."""

    episode: Episode
    own: Set[tuple[int, int]]
    """The program's own exercises: block and place in it, from 0."""

    @property
    def composed(self) -> tuple[int, ...]:
        """Which of its blocks have exercises that may be chosen again."""
        return tuple(n for n, block in enumerate(self.episode.blocks) if is_composed(block))

    @property
    def others(self) -> tuple[Block, ...]:
        """Its other blocks, which stay as they are."""
        return tuple(block for block in self.episode.blocks if not is_composed(block))

    def kept(self, number: int) -> Iterator[tuple[int, Item]]:
        """What stays of the composed block with that number among the composed ones, and where it stands."""
        at = self.composed[number]
        for place, item in enumerate(self.episode.blocks[at].items):
            if (at, place) not in self.own:
                yield place, item

    def with_items(self, items: Sequence[tuple[Item, ...]]) -> Episode:
        """The plan with other exercises in its composed blocks."""
        blocks = list(self.episode.blocks)
        for at, chosen in zip(self.composed, items, strict=True):
            blocks[at] = replace(blocks[at], items=chosen)
        return replace(self.episode, blocks=tuple(blocks))
