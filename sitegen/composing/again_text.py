"""The text of a plan composed again: its own exercises and notes replaced where they stand, nothing else."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from sitegen.composing.marks import MarkedLines, own_items, own_notes
from sitegen.composing.plan_text import item_lines, note_lines
from sitegen.composing.proposal import Proposal
from sitegen.composing.written_plan import WrittenPlan
from sitegen.model import Kit


@dataclass(frozen=True, slots=True)
class _Replaced:
    start: int
    end: int
    lines: Sequence[str]


def own_places(text: str, lines_of: Mapping[tuple[int, int], int]) -> dict[tuple[int, int], MarkedLines]:
    """The program's own exercises of a text. ``lines_of``: the line of each, from 1, by block and place."""
    pieces = {piece.head + 1: piece for piece in own_items(text.split("\n"))}
    return {place: pieces[line] for place, line in lines_of.items() if line in pieces}


def renewed(
    text: str,
    written: WrittenPlan,
    own: Mapping[tuple[int, int], MarkedLines],
    proposal: Proposal,
    kit: Mapping[str, Kit],
) -> str:
    """The text with the exercises of a proposal in the places that are the program's own."""
    lines = text.split("\n")
    ending = "\r" if "\r\n" in text else ""
    changes = [*_items(written, own, proposal, kit), *_notes(lines, proposal)]
    # From the end on, so that the lines before keep their numbers.
    for change in sorted(changes, key=lambda one: (one.start, one.end), reverse=True):
        lines[change.start : change.end] = [line + ending for line in change.lines]
    return "\n".join(lines)


def _items(
    written: WrittenPlan,
    own: Mapping[tuple[int, int], MarkedLines],
    proposal: Proposal,
    kit: Mapping[str, Kit],
) -> Iterator[_Replaced]:
    for at, choices in zip(written.composed, proposal.choices, strict=True):
        for place, choice in enumerate(choices):
            if piece := own.get((at, place)):
                yield _Replaced(piece.start, piece.end, item_lines(choice, kit, piece.indent))


def _notes(lines: Sequence[str], proposal: Proposal) -> Iterator[_Replaced]:
    """Notes of this time where those of the last time stood, else below a line with ``blocks:``."""
    gone = list(own_notes(lines))
    for piece in gone:
        yield _Replaced(piece.start, piece.end, ())
    below = (n + 1 for n, line in enumerate(lines) if line.partition("#")[0].rstrip() == "blocks:")
    place = gone[0].start if gone else next(below, None)
    if place is not None:
        indent = gone[0].indent if gone else "  "
        notes = [line for conflict in proposal.conflicts for line in note_lines(conflict, indent)]
        yield _Replaced(place, place, notes)
