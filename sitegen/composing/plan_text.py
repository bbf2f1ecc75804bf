"""A proposal as the blocks of an episode's file, with comments that say why each exercise is there."""

import json
import textwrap
from collections.abc import Iterator, Mapping

from sitegen.composing.conflicts import BrokenRule
from sitegen.composing.marks import NOT_KEPT, marked_item, marked_note
from sitegen.composing.proposal import ChosenExercise, Proposal
from sitegen.model import Block, Item, Kit
from sitegen.notation import Load

_WIDTH = 94
"""Characters of a line, so that a comment stays within a hundred columns (our choice)."""


def block_lines(proposal: Proposal, kit: Mapping[str, Kit]) -> Iterator[str]:
    """The lines below ``blocks:``."""
    for conflict in proposal.conflicts:
        yield from note_lines(conflict)
    choices = dict(zip(proposal.composed, proposal.choices, strict=True))
    for number, block in enumerate(proposal.episode.blocks):
        if number in choices:
            yield from _composed(block, choices[number], kit)
            continue
        yield from _comment("  ", proposal.prepared.get(number, ""))
        if block.routine is None:
            yield from _around(block, kit)
        else:
            yield f"  - routine: {block.routine}"
            if (block.sets.low, block.sets.high) != (1, 1):
                yield f"    sets: {block.sets}"


def _around(block: Block, kit: Mapping[str, Kit]) -> Iterator[str]:
    """A warm-up or cool-down of the session's own."""
    yield from _head(block)
    for item in block.items:
        yield f"      - exercise: {item.exercise}"
        yield from (f"        {line}" for line in _said(item, (), kit))


def note_lines(conflict: BrokenRule, indent: str = "  ") -> list[str]:
    """The comment about a bound that is not kept, with the mark that the program wrote it."""
    words = f"{NOT_KEPT} {conflict.what}. What helps: {conflict.relax}."
    return marked_note(list(_comment(indent, words)))


def _composed(block: Block, choices: tuple[ChosenExercise, ...], kit: Mapping[str, Kit]) -> Iterator[str]:
    yield from _head(block)
    for choice in choices:
        yield from item_lines(choice, kit)


def _head(block: Block) -> Iterator[str]:
    yield f"  - name: {block.name}"
    yield f"    kind: {block.kind}"
    yield f"    format: {block.format}"
    if (block.sets.low, block.sets.high) != (1, 1):
        yield f"    sets: {block.sets}"
    if block.work is not None:
        yield f"    work: {block.work}"
    if block.time is not None:
        yield f"    time: {block.time}"
    rests = {name: getattr(block.rest, name) for name in ("between_exercises", "between_sets", "after")}
    if said := ", ".join(f"{name}: {rest}" for name, rest in rests.items() if rest is not None):
        yield f"    rest: {{{said}}}"
    yield "    items:"


def item_lines(choice: ChosenExercise, kit: Mapping[str, Kit], indent: str = " " * 6) -> list[str]:
    """The lines of one exercise, reasons above it, with the mark that the program wrote them."""
    return marked_item([f"{indent}{line}" for line in _item(choice, kit)])


def _item(choice: ChosenExercise, kit: Mapping[str, Kit]) -> Iterator[str]:
    chosen = choice.candidate
    item = chosen.item
    yield from _comment("", choice.reason)
    if chosen.dose is not None:
        yield from _comment("", chosen.dose.reason)
    if chosen.question:
        yield from _comment("", f"QUESTION: {chosen.question}")
    yield f"- exercise: {item.exercise}"
    yield from (f"  {line}" for line in _said(item, chosen.form.kit, kit))


def _said(item: Item, used: tuple[str, ...], kit: Mapping[str, Kit]) -> Iterator[str]:
    if item.variant:
        yield f"variant: {item.variant}"
    if item.dose is not None:
        yield f"dose: {json.dumps(str(item.dose))}"
    if item.tempo is not None:
        yield f"tempo: {item.tempo}"
    if item.effort is not None:
        yield f"effort: {item.effort}"
    if item.load is not None:
        yield f"load: {_load(item.load, used, kit)}"
    if item.versions:
        yield "versions:"
        yield from (f"  {need}: {form}" for need, form in item.versions.items())


def _load(load: Load, used: tuple[str, ...], kit: Mapping[str, Kit]) -> str:
    """The short form; with the names of the pieces where the form has several that take a load."""
    able = [piece for piece in used if piece in kit and (kit[piece].holds or kit[piece].weighs)]
    pieces = dict.fromkeys(part.piece for part in load.parts)
    if len(able) < 2 or load.sets or None in pieces:
        return str(load)
    named = {piece: Load(tuple(part for part in load.parts if part.piece == piece)) for piece in pieces}
    return "{" + ", ".join(f"{piece}: {one}" for piece, one in named.items()) + "}"


def _comment(lead: str, text: str) -> Iterator[str]:
    yield from textwrap.wrap(text, _WIDTH, initial_indent=f"{lead}# ", subsequent_indent=f"{lead}# ")
