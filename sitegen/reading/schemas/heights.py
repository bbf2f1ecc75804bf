"""How high the things are that poses use, where a series says so. The words are those of ``study.body``."""

from functools import partial

from sitegen.notation import NotationError, Quantity, habits
from sitegen.reading.schemas.scalars import Short
from sitegen.reading.schemas.shapes import Key, RecordShape
from sitegen.study.body.things import HEIGHTS, THINGS


def _height(thing: str, text: str) -> float:
    """Centimetres. Raises NotationError for another kind of amount, and for what no such thing has."""
    usual = f"{THINGS[thing].height:g} cm"
    try:
        quantity = Quantity.parse(text)
    except NotationError:
        quantity = None
    if quantity is None or quantity.kind != "length":
        raise NotationError(f"{text!r} is not a height", f"write for example {usual}")
    least, most = HEIGHTS[thing]
    if not least <= quantity.base <= most:
        what = f"{text} is not the height of a {thing} that is safe to use"
        raise NotationError(what, f"write {least:g} to {most:g} cm; {usual} is usual")
    return quantity.base


HEIGHTS_OF_THINGS = RecordShape(
    "the heights",
    {
        thing: Key(
            Short(
                f"a height such as {THINGS[thing].height:g} cm",
                partial(_height, thing),
                f"{THINGS[thing].height:g} cm",
                habit=habits.quantity,
            ),
            help=f"Left out: {THINGS[thing].height:g} cm",
        )
        for thing in HEIGHTS
    },
    dict,
)
