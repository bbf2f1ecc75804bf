"""The YAML parser's complaints in words for somebody who does not know YAML, at the line that caused them.

The parser reports where it could not go on. A quote that is not closed, or a colon in a text, is often
lines before that, so the lines are looked through for these slips first.
"""

import yaml

from sitegen.problems import Problem
from sitegen.reading.line_beginnings import Slip
from sitegen.reading.pen_slips import sure_slips
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


def yaml_problem(error: yaml.YAMLError, text: str, file: str) -> Problem:
    """The problem that stopped the parser."""
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    line, column = (mark.line + 1, mark.column + 1) if mark else _position(error, text)
    lines = text.splitlines()[:line]
    if slip := next(sure_slips(lines), None):
        return slip.problem(file)
    return Slip(line, column, *_explain(str(error)), {}).problem(file)


def stops(error: yaml.YAMLError, text: str) -> tuple[int, ...]:
    """The line where the parser stopped, and where the list, record or text that it was in begins."""
    marks = [getattr(error, name, None) for name in ("problem_mark", "context_mark")]
    lines = [mark.line + 1 for mark in marks if mark]
    return tuple(lines) or (_position(error, text)[0],)


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
