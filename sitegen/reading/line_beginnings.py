"""How a line of YAML begins: odd white space, hyphens that are none, indentation that fits nothing.

These readers, and those of ``line_signs.py``, know no YAML. Each looks at one line and says what may be
meant by it; whether that makes the file right is tried by ``slip_trials.py``, and only then anybody is told.
Old words and new ones stand in backquotes, so that nobody has to work out what to write.
"""

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from sitegen.problems import Problem, in_file

ODD_SPACES = "\t\u00a0\u1680\u2000-\u200b\u202f\u205f\u2060\u3000\ufeff"
"""White space other than the one that indents; some of it has no width at all."""
_WIDTHLESS = "\u200b\u2060\ufeff"
# White space with at least one sign that is no space.
_ODD = re.compile(rf"^ *[{ODD_SPACES}][ {ODD_SPACES}]*")
BULLETS: Mapping[str, str] = {
    "–": "an en dash",
    "—": "an em dash",
    "‐": "a hyphen of another kind",
    "‑": "a non-breaking hyphen",
    "−": "a minus sign",
    **dict.fromkeys("•‣◦▪●○·∙➢✓", "a bullet"),
    "*": "a star",
}
"""What word processors put before the entries of a list, and what people type there."""
# A sign that is no hyphen where an entry begins, with the white space behind it.
_BULLET = re.compile(
    rf"^(?P<indent> *)(?P<sign>[{re.escape(''.join(BULLETS))}])(?P<gap>[\s{ODD_SPACES}]*)(?=\S)"
)
MOST_SHOWN = 40
"""Characters of a value shown in a message: enough to know the place again."""
_ABOVE = 200
"""Lines above one in which its indentation is looked for: the longest exercise of the demo has as many."""
_MOST_COLUMNS = 5
"""Indentations tried for a line, the nearest first."""


class Slip(NamedTuple):
    """What may be wrong, at a line and column from 1, and the lines as they should be, by number."""

    line: int
    column: int
    message: str
    advice: str
    mended: Mapping[int, str]
    sure: bool = False
    """Nobody means what is there, whatever comes to light once it is put right."""

    def problem(self, file: str) -> Problem:
        """What is told of it."""
        return in_file("not-yaml", file, self.message, self.advice, self.line, self.column)


def outside_texts(lines: list[str]) -> Iterator[int]:
    """Numbers of the lines that are no comments and in no text of several lines."""
    inside: int | None = None
    for number, line in enumerate(lines, 1):
        bare = line.strip()
        indent = indent_of(line)
        if not bare or (inside is not None and indent > inside):
            continue
        inside = indent if re.search(r": *[|>][+-]?\d?\s*$", line) else None
        if not bare.startswith("#"):
            yield number


def odd_indentation(lines: list[str], number: int) -> Iterator[Slip]:
    """White space before the line that is no space, though it may look like one."""
    line = lines[number - 1]
    match = _ODD.match(line)
    if not match:
        return
    sign = next(sign for sign in match[0] if sign != " ")
    column = match[0].index(sign) + 1
    if sign == "\t":
        message = "a tab is used for indentation"
        widths = _columns(lines, number, len(match[0].expandtabs(2)), above=10)
    else:
        name = space_name(sign)
        message = f"this line begins with {name}, which is no space, though it looks like one"
        widths = [sum(sign not in _WIDTHLESS for sign in match[0])]
    for width in widths:
        advice = f"use spaces: begin it with {spaces(width)}, typed with the space bar"
        yield Slip(number, column, message, advice, {number: " " * width + line[match.end() :]}, sure=True)


def space_name(sign: str) -> str:
    """What a message calls white space that is no space."""
    return "a non-breaking space" if sign in "\u00a0\u202f" else f"an invisible character (U+{ord(sign):04X})"


def bullet(lines: list[str], number: int) -> Iterator[Slip]:
    """A dash or bullet where a hyphen and a space begin an entry."""
    line = lines[number - 1]
    if not (match := _BULLET.match(line)):
        return
    sign, indent = match["sign"], match["indent"]
    message = f"this line begins with {BULLETS[sign]}, `{sign}{match['gap']}`, which is no hyphen"
    advice = "begin the entry with a hyphen and a space: `- `"
    mended = {number: f"{indent}- {line[match.end() :]}"}
    yield Slip(number, len(indent) + 1, message, advice, mended, sure=True)


def hyphen_without_space(line: str, number: int) -> Iterator[Slip]:
    """``-Sit back``, and one with white space behind its hyphen that is no space."""
    match = re.match(rf"( *)-([{ODD_SPACES}]*)(?=[^\s-])", line)
    if match and not line[match.end() :].startswith(" ") and match[0][-1] != " ":
        first = first_word(line[match.end() :])
        missing = "no space" if not match[2] else f"{space_name(match[2][0])} instead of a space"
        message = f"there is {missing} after the hyphen: `-{match[2]}{first}`"
        mended = {number: f"{match[1]}- {line[match.end() :]}"}
        yield Slip(number, len(match[1]) + 1, message, f"write `- {first}`", mended)


def first_word(text: str) -> str:
    """The first word of a text, or what begins it in quotes; of a long one its beginning."""
    return (re.match(r"\"[^\"]*\"?|\S+", text.strip()) or [""])[0][:MOST_SHOWN]


def indentation(lines: list[str], number: int) -> Iterator[Slip]:
    """A key or entry that begins between the columns of the lines around it."""
    line = lines[number - 1]
    if not re.match(r" *(?:- |[\w -]*\w:(?:\s|$))", line):
        return
    indent = indent_of(line)
    message = f"this line begins with {spaces(indent)}, which fits no line above it"
    for column in _columns(lines, number, indent):
        if column != indent:
            advice = f"begin it with {spaces(column)}, as the keys it belongs to"
            yield Slip(number, indent + 1, message, advice, {number: " " * column + line.lstrip()})


def _columns(lines: list[str], number: int, near: int, *, above: int = _ABOVE) -> list[int]:
    """Columns where lines above begin or hold a key, the nearest to ``near`` first."""
    before = lines[max(0, number - 1 - above) : number - 1]
    before = [before[at - 1] for at in outside_texts(before)]
    columns = {near, *map(indent_of, before), *map(key_column, before)}
    last = {indent_of(before[-1]), key_column(before[-1])} if before else set()
    return sorted(columns, key=lambda at: (abs(at - near), at not in last, -at))[:_MOST_COLUMNS]


def indent_of(line: str) -> int:
    """How many characters of white space a line begins with."""
    return len(line) - len(line.lstrip())


def key_column(line: str) -> int:
    """Where the key of a line begins: behind the hyphens of list entries."""
    return len(line) - len(re.sub(r"^\s*(?:- +)*", "", line))


def spaces(number: int) -> str:
    """A number of spaces in words."""
    return "1 space" if number == 1 else f"{number or 'no'} spaces"
