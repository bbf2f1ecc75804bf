"""The YAML parser's complaints in words for somebody who does not know YAML, at the line that caused them.

The parser reports where it could not go on. A quote that is not closed, or a colon in a text, is often
lines before that, so the lines are looked through for these slips first.
"""

import re
from collections.abc import Iterator
from typing import NamedTuple

import yaml

from sitegen.problems import Problem, in_file
from sitegen.reading.textfile import line_and_column

_HINTS = (
    (
        "mapping values are not allowed",
        "a colon stands where none can be",
        'put the text in quotes: "like: this"',
    ),
    ("could not find expected ':'", "a line is not of the form `key: value`", "add the colon, or indent it"),
    (
        "cannot start any token",
        "a character stands where no value can start with it",
        "put the value in quotes",
    ),
    ("found unexpected end of stream", "a quote or bracket is opened but not closed", "close it"),
    (
        "did not find expected ',' or",
        "a list or record in brackets is not closed",
        "close it, or add a comma",
    ),
    (
        "did not find expected '-'",
        "a line is not in line with the lines around it",
        "line the hyphens up, and the keys below each other",
    ),
    (
        "did not find expected key",
        "a line is not in line with the keys around it",
        "give it their indentation",
    ),
    ("expected a single document", "a second document starts in one file", "remove the line ---"),
    (
        "control characters are not allowed",
        "there is a control character",
        "delete it and type the text again",
    ),
    ("undefined alias", "an alias (*name) refers to nothing", 'put text that starts with * in quotes: "*"'),
    ("unknown escape character", "a backslash in double quotes starts no known escape", "use single quotes"),
)


class _Slip(NamedTuple):
    """What is wrong, at a line and column from 1."""

    line: int
    column: int
    message: str
    advice: str


def yaml_problem(error: yaml.YAMLError, text: str, file: str) -> Problem:
    """The problem that stopped the parser."""
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    line, column = (mark.line + 1, mark.column + 1) if mark else _position(error, text)
    lines = text.splitlines()[:line]
    slip = _tab(lines, line) or next(_slips(lines), None) or _indentation(lines, line, str(error))
    slip = slip or _Slip(line, column, *_explain(str(error)))
    return in_file("not-yaml", file, slip.message, slip.advice, slip.line, slip.column)


def _explain(complaint: str) -> tuple[str, str]:
    for sign, message, advice in _HINTS:
        if sign in complaint:
            return message, advice
    reason = complaint.splitlines()[0]
    return f"the file is not valid YAML ({reason})", "compare the line with content/README.md"


def _position(error: yaml.YAMLError, text: str) -> tuple[int, int]:
    offset = getattr(error, "position", 0) or 0
    before = text.encode("utf-8")[:offset].decode("utf-8", "ignore") if isinstance(offset, int) else ""
    return line_and_column(before)


def _tab(lines: list[str], line: int) -> _Slip | None:
    """A tab in the indentation at the line of the error or just before it."""
    for number in (line, line - 1):
        match = re.match(r" *\t", lines[number - 1]) if 1 <= number <= len(lines) else None
        if match:
            message, advice = "a tab is used for indentation", "use spaces (two for each level)"
            return _Slip(number, match.end(), message, advice)
    return None


_VALUE = re.compile(r"(?:^\s*(?:- +)*|: +|[\[{,] *|- +)(?P<quote>[\"'])")
"""Where a quoted value begins in a line."""


def _slips(lines: list[str]) -> Iterator[_Slip]:
    """Slips of the pen in lines that the parser could not make sense of, in order."""
    inside: str | None = None
    for number, line in enumerate(lines, 1):
        indent = len(line) - len(line.lstrip())
        if inside is not None and (not line.strip() or indent > len(inside)):
            continue  # in a text of several lines
        inside = line[:indent] if re.search(r": *[|>][+-]?\d?\s*$", line) else None
        if inside is None and not line.lstrip().startswith("#"):
            yield from _quotes(line, number)
            yield from _brackets(line, number)


def _quotes(line: str, number: int) -> Iterator[_Slip]:
    """A quote that this line opens and does not close, or behind which the text goes on."""
    start = 0
    while match := _VALUE.search(line, start):
        quote, opened = match["quote"], match.start("quote")
        end = _closing(line, quote, opened + 1)
        if end is None:
            advice = f"close it with {quote} at the end of the text"
            yield _Slip(number, opened + 1, "a quote is opened on this line and not closed", advice)
            return
        behind = line[end + 1 :]
        if not re.match(r"\s*(?:$|[,\]}:]|\s#)", behind):
            said = line[opened : end + 1]
            whole = re.split(r"[\]}]|\s#", line[opened + 1 :])[0].strip().strip("\"'")
            advice = f'put the whole text in double quotes: "{whole}"' if quote == "'" else _single(whole)
            message = f"the quote ends after {said}, and the text goes on"
            yield _Slip(number, end + 2, message, advice)
            return
        start = end + 1


def _single(whole: str) -> str:
    return f"write the quotes inside as single ones, or put the whole text in single quotes: '{whole}'"


def _closing(line: str, quote: str, start: int) -> int | None:
    """Index of the quote that closes a text from ``start`` on."""
    index = start
    while index < len(line):
        if quote == '"' and line[index] == "\\":
            index += 2
            continue
        if line[index] == quote:
            if quote == "'" and line[index + 1 : index + 2] == "'":  # '' stands for one quote in the text
                index += 2
                continue
            return index
        index += 1
    return None


def _brackets(line: str, number: int) -> Iterator[_Slip]:
    """A colon in a plain text inside ``{ }``: the parser takes what is before it for a key."""
    bare = re.sub(r"\"[^\"]*\"|'[^']*'", lambda match: "_" * len(match[0]), line)  # places stay
    for record in re.finditer(r"\{([^{}]*)\}?", bare):
        for part in re.finditer(r"(?:^|,)\s*([\w-]+): +(?=\S)([^,]*?: [^,]*)", record[1]):
            at = record.start(1) + part.start(2)
            text = line[at : record.start(1) + part.end(2)]
            column = at + text.index(": ") + 1
            message = "a colon stands in a text inside { }"
            yield _Slip(number, column, message, f'put the text in quotes: {part[1]}: "{text.strip()}"')


def _indentation(lines: list[str], line: int, complaint: str) -> _Slip | None:
    """A line that begins between the columns of the lines around it."""
    expected = "did not find expected" in complaint or "mapping values are not allowed" in complaint
    if not expected or not 1 <= line <= len(lines):
        return None
    wrong = lines[line - 1]
    if "mapping values" in complaint and wrong.count(": ") > 1:  # more likely a colon in its text
        return None
    indent = len(wrong) - len(wrong.lstrip())
    if not re.match(r"\s*(?:- +)?[\w-]+:(?:\s|$)", wrong):
        return None
    above = {
        _key_column(one) for one in lines[: line - 1] if one.strip() and not one.lstrip().startswith("#")
    }
    near = sorted(above - {indent}, key=lambda column: (abs(column - indent), -column))
    if not near or (indent in above and wrong.lstrip().startswith("-")):
        return None
    message = f"this line begins with {_spaces(indent)}, which fits no line above it"
    return _Slip(line, indent + 1, message, f"begin it with {_spaces(near[0])}, as the keys it belongs to")


def _key_column(line: str) -> int:
    """Where the key of a line begins: behind the hyphens of list entries."""
    return len(line) - len(re.sub(r"^\s*(?:- +)*", "", line))


def _spaces(number: int) -> str:
    return "1 space" if number == 1 else f"{number or 'no'} spaces"
