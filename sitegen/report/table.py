"""Plain tables for a terminal: columns in line, broken into several where the width is too small."""

import textwrap
from collections.abc import Iterator, Sequence

GAP = "  "
SHORTEST_TEXT = 20
"""A last column is wrapped to no less than so many characters."""


def table(head: Sequence[str], rows: Sequence[Sequence[str]], width: int, *, keep: int = 0) -> Iterator[str]:
    """Lines of a table. Columns that do not fit go into further tables below, each with the first column
    and, repeated, the last ``keep`` ones; text in a last column that is too long is wrapped."""
    widths = [max(len(row[n]) for row in (head, *rows)) for n in range(len(head))]
    last = [*range(len(head) - keep, len(head))]
    waiting = list(range(1, len(head) - keep))
    while waiting:
        columns = _fitting(waiting, widths, width - sum(widths[n] + len(GAP) for n in (0, *last)))
        waiting = waiting[len(columns) :]
        shown = [0, *columns, *last]
        for row in (head, *rows):
            yield from _row([row[n] for n in shown], [widths[n] for n in shown], width)
        if waiting:
            yield ""


def _fitting(columns: Sequence[int], widths: Sequence[int], room: int) -> list[int]:
    """The first columns that fit; at least one."""
    taken: list[int] = []
    for n in columns:
        room -= widths[n] + len(GAP)
        wraps = n == columns[-1] and room + widths[n] >= SHORTEST_TEXT
        if taken and room < 0 and not wraps:
            break
        taken.append(n)
    return taken


def _row(cells: Sequence[str], widths: Sequence[int], width: int) -> Iterator[str]:
    start = GAP.join(cell.ljust(room) for cell, room in zip(cells[:-1], widths, strict=False)) + GAP
    wrapped = textwrap.wrap(cells[-1], max(SHORTEST_TEXT, width - len(start))) or [""]
    yield (start + wrapped[0]).rstrip()
    for line in wrapped[1:]:
        yield " " * len(start) + line
