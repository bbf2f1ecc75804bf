"""Colons, quotes and brackets of a line of YAML: what is missing, or stands there and is another sign.

What these readers are is told in ``line_beginnings.py``.
"""

import re
from collections.abc import Iterator

from sitegen.reading.line_beginnings import MOST_SHOWN, ODD_SPACES, Slip, first_word, space_name

_KEY = r"(?P<before> *(?:- +)*)(?P<key>[A-Za-z_][\w-]*)"  # behind the hyphens of entries
_VALUE_BEGINS = r"(?:^ *(?:- +)*|: +|[\[{,] *)"
"""What stands before a value: the beginning of a line or entry, a colon, a bracket or a comma."""
_MOST_PLACES = 6
"""Places tried in a line for a sign that is missing, the surest first."""


def colon_without_space(line: str, number: int) -> Iterator[Slip]:
    """``title:Hayloft``, and one with white space behind its colon that is no space."""
    for match in re.finditer(
        rf"(?:^(?: *- +)* *|[{{,] *)(?P<key>[A-Za-z_][\w-]*):(?P<odd>[{ODD_SPACES}]*)(?=[^\s:,}}/])", line
    ):
        start, rest = match.start("key"), line[match.end() :]
        first = _value_shown(rest, in_braces="{" in line[:start])
        said = "no space" if not match["odd"] else f"{space_name(match['odd'][0])} instead of a space"
        message = f"there is {said} after the colon: `{match['key']}:{match['odd']}{first}`"
        new = f"{match['key']}: {first}"
        mended = {number: f"{line[:start]}{match['key']}: {rest}"}
        yield Slip(number, match.end("key") + 1, message, f"write `{new}`", mended)


def _value_shown(rest: str, *, in_braces: bool) -> str:
    value = re.match(r"\"[^\"]*\"|[^,{}\[\]]*", rest) if in_braces else None
    return value[0].rstrip() if value and value[0] and len(value[0]) <= MOST_SHOWN else first_word(rest)


_SIGN_FOR_COLON = r"(?P<sign> *(?:::|[;.=|,]|->|：|꞉|:=)? *)"
"""What stands where the colon belongs: nothing, or one of its neighbours on the keyboard."""
# In braces: `{at "1:20", dose 8}`.
_PART_WITHOUT_COLON = re.compile(
    rf"[{{,] *(?P<key>[A-Za-z_][\w-]*)(?: +|{_SIGN_FOR_COLON})"
    r"(?P<value>[^\s:,{}][^:,{}]*|\"[^\"]*\")(?=[,}])"
)


def no_colon(line: str, number: int) -> Iterator[Slip]:
    """``at "1:20"``: a word, and what looks like its value; or a word alone above what belongs to it."""
    match = re.match(rf"{_KEY}(?:{_SIGN_FOR_COLON}(?P<value>[^\s:;.=,|].*)|[ ;.=,|:]*)$", line)
    if match and line[match.end("key") :] != ":" and not re.match(r":(?!:|=)", line[match.end("key") :]):
        yield from _colon_put(line, number, match.start("key"), match["key"], match["value"])
    for part in _PART_WITHOUT_COLON.finditer(line):
        yield from _colon_put(line, number, part.start("key"), part["key"], line[part.start("value") :])


def _colon_put(line: str, number: int, start: int, key: str, value: str | None) -> Iterator[Slip]:
    end = start + len(key)
    if value is None:
        mended, new, old = line[:end] + ":", f"{key}:", line[start:].rstrip()
    else:
        first = _value_shown(value, in_braces="{" in line[:start])
        at = line.index(value, end)
        mended, new, old = f"{line[:end]}: {value}", f"{key}: {first}", line[start : at + len(first)]
    message = f"there is no colon after the key: `{old}`"
    yield Slip(number, end + 1, message, f"write `{new}`", {number: mended})


def open_quote(line: str, number: int) -> Iterator[Slip]:
    """A quote that is opened and not closed, closed where the text may end."""
    for match in re.finditer(rf"{_VALUE_BEGINS}(?P<quote>[\"'])", line):
        quote, opened = match["quote"], match.start("quote")
        if quote in line[opened + 1 :] and line[opened:].count(quote) % 2 == 0:
            continue
        message = "a quote is opened on this line and not closed"
        for end in _ends(line, opened + 1):
            text = line[opened:end].rstrip()
            advice = (
                f"close it with {quote} at the end of the text"
                if end == len(line)
                else _close_behind(text, quote)
            )
            mended = {number: f"{line[:opened]}{text}{quote}{line[end:]}"}
            yield Slip(number, opened + 1, message, advice, mended)


def _close_behind(text: str, sign: str) -> str:
    """What to write where a text or bracket ends within the line; of a long one its end is shown."""
    last = text[-MOST_SHOWN:]
    return f"close it behind `{last}`: `{last}{sign}`"


def goes_on(line: str, number: int) -> Iterator[Slip]:
    """A quote within a text that is in such quotes: it ends there, and the text goes on."""
    match = re.search(
        rf"{_VALUE_BEGINS}(?P<said>\"(?:[^\"\\]|\\.)*\"|'(?:[^']|'')*')(?!\s*(?:$|[,\]}}:]|\s#))",
        line,
    )
    if match:
        start, quote = match.start("said"), match["said"][0]
        whole = re.split(r"[\]}]|\s#", line[start + 1 :])[0].strip().strip("\"'")
        other = "'" if quote == '"' else '"'
        advice = f'put the whole text in double quotes: "{whole}"'
        if quote == '"':
            advice = (
                f"write the quotes inside as single ones, or put the whole text in single quotes: '{whole}'"
            )
        rest = re.search(r"[\]}]|\s#|$", line[start + 1 :])
        mended = {
            number: f"{line[:start]}{other}{whole}{other}{line[start + 1 + (rest.start() if rest else 0) :]}"
        }
        message = f"the quote ends after {match['said']}, and the text goes on"
        yield Slip(number, match.end("said") + 1, message, advice, mended)


