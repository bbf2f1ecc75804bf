"""An item in its block, with all that the choice of its forms and their words depend on."""

from sitegen.model import Block, Item
from sitegen.study.span import Span
from sitegen.study.version import item_key


class ItemPlace:
    """An item in its block, with what the choice of its forms depends on."""

    def __init__(
        self, block: Block, item: Item, sets: Span, first: str, kit: frozenset[str], others: int
    ) -> None:
        self.block, self.item, self.sets = block, item, sets
        self.first = first
        """The hand that begins with the heavier of two uneven loads."""
        self.kit = kit
        """At hand, as far as it matters for the item."""
        self.others = others
        """Items of the block that may come to the same form."""

    @property
    def key(self) -> tuple[object, ...]:
        """Alike for places with the same data, in whichever session they are."""
        own = tuple(self.item.versions.items())
        block = self.block
        course = (block.kind, block.format, block.work, block.time, self.sets, self.first)
        return (*item_key(self.item), own, *course, self.kit, self.others)
