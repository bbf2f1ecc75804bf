"""What a typist may have done to lines of YAML near a fault: each slip with the lines as they should be."""

import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from itertools import islice

from sitegen.reading.line_beginnings import (
    BULLETS,
    ODD_SPACES,
    Slip,
    bullet,
    hyphen_without_space,
    indent_of,
    indentation,
    odd_indentation,
    outside_texts,
)
from sitegen.reading.line_signs import (
    bracket,
    colon_in_braces,
    colon_in_text,
    colon_without_space,
    curly_quotes,
    goes_on,
    no_colon,
    no_opening_quote,
    open_quote,
)

_LONGEST_LINE = 2_000
"""A longer line is not looked into: readers may take time that grows with the square of its length."""
_MOST_ONE_BY_ONE = 5
"""Lines with the same slip that are tried one by one after all of them together."""


def slips(lines: list[str], near: Iterable[int], *, stopped: bool) -> Iterator[Slip]:
    """What may be wrong in the lines that are named, the surest first.

    Where the parser did not stop, shapes speak of curly quotes and of colons in a text: they know the key.
    """
    plain = frozenset(outside_texts(lines))
    yield from _everywhere(lines, plain, odd_indentation)
    yield from _everywhere(lines, plain, bullet)
    numbers = [at for at in dict.fromkeys(near) if at in plain and len(lines[at - 1]) <= _LONGEST_LINE]
    for reader in (curly_quotes, *_READERS) if stopped else _READERS:
        for number in numbers:
            yield from reader(lines[number - 1], number)
    # Of two lines that do not fit, the one that begins where few others do is more likely the slip.
    usual = Counter(indent_of(lines[number - 1]) for number in plain)
    for number in sorted(numbers, key=lambda number: usual[indent_of(lines[number - 1])]):
        yield from indentation(lines, number)
    if stopped:
        for number in numbers:
            yield from colon_in_text(lines[number - 1], number)


def sure_slips(lines: list[str]) -> Iterator[Slip]:
    """What is wrong in any case in lines of which the parser stopped at the last."""
    plain = list(outside_texts(lines))
    for number in plain[-2:]:
        yield from odd_indentation(lines, number)
    for number in plain:  # an open quote stops it many lines later
        if len(lines[number - 1]) > _LONGEST_LINE:
            continue
        for reader in (goes_on, open_quote, colon_in_braces):
            yield from reader(lines[number - 1], number)


_MOST_DOUBTS = 50
"""Lines looked for: the first few are told."""
_DOUBTFUL = re.compile(
    rf"^(?P<bullet> *(?:[{''.join(BULLETS).replace('*', '')}]|-[^\s\d-]|-[{ODD_SPACES}]))"
    r"|^(?P<indent> *)- (?!.*[\w-]:(?: |$)).*\n(?P<deeper>(?P=indent) +- )"
    r"|^ *(?:- )*(?:[\w-]+: +)?[^\s\[{\"'#>|&*][^\[{\"'\n#]*(?P<closer>[\]}]|(?<=[^\d\s])\")$",
    re.MULTILINE,
)
"""What YAML takes for text without a word and hardly anybody means: an entry that is swallowed by the one
before it, since its hyphen is none or stands too far in, and a bracket or quote that is only closed. Behind a
number a quote is one of inches or seconds."""


def doubtful(text: str) -> list[int]:
    """Numbers of lines that YAML reads otherwise than they look."""
    found = [
        match.end()
        for match in islice(_DOUBTFUL.finditer(text), _MOST_DOUBTS)
        if not _closes_a_list(text, match)
    ]
    if not found:
        return []
    plain = frozenset(outside_texts(text.split("\n")))
    return [number for at in found if (number := text.count("\n", 0, at) + 1) in plain]


_OPENED = {"]": "[", "}": "{"}
_NO_TEXT = re.compile(r"(?:^|[\s\[{,])$")
"""What stands before a bracket that opens a list: one within a word is text."""


def _closes_a_list(text: str, match: re.Match[str]) -> bool:
    """True for a bracket that was opened on a line above: a list in brackets may go over several lines."""
    closer = match["closer"]
    if closer not in _OPENED:
        return False
    opened = text.rfind(_OPENED[closer], 0, match.start())
    closed = text.rfind(closer, 0, match.start())
    return opened > closed and _NO_TEXT.search(text, max(0, opened - 1), opened) is not None


def _everywhere(
    lines: list[str], plain: frozenset[int], reader: Callable[[list[str], int], Iterator[Slip]]
) -> Iterator[Slip]:
    """A slip that may be in every line: told at the first, put right in all of them; then one by one."""
    first = (next(reader(lines, number), None) for number in sorted(plain))
    found = [slip for slip in first if slip is not None]
    if len(found) > 1:
        mended = {number: line for slip in found for number, line in slip.mended.items()}
        more = "1 more line" if len(found) == 2 else f"{len(found) - 1} more lines"
        yield found[0]._replace(advice=f"{found[0].advice}; {more} of the file begin so", mended=mended)
    for slip in found[:_MOST_ONE_BY_ONE]:
        yield from reader(lines, slip.line)


_READERS: tuple[Callable[[str, int], Iterator[Slip]], ...] = (
    hyphen_without_space,
    colon_without_space,
    goes_on,
    open_quote,
    no_opening_quote,
    colon_in_braces,
    bracket,
    no_colon,
)
"""Surest first: where several would make the file right, the first is told."""
