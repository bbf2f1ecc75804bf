"""One content file to its values and problems, without looking at any other file."""

import hashlib
import pathlib
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar

from sitegen.model import FreePage
from sitegen.problems import Location, Problem, in_file
from sitegen.reading.captions.cues import read_captions
from sitegen.reading.folder import id_of
from sitegen.reading.own_pictures import own_pictures
from sitegen.reading.schemas.calendar import CALENDAR
from sitegen.reading.schemas.episode import EPISODE, ROUTINE
from sitegen.reading.schemas.exercise import EXERCISE
from sitegen.reading.schemas.report import BAD, Path, Reading
from sitegen.reading.schemas.series import PAGE_HEAD, SERIES, library_named
from sitegen.reading.schemas.shape import Shape
from sitegen.reading.schemas.texts import check_page_text
from sitegen.reading.slip_trials import read_yaml
from sitegen.reading.source import MAX_BYTES
from sitegen.reading.textfile import BadFile, decode, text_lines
from sitegen.stored_records import FoldingRecord

SHAPES: Mapping[str, Shape] = {
    "series": SERIES,
    "exercises": EXERCISE,
    "routines": ROUTINE,
    "episodes": EPISODE,
    "calendar": CALENDAR,
}
"""The shape of each kind of YAML file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FileResult(FoldingRecord):
    """What one file said."""

    folded: ClassVar[tuple[str, ...]] = ("value",)

    kind: str
    file: str
    digest: str
    problems: tuple[Problem, ...]
    usable: bool
    """False where the problems leave no value."""
    media: tuple[str, ...] = ()
    """Videos and pictures it names."""
    captions: str | None = None
    """The caption file it names."""
    habits: int = 0
    """How many of its values are written otherwise than documented."""
    library: str = ""
    """Of series.yaml, usable or not: the folder of the library it shares with other series."""
    references: tuple[tuple[str, Path, str], ...] = ()
    """Of a file that is not usable, so that these are looked at in the same run: each id of something that is
    written elsewhere, with its kind before it and its path."""
    value: Any
    """Fields by name; Details for ``series``, cues for ``captions``; None where not usable."""


def read_file(kind: str, file: str, data: bytes) -> FileResult:
    """Read one file of a kind. Every problem is in the result; nothing is raised."""
    reading, library = Reading(file, data), ""
    try:
        if kind == "pages":
            value = _read_page(file, data, reading)
        elif kind == "captions":
            captions = read_captions(data, file)
            reading.problems.extend(captions.problems)
            value = captions.cues
        else:
            root, value = read_yaml(data, file, SHAPES[kind], reading)
            library = library_named(root) if kind == "series" and root is not None else ""
            _warn_of_questions(data, reading)
    except BadFile as bad:
        reading.problems.append(bad.problem)
        value = BAD
    # A problem leaves no value; warnings do.
    usable = value is not BAD
    return FileResult(
        kind=kind,
        file=file,
        digest=digest_of(data),
        problems=tuple(reading.problems),
        usable=usable,
        media=_media(kind, value) if usable else (),
        captions=value.get("captions") if usable and kind == "episodes" else None,
        habits=len(reading.habits),
        library=library,
        references=() if usable else tuple(reading.references),
        value=value if usable else None,
    )


_QUESTION = re.compile(r"#\s*QUESTION\b[ :]*(?P<text>.*)")  # as drafts write them


def _warn_of_questions(data: bytes, reading: Reading) -> None:
    """Warn of each question of a draft that still stands there."""
    if b"QUESTION" not in data:
        return
    for number, line in enumerate(text_lines(data), 1):
        if question := _QUESTION.search(line):
            message = f"a question of the draft is open: {question['text'].strip()}"
            advice = "answer it in the file, and delete the question"
            reading.report_at(number, question.start() + 1, "question", message, advice, severity="warning")


def unreadable(kind: str, file: str, reason: str) -> FileResult:
    """The result of a file that the system would not read."""
    advice = "check that it exists and that you may read it"
    problem = in_file("unreadable", file, f"the file cannot be read ({reason})", advice)
    return FileResult(kind=kind, file=file, digest="", problems=(problem,), usable=False, value=None)


def _media(kind: str, value: Any) -> tuple[str, ...]:
    files: list[str] = []
    if kind == "episodes":
        video, poster = value.get("video"), value.get("poster")
        files += [one.file for one in video.files] if video else []
        files += [poster.file] if poster else []
    elif kind == "exercises":
        owners = [value, *value.get("variants", ())]
        files += [picture.file for owner in owners for picture in owner.get("pictures", ())]
    elif kind == "series":
        files += own_pictures(value)
    return tuple(files)


def digest_of(data: bytes) -> str:
    """A fingerprint of a file's bytes, the same on every machine."""
    return hashlib.blake2b(data, digest_size=12).hexdigest()


def digest_of_file(path: pathlib.Path) -> str:
    """The fingerprint of a file of any size. Raises OSError where it cannot be read."""
    with path.open("rb") as stream:
        return hashlib.file_digest(stream, lambda: hashlib.blake2b(digest_size=12)).hexdigest()


def _read_page(file: str, data: bytes, reading: Reading) -> Any:
    text = decode(data, file, MAX_BYTES)
    lines = text.split("\n")
    end = next((i for i, line in enumerate(lines[1:], 1) if line.rstrip() == "---"), None)
    if lines[0].rstrip() != "---" or end is None:
        advice = "start the file with three lines: --- / title: … / ---"
        reading.report_at(1, 1, "page-head", "the page has no head", advice)
        return BAD
    # The head starts on line 2: an empty first line keeps the parser's line numbers right.
    _, head = read_yaml(("\n" + "\n".join(lines[1:end])).encode(), file, PAGE_HEAD, reading)
    body = "\n".join(lines[end + 1 :])
    text_is_good = check_page_text(body, end + 2, reading)
    if head is BAD or not text_is_good:
        return BAD
    return FreePage(slug=id_of(file), text=body.strip(), first_line=end + 2, location=Location(file), **head)
