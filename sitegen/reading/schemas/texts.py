"""Shapes for words: names, lines and Markdown texts, ids, dates and addresses."""

import re
from datetime import date
from typing import Any
from urllib.parse import urlsplit

from slugify import slugify

from sitegen.notation import NotationError
from sitegen.reading.markdown import trouble_in
from sitegen.reading.schemas.dates import date_advice, last_days, readings
from sitegen.reading.schemas.losses import warn_of_comment
from sitegen.reading.schemas.report import BAD, Path, Reading, name_of
from sitegen.reading.schemas.scalars import Scalar, Short
from sitegen.reading.source import Node, place
from sitegen.reading.textfile import line_and_column
from sitegen.vocabulary import DEMANDS

ID_PATTERN = r"[a-z0-9]+(?:-[a-z0-9]+)*"
LONGEST_ID = 80
"""Characters of an id that is written in a file: a whole line, which no address should be longer than (our
choice)."""
_ID = re.compile(ID_PATTERN)
_SENTENCE_ENDS = re.compile(r"[.!?]\s+\S")  # and another one begins
_INVISIBLE = re.compile(r"[\x00-\x08\x0b-\x1f\x7f\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff]")
"""No text holds these. Control characters, lone surrogates, U+FFFE and U+FFFF make a feed ill-formed
(XML 1.0, production 2, Char); those that turn the direction of writing make a text look like another."""


class Text(Scalar):
    """Words, with Markdown in them; several paragraphs where ``lines`` allows it."""

    def __init__(self, most: int = 5000, *, lines: bool = True) -> None:  # characters: a long page of print
        self.most, self.lines = most, lines
        self.says = "text" if lines else "one line of text"

    def parse(self, text: str) -> str:
        if len(text) > self.most:
            raise NotationError(f"the text has {len(text)} characters", f"use at most {self.most}")
        if "\n" in text and not self.lines and "\n" in text.strip():
            raise NotationError("the text has several lines", "write it on one line")
        if _INVISIBLE.search(text):
            raise NotationError("the text has an invisible control character", "type the text again")
        return text.strip()

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        value = super().read(node, reading, path)
        if value is not BAD:
            warn_of_comment(node, name_of(path), reading)
        if value is BAD or not ("<" in value or "](" in value or "]:" in value):
            return value
        good = True
        for offset, check, message, advice in trouble_in(node.value):
            line, column = _place_in(node, offset)
            reading.report_at(line, column, check, message, advice)
            good = False
        return value if good else BAD

    def schema(self) -> dict[str, Any]:
        return {"type": "string", "maxLength": self.most}


class Sentence(Text):
    """One sentence without Markdown; the full stop may be left out."""

    def __init__(self, most: int) -> None:
        super().__init__(most, lines=False)
        self.says = "one short sentence"

    def parse(self, text: str) -> str:
        sentence = super().parse(text)
        if _SENTENCE_ENDS.search(sentence):
            raise NotationError("the text has several sentences", "keep the first; the others are cues")
        return sentence if sentence.endswith((".", "!", "?")) else f"{sentence}."


def _place_in(node: Node, offset: int) -> tuple[int, int]:
    """Line and column of a character inside a scalar, as near as the notation allows."""
    line, column = place(node)
    style = getattr(node, "style", None)
    if style in ("|", ">"):  # a block starts on the line after its sign
        inside, column = line_and_column(node.value[:offset])
        return line + inside, column
    return line, column + offset + (1 if style else 0)


def check_page_text(text: str, first_line: int, reading: Reading) -> bool:
    """Report what Markdown would not show as meant in a page that starts on ``first_line``."""
    good = True
    for offset, check, message, advice in trouble_in(text):
        line, column = line_and_column(text[:offset])
        reading.report_at(first_line + line - 1, column, check, message, advice)
        good = False
    return good


class DemandWord(Text):
    """A demand: one of the known words, or one that the series declares (checked where files meet)."""

    def __init__(self) -> None:
        super().__init__(60, lines=False)
        self.says = "a demand"

    def schema(self) -> dict[str, Any]:
        known = [{"const": word, "description": sentence} for word, sentence in DEMANDS.items()]
        return {"anyOf": [*known, super().schema()]}


class Ident(Scalar):
    """An id or slug: lower-case words joined by hyphens."""

    says = "an id (lower-case words joined by hyphens)"

    def parse(self, text: str) -> str:
        if not _ID.fullmatch(text) or len(text) > LONGEST_ID:
            suggestion = slugify(text, max_length=LONGEST_ID)
            advice = f"write {suggestion}" if _ID.fullmatch(suggestion) else "write for example towel-row"
            raise NotationError(f"{text!r} is not an id", advice)
        return text

    def schema(self) -> dict[str, Any]:
        return {"type": "string", "pattern": f"^{ID_PATTERN}$"}


class Reference(Ident):
    """The id of something that is written elsewhere. Any short text is read: whether it is there, and what
    was meant where it is not, is told where the files meet."""

    def __init__(self, what: str, says: str = "") -> None:
        """``what`` is named in messages, ``says`` with its article where that is not "a"."""
        self.what, self.says = what, f"the id of {says or f'a {what}'}"

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        value = super().read(node, reading, path)
        if value is not BAD:
            reading.references.append((self.what, path, value))
        return value

    def parse(self, text: str) -> str:
        if not text.strip() or "\n" in text or len(text) > 100:
            raise NotationError(f"{text[:40]!r} is not an id", "write for example towel-row")
        return text.strip()


