"""Slips of a typist, made one at a time in files that are right, and what the messages about them are worth.

A message is worth something where it names the line of the slip, and more where somebody who does just what
it says has the file as it was. :func:`follow` is that somebody: it changes what the words in backquotes, in
quotes or the number of spaces say, and nothing else.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sitegen.problems import Problem, in_order
from sitegen.reading.files import read_file

Change = Callable[[str], str | None]
"""A line to the line with the slip; None where the line has no place for it."""

_KEY = re.compile(r"(?P<before> *(?:- +)*[\w -]*\w):(?P<gap> +|$)")
_IN_BRACES = re.compile(r"(?P<before>.*[{,] *[\w-]+): (?P<value>[^,{}\[\]]+[,}].*)")


def _in_key(put: str) -> Change:
    def change(line: str) -> str | None:
        match = _KEY.match(line)
        return f"{match['before']}{put or match['gap']}{line[match.end() :]}".rstrip() if match else None

    return change


def _spaceless(line: str) -> str | None:
    match = _KEY.match(line)
    return f"{match['before']}:{line[match.end() :]}" if match and match["gap"] else None


def _double(line: str) -> str | None:
    match = _KEY.match(line)
    return f"{match['before']}::{match['gap']}{line[match.end() :]}" if match else None


def _in_braces(put: str) -> Change:
    def change(line: str) -> str | None:
        match = _IN_BRACES.match(line)
        return f"{match['before']}{put}{match['value']}" if match else None

    return change


def _bullet(put: str) -> Change:
    def change(line: str) -> str | None:
        return re.sub(r"^( *)- ", rf"\g<1>{put}", line) if re.match(r" *- ", line) else None

    return change


def _indent(put: Callable[[int], str | None]) -> Change:
    def change(line: str) -> str | None:
        width = len(line) - len(line.lstrip())
        new = put(width)
        return None if new is None else new + line.lstrip()

    return change


def _last(sign: str) -> Change:
    def change(line: str) -> str | None:
        at = line.rfind(sign)
        return None if at < 0 or not _structural(line) else line[:at] + line[at + 1 :]

    return change


def _first(sign: str) -> Change:
    def change(line: str) -> str | None:
        at = line.find(sign)
        return None if at < 0 or not _structural(line) else line[:at] + line[at + 1 :]

    return change


def _structural(line: str) -> bool:
    """True where quotes and brackets of a line are those of YAML and not of its text."""
    return bool(re.fullmatch(r" *(?:- +)*(?:[\w -]*\w: +)?(?:\{.*\}|\[.*\]|\"[^\"]*\"|'[^']*')", line))


def _curly(line: str) -> str | None:
    return re.sub(r'"([^"]*)"', "“\\1”", line, count=1) if '"' in line and _structural(line) else None


SLIPS: dict[str, Change] = {
    "no colon": _in_key(""),
    "no colon in { }": _in_braces(" "),
    "no space after the colon": _spaceless,
    "no space after the colon in { }": _in_braces(":"),
    "double colon": _double,
    "a full stop for the colon": _in_key(". "),
    "a semicolon for the colon": _in_key("; "),
    "an equals sign for the colon": _in_key(" = "),
    "non-breaking space after the colon": _in_key(":\u00a0"),
    "en dash for the hyphen": _bullet("– "),
    "em dash for the hyphen": _bullet("— "),
    "bullet for the hyphen": _bullet("• "),
    "star for the hyphen": _bullet("* "),
    "no space after the hyphen": _bullet("-"),
    "non-breaking space after the hyphen": _bullet("-\u00a0"),
    "tab before the line": _indent(lambda width: "\t" + " " * width),
    "tab for two spaces": _indent(lambda width: " " * (width - 2) + "\t" if width > 1 else None),
    "non-breaking spaces before the line": _indent(lambda width: "\u00a0" * width if width else None),
    "one non-breaking space among spaces": _indent(
        lambda width: "\u00a0" + " " * (width - 1) if width else None
    ),
    "one space more": _indent(lambda width: " " * (width + 1)),
    "one space less": _indent(lambda width: " " * (width - 1) if width else None),
    "closing quote dropped": _last('"'),
    "opening quote dropped": _first('"'),
    "closing brace dropped": _last("}"),
    "opening brace dropped": _first("{"),
    "closing bracket dropped": _last("]"),
    "opening bracket dropped": _first("["),
    "curly quotes": _curly,
    "key twice": lambda line: f"{line}\n{line}" if re.match(r" *[\w-]+: +\S", line) else None,
}


@dataclass(frozen=True, slots=True)
class Slip:
    """One slip in one file."""

    name: str
    kind: str
    file: str
    right: str
    at: int
    """The number of the line that is changed, from 1."""
    changed: str

    @property
    def wrong(self) -> str:
        """The text with the slip."""
        lines = self.right.split("\n")
        return "\n".join([*lines[: self.at - 1], self.changed, *lines[self.at :]])

    @property
    def line(self) -> int:
        """The line that is to be named: of a key that is there twice the second."""
        return self.at + (self.name == "key twice")


def places_of(kind: str, file: str, text: str, name: str) -> Iterator[Slip]:
    """A slip at every line of a file that has a place for it, but for comments and texts of several lines."""
    lines = text.split("\n")
    for number in _plain_lines(lines):
        changed = SLIPS[name](lines[number])
        if changed is not None and changed != lines[number]:
            yield Slip(name, kind, file, text, number + 1, changed)


def _plain_lines(lines: list[str]) -> Iterator[int]:
    inside = -1
    for number, line in enumerate(lines):
        indent = len(line) - len(line.lstrip())
        if inside >= 0 and (not line.strip() or indent > inside):
            continue
        inside = indent if re.search(r": *[|>][+-]?\s*$", line) else -1
        if line.strip() and not line.lstrip().startswith("#") and inside < 0:
            yield number


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of a slip."""

    said: Problem | None
    """The first problem, None where nothing was said."""
    place: bool
    """It names the line of the slip."""
    mended: bool
    """The file says again what it said once the advice was followed."""


