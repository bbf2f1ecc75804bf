"""A block as it is for a single one of its exercises, and what it takes besides them."""

from dataclasses import replace

from sitegen.composing.session_shape import BlockShape
from sitegen.model import Block, Details, Episode, Item
from sitegen.notation import Duration
from sitegen.study.forms import Forms
from sitegen.study.timing import pauses
from sitegen.study.volume import CountedItem, counted_items
from sitegen.vocabulary import AMRAP, EMOM, STRAIGHT


def share_of_one(shape: BlockShape) -> Block:
    """The block as it is for one of its exercises: what a clock sets for all of them is shared out.

    Of as many rounds as possible that supposes exercises of the same length; the finished session is worked
    out with those that it has.
    """
    block = shape.block
    if block.format not in (AMRAP, EMOM) or block.time is None:
        return block
    low, high = (end // shape.places for end in (block.time.low, block.time.high))
    return replace(block, time=Duration(low, high))


def session_of(block: Block, item: Item) -> Episode:
    """A session with nothing but one exercise."""
    blocks = (replace(block, items=(item,)),)
    return Episode(slug="-", number=0, title="-", blocks=blocks, location=block.location)


def counted_alone(details: Details, forms: Forms, block: Block, item: Item) -> CountedItem:
    """The sets of an exercise that stands alone in its block."""
    [one] = counted_items(details, forms, session_of(block, item))
    return one


def seconds_besides_items(details: Details, block: Block, places: int) -> float:
    """What a block of so many items takes besides its items, at the long end of every range."""
    after = block.rest.after.high if block.rest.after else 0.0
    if block.format in (AMRAP, EMOM):
        return after + (block.time.high if block.time else 0.0)
    exchange, break_ = pauses(details, block)
    if block.format == STRAIGHT:
        return after + (places - 1) * exchange.high
    return after + block.sets.high * (places - 1) * exchange.high + (block.sets.high - 1) * break_.high
