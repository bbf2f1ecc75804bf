"""What to fetch before a session, and how many of each: a carrier for each hand is two carriers."""

from collections import Counter
from collections.abc import Iterable, Mapping

from sitegen.model import Details, Episode, Kit
from sitegen.notation import Load
from sitegen.study.forms import Forms, shown_form


def fetched(details: Details, forms: Forms, episode: Episode) -> Mapping[str, int]:
    """How many of each piece of kit the forms as filmed need, by id, in the order it is first needed."""
    pieces = (piece for b in episode.blocks for i in b.items for piece in shown_form(forms, i).kit)
    loads = [item.load for block in episode.blocks for item in block.items if item.load is not None]
    return {piece: how_many(details.kit[piece], loads) for piece in dict.fromkeys(pieces)}


def how_many(piece: Kit, loads: Iterable[Load]) -> int:
    """How many of a piece these loads ask for; 1 where none is in it.

    A vessel or a bag is filled again for the next load: the most at once decide. A weight stays what it is:
    two tins of 400 g and one of 800 g are three.
    """
    most: Counter[float] = Counter()
    for load in loads:
        for one in load.sets or (load,):
            mine = [part.quantity.base for part in one.parts if part.piece == piece.id]
            most |= Counter(mine if piece.holds is None else [0.0] * len(mine))
    return max(1, most.total())


def in_number(number: int, name: str) -> str:
    """``2 × Food tin``, its number never on a line of its own; the name alone where one will do."""
    return f"{number}\N{NO-BREAK SPACE}×\N{NO-BREAK SPACE}{name}" if number > 1 else name
