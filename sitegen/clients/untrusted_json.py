"""JSON that anybody may have written, to plain data: small, flat and without surprises, or refused in a line.

Beyond RFC 8259 it is refused when it is large or deep (a reader must not run out of memory or of stack), when
a name comes twice (readers differ in which one they take), and when a text holds characters that a terminal
obeys, that turn the direction of writing or break lines, or that nobody sees and programs read (Unicode
Technical Report 36): a note could forge what is shown. The marks of direction U+200E, U+200F and U+061C and
the joiners stay: Arabic, Hebrew and others are not written well without, and none reaches past its place.
"""

import json
import math
import re
from collections.abc import Iterable
from pathlib import Path
from typing import Any

MOST_BYTES = 2_000_000
"""A log of 200 sittings with full notes stays below half of it."""
MOST_DEPTH = 12
"""The public progress file is nine deep."""
MOST_DIGITS = 12
"""Of a number. A log's largest has few; Python would work long on millions of them."""
_SHOWN = 30
"""Characters of a text from outside that a message of one line has room for (our choice)."""
_OBEYED = re.compile(
    r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff\ufeff\ufffe\uffff"
    r"\U000e0000-\U000e007f]"
)
_FLAG = re.compile(r"\U0001f3f4[\U000e0030-\U000e0039\U000e0061-\U000e007a]{3,6}\U000e007f")
"""A flag such as that of Wales, which is written with tags (Unicode Technical Standard 51)."""
TOO_DEEP = "it is nested too deep for a log"


class NotAccepted(Exception):
    """Why something is not read, in one line for the trainer."""


def read_json(path: Path) -> Any:
    """The data of a file. Raises NotAccepted."""
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        raise NotAccepted(f"it cannot be read ({error.strerror or error})") from None
    return parse_json(data)


def parse_json(data: bytes) -> Any:
    """The data of some bytes. Raises NotAccepted."""
    if len(data) > MOST_BYTES:
        raise NotAccepted(f"it has more than {MOST_BYTES // 1_000_000} MB, which no log has")
    if not data.strip():
        raise NotAccepted("it is empty")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise NotAccepted(
            f"byte {error.start + 1} is not UTF-8 text; is it the file that was saved?"
        ) from None
    try:
        found = json.loads(
            text, object_pairs_hook=_record, parse_constant=_no_number, parse_int=_whole, parse_float=_broken
        )
    except json.JSONDecodeError as error:
        place = f"line {error.lineno}, column {error.colno}"
        raise NotAccepted(
            f"it is damaged at {place} ({error.msg}); ask for it to be saved and sent again"
        ) from None
    except RecursionError:
        raise NotAccepted(TOO_DEEP) from None
    _check_texts(found, 0)
    return found


def _record(pairs: Iterable[tuple[str, Any]]) -> dict[str, Any]:
    record: dict[str, Any] = {}
    for name, value in pairs:
        if name in record:
            raise NotAccepted(f"the name {shown(name)} stands there twice")
        record[name] = value
    return record


def _no_number(text: str) -> Any:
    raise NotAccepted(f"{text} is not a number of JSON")


def _whole(text: str) -> int:
    if len(text) > MOST_DIGITS:
        raise NotAccepted(f"a number has {len(text)} digits")
    return int(text)


def _broken(text: str) -> float:
    number = float(text)
    if not math.isfinite(number):
        raise NotAccepted(f"{shown(text)} is too large a number")
    return number


def _check_texts(value: Any, depth: int) -> None:
    """No text, and no name, with a character that is an order to a terminal or a page; nothing too deep."""
    if depth > MOST_DEPTH:
        raise NotAccepted(TOO_DEEP)
    if isinstance(value, str):
        value = _FLAG.sub("", value)
        match = _OBEYED.search(value)
        if match:
            what = "half a character" if "\ud800" <= match[0] <= "\udfff" else "a control character"
            before = shown(value[: match.start()])
            raise NotAccepted(f"a text holds {what} (U+{ord(match[0]):04X}) after {before}")
    elif isinstance(value, list):
        for inner in value:
            _check_texts(inner, depth + 1)
    elif isinstance(value, dict):
        for name, inner in value.items():
            _check_texts(name, depth)
            _check_texts(inner, depth + 1)


def shown(text: str) -> str:
    """A text from outside as it may stand in a message: short, and nothing in it obeyed."""
    return ascii(text if len(text) <= _SHOWN else text[:_SHOWN] + "...")
