"""Sets and rests of a block by the exercises that came to stand in it.

What is heavy needs more sets and longer rests than what is small; that cannot be said before the exercises
are known. American College of Sports Medicine 2009 (from memory): 2 to 3 minutes between heavy sets of large
lifts, 1 to 2 minutes between others. In a superset one exercise rests while the other is done, so that the
pause after a round may be shorter. How the numbers below lie within that is common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from sitegen.composing.level import HEAVY, LIGHT, MOST_OPEN_SETS, SessionLevel, has_sets, most_sets
from sitegen.composing.session_shape import BlockShape
from sitegen.model import Block, Item, Rest
from sitegen.notation import Count, Duration
from sitegen.study.forms import Form
from sitegen.study.volume import KNEE, PULL, PUSH
from sitegen.vocabulary import STRAIGHT

LARGE = frozenset({*KNEE, "hinge", *PUSH, *PULL})
"""Patterns of the large lifts."""


def fitted(
    shape: BlockShape, block: Block, forms: Sequence[Form], level: SessionLevel, *, last: bool
) -> Block:
    """A block of strength with the sets and rests that its exercises ask for, for a session of that level.

    ``last`` is said of the last block of the session: the cool-down follows, so that less rest will do.
    """
    if block.kind != "strength" or not has_sets(block.format):
        return block
    sets = block.sets if shape.asked else _sets(block, forms, level)
    return replace(block, sets=sets, rest=_rest(block, forms, level, last=last))


def _sets(block: Block, forms: Sequence[Form], level: SessionLevel) -> Count:
    number = most_sets(block.format, level) if has_large(block, forms) else level.small_sets
    if any(item.dose is not None and item.dose.kind == "max" for item in block.items):
        number = min(number, MOST_OPEN_SETS)
    return Count(number, number)


def has_large(block: Block, forms: Sequence[Form]) -> bool:
    """Whether one of its exercises is a large lift that is made heavy."""
    return any(is_large(item, form) for item, form in zip(block.items, forms, strict=True))


def is_large(item: Item, form: Form) -> bool:
    """Whether it is a large lift that is made heavy: by a load, by one side at a time or by the own weight
    pressed up."""
    one_sided = item.dose is not None and item.dose.per_side
    return form.pattern in LARGE and (item.load is not None or one_sided or form.pattern in PUSH)


def _rest(block: Block, forms: Sequence[Form], level: SessionLevel, *, last: bool) -> Rest:
    if not has_large(block, forms):
        between = Duration(45, 60) if level is not LIGHT else Duration(45, 45)
    elif level is HEAVY:
        between = Duration(90, 120) if block.format == STRAIGHT else Duration(75, 90)
    else:
        between = Duration(60, 90) if level is not LIGHT else Duration(60, 60)
    changes = any(one.kit != other.kit for one, other in pairwise(forms))
    exchange = Duration(20, 20) if changes else Duration(15, 15)
    return Rest(
        between_exercises=None if block.format == STRAIGHT else exchange,
        between_sets=between,
        after=Duration(60, 60) if last else Duration(120, 120),
    )