def _ends(line: str, start: int) -> list[int]:
    """Where what begins at ``start`` may end: at the end of the line, or before a comma or bracket."""
    inner = (match.start() for match in re.compile(r"[,}\]]").finditer(line, start))
    return [len(line), *inner][:_MOST_PLACES]


def no_opening_quote(line: str, number: int) -> Iterator[Slip]:
    """``title: Hayloft"``."""
    for match in re.finditer(
        rf"{_VALUE_BEGINS}(?P<text>[^\s\"'{{\[,][^\"'{{}}\[\],]*)(?P<quote>\")(?= *(?:$|[,}}\]]))",
        line,
    ):
        old = f"{match['text']}{match['quote']}"
        message = "a quote is closed that is not opened"
        start = match.start("text")
        mended = {number: f"{line[:start]}{match['quote']}{line[start:]}"}
        yield Slip(number, start + 1, message, f"open it before `{old}`: `{match['quote']}{old}`", mended)


_PAIRS = {"{": "}", "[": "]"}


def bracket(line: str, number: int) -> Iterator[Slip]:
    """A bracket that is opened and not closed in its line, or closed and not opened."""
    bare = _without_quoted(line)
    stack: list[int] = []
    crossed: list[int] = []
    for at, sign in enumerate(bare):
        if sign in _PAIRS:
            stack.append(at)
        elif sign in _PAIRS.values():
            if not stack:
                yield from _not_opened(line, number, at, "{" if sign == "}" else "[")
                return
            if _PAIRS[bare[stack[-1]]] != sign and not crossed:
                crossed = [at]
                stack, opened = stack[:-1], stack[-1]
                yield from _not_closed(line, number, opened, [at, *_ends(line, opened + 1)])
            if stack:
                stack.pop()
    if stack and not crossed:
        yield from _not_closed(line, number, stack[-1], _ends(line, stack[-1] + 1))


def _not_closed(line: str, number: int, opened: int, ends: list[int]) -> Iterator[Slip]:
    close = _PAIRS[line[opened]]
    message = f"the bracket {line[opened]} is opened on this line and not closed"
    for end in ends:
        before = line[:end].rstrip()
        advice = (
            f"close it with {close} at the end of the line"
            if end == len(line)
            else _close_behind(before[opened:], close)
        )
        yield Slip(number, opened + 1, message, advice, {number: f"{before}{close}{line[end:]}"})


def _not_opened(line: str, number: int, at: int, sign: str) -> Iterator[Slip]:
    head = re.match(r" *(?:- +)*", line)
    starts = [match.end() for match in re.finditer(r"^ *(?:- +)*(?:[\w-]+: +)?|[\[{,: ] +(?=\S)", line[:at])]
    message = f"the bracket {line[at]} closes nothing: none is opened before it"
    for start in dict.fromkeys([*starts[:1], head.end() if head else 0, *starts[1:_MOST_PLACES]]):
        first = first_word(line[start:])
        advice = f"open it before `{first}`: `{sign}{first}`"
        yield Slip(number, start + 1, message, advice, {number: f"{line[:start]}{sign}{line[start:]}"})


def curly_quotes(line: str, number: int) -> Iterator[Slip]:
    """A text in curly quotes, which word processors make of straight ones."""
    match = re.search(rf"{_VALUE_BEGINS}([“”„‟]([^“”„‟\"]*)[“”„‟\"])", line)
    if match:
        message = f"{match[1]} is in curly quotes, as word processors make them"
        mended = {number: f'{line[: match.start(1)]}"{match[2]}"{line[match.end(1) :]}'}
        yield Slip(number, match.start(1) + 1, message, f'write straight ones: "{match[2]}"', mended)


def colon_in_text(line: str, number: int) -> Iterator[Slip]:
    """A colon in a text without quotes: what is before it looks like a key."""
    match = re.match(
        r"(?P<before> *(?:- +)*(?:[\w-]+: +)?)(?P<text>(?![\w-]+:\s)[^\s\"'{\[|>&*!%#@`].*?: .*?)(?: +#.*)?$",
        line,
    )
    if match:
        text = match["text"].replace('"', "'")
        column = line.index(": ", match.start("text")) + 1
        mended = {number: f'{match["before"]}"{text}"'}
        message = "a colon stands where none can be"
        yield Slip(number, column, message, f'put the text in quotes: "{text}"', mended)


# In braces: `{note: stop: look}`.
_PART_WITH_COLON = re.compile(r"(?:^|,)\s*(?P<key>[\w-]+): +(?=\S)(?P<text>[^,]*?: [^,]*)")


def colon_in_braces(line: str, number: int) -> Iterator[Slip]:
    """A colon in a plain text inside ``{ }``: the parser takes what is before it for a key."""
    for record in re.finditer(r"\{([^{}]*)\}?", _without_quoted(line)):
        for part in _PART_WITH_COLON.finditer(record[1]):
            start, end = record.start(1) + part.start("text"), record.start(1) + part.end("text")
            text = line[start:end].rstrip()
            message = "a colon stands in a text inside { }"
            advice = f'put the text in quotes: {part["key"]}: "{text}"'
            mended = {number: f'{line[:start]}"{text}"{line[end:]}'}
            yield Slip(number, line.index(": ", start) + 1, message, advice, mended)


def _without_quoted(line: str) -> str:
    """The line with as many other characters where texts in quotes stand."""
    return re.sub(r"\"[^\"]*\"|'[^']*'", lambda match: "_" * len(match[0]), line)