class Day(Scalar):
    """A date, year-month-day (ISO 8601)."""

    says = "a date such as 2026-09-14"

    first, last = date(1900, 1, 1), date(2199, 12, 31)
    """A day outside is a slip; calendars that count on from it must not run out of years (1 to 9999)."""

    def parse(self, text: str) -> date:
        if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
            raise NotationError(f"{text!r} is not a date", date_advice(text))
        try:
            day = date.fromisoformat(text)
        except ValueError:
            raise NotationError(f"there is no such day as {text!r}", last_days(text)) from None
        if not self.first <= day <= self.last:
            message = f"{text!r} is not a year to plan for"
            raise NotationError(message, f"write a day from {self.first} to {self.last}")
        return day

    def usual(self, text: str) -> str | None:
        days = readings(text)
        return days[0] if len(days) == 1 else None

    def schema(self) -> dict[str, Any]:
        return {"type": "string", "format": "date", "examples": ["2026-09-14"]}


class FilePath(Scalar):
    """A file below the content folder, with ``/`` between folders."""

    says = "a file below the content folder, such as media/03.webm"

    def parse(self, text: str) -> str:
        if "\\" in text or ":" in text or any(not part or part[0] == "." for part in text.split("/")):
            message = f"{text!r} is not a path inside the content folder"
            raise NotationError(message, "write for example media/03.webm")
        return text

    def schema(self) -> dict[str, Any]:
        return {"type": "string", "examples": ["media/03.webm"]}


class FolderBeside(Scalar):
    """A folder outside of the content folder, as the way to it from there, with ``/`` between folders."""

    says = "a folder outside of the content folder, such as ../../harbour/content"

    def parse(self, text: str) -> str:
        parts = text.rstrip("/").split("/")
        inner = [part for part in parts if part != ".."]
        beside = parts[: len(parts) - len(inner)] == [".."] * (len(parts) - len(inner)) != []
        if "\\" in text or ":" in text or not inner or not beside or any(part in ("", ".") for part in inner):
            advice = "write the way to it from the content folder, such as ../../harbour/content"
            raise NotationError(f"{text!r} is no folder outside of the content folder", advice)
        return "/".join(parts)

    def schema(self) -> dict[str, Any]:
        return {"type": "string", "examples": ["../../harbour/content"]}


class WebAddress(Scalar):
    """An https or http address; ``{id}``-like places to fill in where ``fields`` names them."""

    says = "a web address starting with https://"
    most = 1000
    """Bytes. The QR code of a sheet holds an address with the page's path: 2,331 bytes at most at its level
    of correction (ISO/IEC 18004, version 40-M)."""

    def __init__(self, fields: tuple[str, ...] = ()) -> None:
        self.fields = fields

    def parse(self, text: str) -> str:
        if len(text.encode()) > self.most:
            message = f"the web address is {len(text):,} characters long"
            raise NotationError(message, f"write a shorter one, of {self.most:,} at most")
        filled = text
        for name in self.fields:
            filled = filled.replace(f"{{{name}}}", "0")
        try:
            parts = urlsplit(filled)
        except ValueError:
            parts = urlsplit("")
        if parts.scheme not in ("https", "http") or not parts.netloc or re.search(r"[\s{}<>\"']", filled):
            places = "".join(f" with {{{name}}}" for name in self.fields)
            raise NotationError(f"{text!r} is not a web address", f"write https://…{places}")
        if "@" in parts.netloc:  # not repeated: what stands there may be a password
            raise NotationError(
                "a web address with a name or a password before @ would be shown to everybody",
                f"write it without them: {parts.scheme}://{parts.netloc.rpartition('@')[2]}{parts.path}",
            )
        return text

    def schema(self) -> dict[str, Any]:
        return {"type": "string", "pattern": "^https?://"}


class Matching(Scalar):
    """A text of a fixed form, taken as it is written."""

    def __init__(self, says: str, form: str, advice: str, **schema: Any) -> None:
        self.says, self._pattern, self._advice, self._schema = says, re.compile(form), advice, schema

    def parse(self, text: str) -> str:
        if not self._pattern.fullmatch(text):
            raise NotationError(f"{text!r} is not {self.says}", self._advice)
        return text

    def schema(self) -> dict[str, Any]:
        return {"type": "string", **self._schema}


LANGUAGE = Matching(
    "a language code",
    r"[a-z]{2,3}(-[A-Za-z0-9]{2,8})*",  # as BCP 47 writes them
    "write for example en or de",
    examples=["en"],
)
LIBRARY_VERSION = Matching(
    "a version of a library",
    "[0-9a-f]{8}",
    "write a version such as 3f2a91c0, as sitegen check tells it",
    pattern="^[0-9a-f]{8}$",
    examples=["3f2a91c0"],
)
EMAIL = Matching(
    "an e-mail address",
    r"[^@\s<>\"']+@[^@\s<>\"']+\.[^@\s<>\"']+",
    "write for example hello@movement.example",
    format="email",
)
DIALLED_NUMBER = Matching(
    "a telephone number",
    r"\+?\d(?:[ -]?\d){1,14}",  # E.164: at most 15 digits
    'write only digits, such as "112"',
    examples=["112"],
)


def _time_zone(text: str) -> str:
    """A time zone of the IANA database."""
    from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

    try:
        ZoneInfo(text)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        message = f"{text!r} is not a known time zone"
        raise NotationError(message, "write for example Europe/Lisbon") from None
    return text


TIME_ZONE = Short("a time zone such as Europe/Lisbon", _time_zone, "Europe/Lisbon")
