"""A planned session: blocks, exercises, doses and sets, read from an episode or from an unfinished file."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

from sitegen.model import Block, Episode, Series
from sitegen.notation import Count, Dose, NotationError
from sitegen.reading.source import Node, ScalarNode, SequenceNode, child_at, is_null

Value = TypeVar("Value")


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedItem:
    """An item of a plan."""

    exercise: str
    dose: Dose | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedBlock:
    """A block of a plan."""

    name: str
    items: tuple[PlannedItem, ...]
    sets: Count | None
    own_items: bool = True
    """False where the items stand in a shared routine."""


def plan_of_episode(episode: Episode) -> list[PlannedBlock]:
    """The plan that a written episode follows."""
    return [_planned(block) for block in episode.blocks]


def _planned(block: Block) -> PlannedBlock:
    items = tuple(PlannedItem(exercise=item.exercise, dose=item.dose) for item in block.items)
    return PlannedBlock(name=block.name, items=items, sets=block.sets, own_items=block.routine is None)


def plan_of_node(root: Node, series: Series) -> list[PlannedBlock]:
    """The plan in an episode file that need not be complete: what it says of blocks, exercises, doses and
    sets.
    """
    return [_written(node, series) for node in entries(root, "blocks")]


def _written(node: Node, series: Series) -> PlannedBlock:
    routine = text_of(child_at(node, "routine"))
    if routine:
        shared = next((b for e in series.episodes for b in e.blocks if b.routine == routine), None)
        if shared:
            return _planned(shared)
    return PlannedBlock(
        name=text_of(child_at(node, "name")) or routine or "block",
        items=tuple(
            PlannedItem(
                exercise=text_of(child_at(n, "exercise")) or "", dose=_parsed(Dose.parse, child_at(n, "dose"))
            )
            for n in entries(node, "items")
        ),
        sets=_parsed(Count.parse, child_at(node, "sets") or child_at(node, "rounds")),
        own_items=not routine,
    )


def entries(node: Node, key: str) -> list[Node]:
    """The entries of the list of a key; none where there is no list."""
    found = child_at(node, key)
    return list(found.value) if isinstance(found, SequenceNode) else []


def text_of(node: Node | None) -> str | None:
    """The characters of a scalar; None for anything else and for one left empty."""
    return node.value if isinstance(node, ScalarNode) and not is_null(node) else None


def _parsed(parse: Callable[[str], Value], node: Node | None) -> Value | None:
    """The value of a scalar in a short form; None where it is left empty or written otherwise."""
    text = text_of(node)
    try:
        return parse(text) if text else None
    except NotationError:
        return None