def outcome(slip: Slip) -> Outcome | None:
    """What is said of a slip; None where the file says the same as before."""
    value = _value(slip, slip.right)[0]
    now, problems = _value(slip, slip.wrong)
    if not problems:
        return None if now == value else Outcome(None, False, False)
    first = problems[0]
    followed = follow(slip.wrong, first)
    again, left = _value(slip, followed) if followed is not None else (None, [])
    return Outcome(first, first.line == slip.line, followed is not None and not left and again == value)


def _value(slip: Slip, text: str) -> tuple[Any, list[Problem]]:
    result = read_file(slip.kind, slip.file, text.encode())
    return result.value, in_order(p for p in result.problems if p.severity == "problem")


def follow(text: str, problem: Problem) -> str | None:
    """The text with the advice followed to the letter; None where it does not say what to do."""
    if problem.line is None or problem.column is None:
        return None
    lines = text.split("\n")
    line, at = lines[problem.line - 1], problem.column - 1
    new = _followed(line, at, problem.message, problem.advice)
    if new is None:
        return None
    lines[problem.line - 1 : problem.line] = [new] if new else []
    return "\n".join(lines)


def _followed(line: str, at: int, message: str, advice: str) -> str | None:
    if spaces := re.search(r"begin it with (\d+|no) spaces?|with (1) space\b", advice):
        count = spaces[1] or spaces[2]
        return " " * (0 if count == "no" else int(count)) + line.lstrip()
    if close := re.search(r"close it with (\S+) at the end of the (?:text|line)", advice):
        return line.rstrip() + close[1]
    if advice == "keep one of the two":
        return ""
    if put := re.search(r"`([^`]*)`: `([^`]*)`", advice):
        start = line.find(put[1], at)
        return None if start < 0 else line[:start] + put[2] + line[start + len(put[1]) :]
    old, words = re.search(r"`([^`]*)`", message), re.search(r"`([^`]*)`", advice)
    if old and words:
        start = line.find(old[1], max(0, at - len(old[1])))
        return None if start < 0 else line[:start] + words[1] + line[start + len(old[1]) :]
    if straight := re.search(r'write straight ones: (".*")', advice):
        return re.sub("“.*?”", straight[1].replace("\\", r"\\"), line)
    if key := re.search(r"did you mean '(.*)'\?", advice):
        return line[:at] + re.sub(r"^[^:]*:*", f"{key[1]}:", line[at:])
    if value := re.fullmatch(r'write ("[^"]*")', advice):
        return line[:at] + re.sub(r"^[^,{}\[\]]*", value[1], line[at:])
    return None


def content_files(root: Path) -> Iterator[tuple[str, str, str]]:
    """Kind, file and text of the YAML files of a content folder."""
    yield "series", "series.yaml", (root / "series.yaml").read_text(encoding="utf-8")
    for kind in ("episodes", "exercises", "routines"):
        for path in sorted((root / kind).glob("*.yaml")):
            yield kind, f"{kind}/{path.name}", path.read_text(encoding="utf-8")
