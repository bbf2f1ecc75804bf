"""What of a plan's text is still the program's own: marks that say which words it wrote.

The program ends the first line of each exercise that it writes with ``# proposed`` and a code of all its
lines, the comments above it among them. As long as the lines have that code they are its own, and composing
again may choose; with one word changed, added or taken away, or without the mark, they are the trainer's
and stay. Nothing is remembered outside of the file. Spaces around lines do not count, so that a file may be
indented again.

The notes about what a proposal could not keep (``# NOT KEPT:``) end with such a mark too.
"""

import hashlib
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

NOT_KEPT = "NOT KEPT:"

_MARK = re.compile(r"[ \t]*# proposed (?P<code>[0-9a-f]{6})\s*$")
"""Six hexadecimal digits: of 16 million changes one would be taken for none."""
# The first line of an item; its indent tells where the next line of the same item ends.
_ITEM = re.compile(r"(?P<indent> *)- exercise:")


@dataclass(frozen=True, slots=True)
class MarkedLines:
    """Lines of a text that are as the program wrote them."""

    start: int
    """The first line, from 0: comments stand above the line that begins the value."""
    head: int
    """The line that begins the value, and of a note its last one."""
    end: int
    """The line after the last one."""
    indent: str


def marked_item(lines: Sequence[str]) -> list[str]:
    """The lines of an exercise, its comments above it, with the mark."""
    head = next(number for number, line in enumerate(lines) if _ITEM.match(line))
    return [*lines[:head], f"{lines[head]}   # proposed {_code(lines)}", *lines[head + 1 :]]


def marked_note(lines: Sequence[str]) -> list[str]:
    """The lines of a note with the mark at their end."""
    return [*lines[:-1], f"{lines[-1]} # proposed {_code(lines)}"]


def own_items(lines: Sequence[str]) -> Iterator[MarkedLines]:
    """The exercises of a text that are the program's own."""
    for head, line in enumerate(lines):
        found, mark = _ITEM.match(line), _MARK.search(line)
        if found and mark:
            piece = _around(lines, head, found["indent"])
            if _code(lines[piece.start : piece.end]) == mark["code"]:
                yield piece


def own_notes(lines: Sequence[str]) -> Iterator[MarkedLines]:
    """The notes of a text about what was not kept that are the program's own."""
    start = None
    for number, line in enumerate(lines):
        words = line.strip()
        if words.startswith(f"# {NOT_KEPT}"):
            start = number
        elif not words.startswith("#"):
            start = None
        mark = _MARK.search(line)
        if start is not None and mark:
            if _code(lines[start : number + 1]) == mark["code"]:
                yield MarkedLines(start, number, number + 1, line[: len(line) - len(line.lstrip())])
            start = None


def _around(lines: Sequence[str], head: int, indent: str) -> MarkedLines:
    """The lines of the value that begins at ``head``, and the comments directly above it."""
    start = head
    while start > 0 and lines[start - 1].strip().startswith("#"):
        start -= 1
    end = head + 1
    while end < len(lines) and (not lines[end].strip() or lines[end].startswith(f"{indent} ")):
        end += 1
    while not lines[end - 1].strip() or lines[end - 1].strip().startswith("#"):
        end -= 1  # what stands between two exercises belongs to neither
    return MarkedLines(start, head, end, indent)


def _code(lines: Sequence[str]) -> str:
    """A code of the words of some lines, whatever mark they bear: short, for people read the line too."""
    words = "\n".join(_MARK.sub("", line).strip() for line in lines)
    return hashlib.blake2b(words.encode(), digest_size=3).hexdigest()
