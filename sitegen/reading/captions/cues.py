"""Caption files, WebVTT and SubRip (SRT): read strictly, every problem with its line; written as WebVTT.

WebVTT: W3C, *WebVTT: The Web Video Text Tracks Format*. The form is told by the content, not
by the file's name.
"""

import html
import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import PurePosixPath

from sitegen.problems import Problem, in_file
from sitegen.reading.captions.blocks import CaptionBlock, blocks, plain_text, split_lines
from sitegen.reading.captions.times import ARROW, TimingFault, print_stamp, read_timings

MOST_BYTES = 2_000_000
"""Largest caption file of a site: some thirty hours of talk."""

_UTF16_MARKS = (b"\xff\xfe", b"\xfe\xff")
_NO_CUE = re.compile(r"(?:NOTE|STYLE|REGION)(?:[ \t]|$)")  # blocks of WebVTT that nobody sees
_HEADER_FIELD = re.compile(r"[A-Za-z][\w-]*:.*")  # "Kind: captions", below the first line


@dataclass(frozen=True, slots=True, kw_only=True)
class Cue:
    """What is said from ``start_ms`` to ``end_ms``, as plain text."""

    start_ms: int
    end_ms: int
    """Later than ``start_ms``."""
    text: str
    """Lines joined by a line feed; no markup, nothing escaped."""
    identifier: str
    """Empty where there is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Captions:
    """The usable cues, by start, and everything that is wrong with the file."""

    cues: tuple[Cue, ...]
    problems: list[Problem]


def decoded(data: bytes) -> str:
    """The text of a file in any of the encodings that programs save captions in."""
    if data.startswith(_UTF16_MARKS):
        return data.decode("utf-16", errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        return error.object.decode("cp1252", errors="replace")


class _Reader:
    """Collects cues and problems of one file; ``name`` is its path below the content folder."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.cues: list[Cue] = []
        self.problems: list[Problem] = []
        self._identifiers: set[str] = set()

    def report(
        self,
        check: str,
        line: int | None,
        message: str,
        advice: str = "",
        *,
        column: int | None = None,
        severity: str = "problem",
    ) -> None:
        check = f"captions-{check}"
        self.problems.append(in_file(check, self.name, message, advice, line, column, severity=severity))

    def warn(self, check: str, line: int, message: str, advice: str = "") -> None:
        self.report(check, line, message, advice, severity="warning")

    def decode(self, data: bytes) -> str | None:
        """The text; None where the file cannot be text at all. A wrong encoding is reported and read on."""
        if data.startswith(_UTF16_MARKS):
            self.report("encoding", None, "the file is saved as UTF-16", "save it as UTF-8")
            return decoded(data)
        if (place := data.find(b"\0")) >= 0:
            line = data.count(b"\n", 0, place) + 1
            message = f"byte {place + 1} is zero: this is no text file"
            self.report("encoding", line, message, "export it as WebVTT or SRT")
            return None
        try:
            return data.decode("utf-8-sig")
        except UnicodeDecodeError as error:
            before = error.object[: error.start]  # without a byte-order mark
            place = error.start + len(data) - len(error.object)
            column = error.start - before.rfind(b"\n")
            message = f"byte {place + 1} (0x{data[place]:02x}) is not UTF-8"
            self.report("encoding", before.count(b"\n") + 1, message, "save the file as UTF-8", column=column)
            return decoded(data)

    def read(self, text: str) -> None:
        """Cues and problems of the whole text."""
        lines = split_lines(text)
        if not any(ARROW in line for line in lines):
            if lines[0].strip() != "WEBVTT":
                advice = "export the captions as WebVTT or SRT"
                self.report("form", None, "the file has no cue with times", advice)
            return
        form, first = self._form(lines)
        for block in blocks(lines, first):
            if form == "vtt" and block.timing is None and _NO_CUE.match(block.lines[0]):
                continue
            self._cue(block, form)

    def _form(self, lines: list[str]) -> tuple[str, int]:
        """``vtt`` or ``srt``, and the index of the first line behind the header."""
        head = lines[0]
        if head == "WEBVTT" or head.startswith(("WEBVTT ", "WEBVTT\t")):
            first = 1
            while first < len(lines) and _HEADER_FIELD.fullmatch(lines[first]) and ARROW not in lines[first]:
                first += 1
            if first < len(lines) and lines[first].strip():
                self.warn("header", first + 1, "no blank line after WEBVTT", "leave one line empty")
            return "vtt", first
        if head.upper().startswith("WEBVTT"):
            self.report("header", 1, f"the first line is {head[:40]!r}", "write WEBVTT alone on it")
            return "vtt", 1
        arrow = next((line for line in lines if ARROW in line), "")
        # SubRip writes a comma before the milliseconds; a file without any goes by its name.
        if "," in arrow or (PurePosixPath(self.name).suffix.lower() != ".vtt" and "." not in arrow):
            return "srt", 0
        if arrow:
            advice = "write WEBVTT and a blank line above the first cue"
            self.report("header", 1, "the file does not begin with WEBVTT", advice)
        return "vtt", 0

    def _cue(self, block: CaptionBlock, form: str) -> None:
        timing = block.timing
        if timing is None or timing > 1:
            advice = "begin each cue with its times, or delete the lines"
            self.report("form", block.line, "these lines have no times", advice)
            return
        line = block.line + timing
        try:
            start, end = read_timings(block.lines[timing], form)
        except TimingFault as fault:
            self.report("time", line, fault.what, fault.instead, column=fault.column)
            return
        identifier = block.lines[0].strip() if timing == 1 else ""
        if identifier and identifier in self._identifiers:
            self.warn("id", block.line, f"the cue id {identifier!r} is used twice", "number the cues again")
        self._identifiers.add(identifier)
        text = plain_text(block.lines[timing + 1 :])
        self._check_order(start, line)
        if text:
            self.cues.append(Cue(start_ms=start, end_ms=end, text=text, identifier=identifier))
        else:
            self.warn("empty", line, "the cue has no text", "delete it, or write what is said")

    def _check_order(self, start: int, line: int) -> None:
        if not self.cues:
            return
        last = self.cues[-1]
        if start < last.start_ms:
            message = "the cue starts before the one above it"
            self.report("order", line, message, "put the cues in order of time")
        elif start < last.end_ms:
            message = f"the cue starts {(last.end_ms - start) / 1000:g} s before the one above it ends"
            self.warn("overlap", line, message, "end that one earlier")


def read_captions(data: bytes, name: str, *, most_bytes: int = MOST_BYTES) -> Captions:
    """All cues that can be used and all problems of a caption file.

    A ``problem`` makes a cue (or the file) unusable; a ``warning`` is an overlap, an empty cue, an
    id used twice or a missing blank line. ``name`` is the path that the problems give.
    """
    reader = _Reader(name)
    if len(data) > most_bytes:
        message = f"the file has {len(data) / 1e6:.1f} MB; a caption file may have {most_bytes / 1e6:g} MB"
        reader.report("size", None, message, "is this really a caption file?")
        return Captions(cues=(), problems=reader.problems)
    text = reader.decode(data)
    if text is not None and text.strip():
        reader.read(text)
    if not reader.cues and not reader.problems:
        reader.report("empty", None, "the file has no cues", "export the captions again")
    # Those out of order were told above; what reads cues may rest on it. Of one start they stay as written.
    return Captions(cues=tuple(sorted(reader.cues, key=lambda cue: cue.start_ms)), problems=reader.problems)


def write_vtt(cues: Iterable[Cue]) -> str:
    """A valid WebVTT file: text escaped, ids unique, no blank line inside a cue.

    Raises ValueError where a cue ends before it starts or cues are not in order of start.
    """
    parts = ["WEBVTT\n"]
    used: set[str] = set()
    latest = 0
    for cue in cues:
        if not latest <= cue.start_ms < cue.end_ms:
            raise ValueError(f"cue at {cue.start_ms} ms is out of order or ends before it starts")
        latest = cue.start_ms
        name = cue.identifier
        good = name.isprintable() and ARROW not in name and not _NO_CUE.match(name) and name not in used
        used.add(name)
        head = f"{name}\n" if name and good else ""
        times = f"{print_stamp(cue.start_ms)} {ARROW} {print_stamp(cue.end_ms)}"
        parts.append(f"{head}{times}\n{cue_text(cue)}\n")
    return "\n".join(parts)


def cue_text(cue: Cue) -> str:
    """What is said as the text of a WebVTT cue: escaped, without blank lines."""
    lines = (line.strip() for line in split_lines(cue.text))
    text = "\n".join(line for line in lines if line)
    return html.escape(text, quote=False)
