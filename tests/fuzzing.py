"""Random input for everything that reads what others wrote: nothing may break off, or take long.

An input is a good file with a few things done to it, or a piece repeated until a reader that goes over its
text again and again would show it. What may come of one is a value, or a problem told in words; an exception
that is none of the reader's own is a finding, and so is an input that takes longer than :data:`MOST_SECONDS`.
``python -m tests.bench fuzz`` reads ten thousand.
"""

import gzip
import json
import random
import signal
import traceback
import zlib
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from unittest import mock

from sitegen.building.manifest import Manifest, group_of
from sitegen.building.snapshot import Snapshot
from sitegen.clients.log_reading import read_log
from sitegen.clients.untrusted_json import NotAccepted
from sitegen.drafting import draft, fill_plan, read_transcript
from sitegen.problems import ContentError
from sitegen.publishing import lease
from sitegen.publishing.publication_record import DamagedRecord, Publication, PublishedFile, number_of
from sitegen.reading.captions.cues import read_captions
from sitegen.reading.files import read_file
from sitegen.reading.read_cache import ReadCache
from sitegen.reading.reader import read_content, read_series
from sitegen.reading.textfile import BadFile
from tests.clients.logs import log_of, nora, tobias
from tests.folders import SeriesFolder, check_content

MOST_SECONDS = 5.0
"""Processor time that one input may take."""

_PIECES = (
    *("9" * 5000, "1e999", "-0", "0x1F", "NaN", "Infinity", "٣", "½", "²", "１２", "x" * 3000),
    *("9999-12-31", "0001-01-01", "2026-02-30", "24:00", "99:99:99", "1:30"),
    *("8-12", "12-8", "8 each side", "AMRAP", "3x10", "20 kg", "5 l water", "2 x 3 l water", "each", "max"),
    *("RPE 11", "3-0-X-0", "~", "null", "yes", "no", "", " ", "\t", "\r", "\n", "\x00", "\x1b[2J", "\x7f"),
    *("\x85", "\u2028", "\ufeff", "\uffff", "\ufffe", "\u202e", "\U0001f600", "e\u0301", "ß", "ﬁ", "İ"),
    *("Подъём", "腕立て", "<a ", "<a:", "<script>", "]]>", "&#999999999999;", "&#0;", "&amp;", "{{x}}", "{%"),
    *("${", "%s", "%", "#%", "%00", "{\\an8}", "{\\", "[x](javascript:x)", "![[", "[", "](", "**", "``"),
    *("|-|", "\\", "'", '"', "&a", "*a", "!!python/name:os", "<<: *a", "? ", ": ", "- ", "{", "}", "[]"),
    *("-->", "00:00:00.000 --> 00:00:01.000", "WEBVTT", "NOTE", "STYLE", "--", "---", "...", "# QUESTION"),
    *("../../etc/passwd", "/etc/passwd", "~nosuchuser/x", "C:\\x", "con.yaml", "__proto__", "mailto:x"),
    *("https://u:p@host/?token=x", "http://[", "https://ü.example:99999/", "a: b\n", "- a\n", "|\n"),
)  # fmt: skip
"""What is put in: numbers, dates and addresses at the edge, control characters, the marks of each format."""


def changed(good: bytes, chance: random.Random) -> bytes:
    """A file with one to four things done to it."""
    data = good
    for _ in range(chance.randrange(1, 5)):
        data = chance.choice(_CHANGES)(data, chance)
    return data


def _piece(chance: random.Random) -> bytes:
    piece = chance.choice(_PIECES).encode()
    return piece * chance.choice((1, 1, 1, 1, 2, 50, 20_000 // (len(piece) + 1)))


def _put_in(data: bytes, chance: random.Random) -> bytes:
    at = chance.randrange(len(data) + 1)
    return data[:at] + _piece(chance) + data[at:]


def _in_place_of_a_word(data: bytes, chance: random.Random) -> bytes:
    words = data.split(b" ")
    words[chance.randrange(len(words))] = _piece(chance)
    return b" ".join(words)


def _as_a_value(data: bytes, chance: random.Random) -> bytes:
    """Another value for one of the keys."""
    lines = data.split(b"\n")
    number = chance.randrange(len(lines))
    key, colon, _ = lines[number].partition(b": ")
    quoted = b'"%s"' if chance.random() < 0.3 else b"%s"
    lines[number] = key + (colon or b" ") + quoted % _piece(chance)
    return b"\n".join(lines)


def _a_line(data: bytes, chance: random.Random) -> bytes:
    """A line taken out, doubled, moved, or written deeper."""
    lines = data.split(b"\n")
    line = lines.pop(chance.randrange(len(lines)))
    at = chance.randrange(len(lines) + 1)
    lines[at:at] = chance.choice(([], [line, line], [line], [b"  " + line], [line] * 500))
    return b"\n".join(lines)


def _a_byte(data: bytes, chance: random.Random) -> bytes:
    at = chance.randrange(len(data) + 1)
    return data[:at] + bytes([chance.randrange(256)]) + data[at + 1 :]


def _cut(data: bytes, chance: random.Random) -> bytes:
    return data[: chance.randrange(len(data) + 1)]


def _grown(data: bytes, chance: random.Random) -> bytes:
    """Ten thousand times the same, inside of the file."""
    at = chance.randrange(len(data) + 1)
    return data[:at] + chance.choice(_PIECES).encode()[:8] * 10_000 + data[at:]


_CHANGES: tuple[Callable[[bytes, random.Random], bytes], ...] = (
    *(_put_in, _in_place_of_a_word, _as_a_value, _as_a_value, _as_a_value),
    *(_a_line, _a_byte, _cut, _grown),
)


# --- readers -----------------------------------------------------------------------------------


class Readers:
    """Everything that reads what others wrote, and a good file for each."""

    def __init__(self, root: Path, demo: Path) -> None:
        self._series = SeriesFolder(root)
        self._log = root / "log.json"
        self._memory = ReadCache()
        self._demo = read_series(demo)
        self.input = b""
        """What was read last."""
        self._captions = [path.read_bytes()[:4000] for path in sorted(demo.glob("captions/*"))]
        plan = sorted(demo.glob("episodes/*.yaml"))[0].read_text()
        self._plan = plan[:3000].rpartition("\n")[0] + "\n"
        self.kinds: Mapping[str, Callable[[random.Random], None]] = {
            "content": self._content,
            "captions": self._read_captions,
            "draft": self._draft,
            "plan": self._fill_plan,
            "record": self._record,
            "lease": self._lease,
            "manifest": self._manifest,
            "log": self._client_log,
        }

    def read(self, kind: str, data: bytes) -> None:
        """Read a file of that kind, whatever it holds."""
        if kind == "draft":
            captions = read_transcript(data, "captions.vtt")
            if not captions.problems:
                draft(captions, self._demo, number=13, slug="new")
        elif kind == "log":
            self._log.write_bytes(data)
            try:
                read_log(self._log, self._demo)
            except NotAccepted:
                pass
        else:
            read_file(kind, f"{kind}/file", data)

    def _content(self, chance: random.Random) -> None:
        """A file of a series; ``check`` reads it, and now and then looks at all of it."""
        root = self._series.root
        path = chance.choice(sorted(path for path in root.rglob("*") if path.suffix in (".yaml", ".md")))
        good = path.read_bytes()
        self.input = changed(good, chance)
        path.write_bytes(self.input)
        try:
            if chance.random() < 0.1:
                check_content(root)
            else:
                read_content(root, self._memory)
        except ContentError:
            pass
        finally:
            path.write_bytes(good)

    def _read_captions(self, chance: random.Random) -> None:
        self.input = changed(chance.choice(self._captions), chance)
        read_captions(self.input, "captions/01.vtt")

    def _draft(self, chance: random.Random) -> None:
        self.input = changed(chance.choice(self._captions), chance)
        self.read("draft", self.input)

    def _fill_plan(self, chance: random.Random) -> None:
        self.input = changed(self._plan.encode(), chance)
        captions = read_transcript(self._captions[0], "captions.vtt")
        try:
            fill_plan(self.input.decode(errors="replace"), captions, self._demo)
        except BadFile:
            pass

    def _record(self, chance: random.Random) -> None:
        self.input = gzip.compress(changed(gzip.decompress(_RECORD), chance))
        if chance.random() < 0.2:
            self.input = changed(_RECORD, chance)
        number_of(changed(b".published/publications/000012.json.gz", chance).decode(errors="replace"))
        with mock.patch("sitegen.publishing.publication_record._seal", lambda one: one.get("seal", "0" * 16)):
            for _ in range(2):  # with whatever seal, and with the right one
                try:
                    Publication.load(self.input)
                except DamagedRecord:
                    pass

    def _lease(self, chance: random.Random) -> None:
        holder = {"name": "robin@boat", "machine": "a1", "process": 4000000, "since": "2026", "token": "t"}
        key = chance.choice(sorted(holder))
        self.input = json.dumps(holder | {key: chance.choice(_VALUES)}).encode()
        if chance.random() < 0.5:
            self.input = changed(self.input, chance)
        store = mock.Mock(has_lease=True)
        store.read.return_value = self.input
        other = lease.current_holder(store)
        if other is not None:
            lease._is_over(other, lease.Holder("me", "a1", 1, "", ""))
            lease._told(other)

    def _manifest(self, chance: random.Random) -> None:
        files = {"groups": {"a": ["k", [0, 1]]}, "files": {"a/b": ["r", 1, 2], "c": ["r", 3, 4]}}
        packed = changed(json.dumps(files).encode(), chance).replace(b"\n", b" ")
        batch = ["sessions 1", ["r", "k", "a", 2, "s", "x\ny", "episodes/a", "c"], zlib.crc32(packed)]
        first = json.dumps({"site": "k", "batches": [batch]}).encode()
        self.input = b"\n".join([changed(first, chance) if chance.random() < 0.5 else first, packed])
        self._log.write_bytes(self.input)
        manifest = Manifest.load(self._log)
        for address in manifest.addresses:
            manifest.file(address)
            manifest.group(group_of(address))
        Snapshot.load(self._log)

    def _client_log(self, chance: random.Random) -> None:
        self.input = changed(_LOG, chance)
        self.read("log", self.input)


_VALUES: tuple[Any, ...] = (
    *(1e400, -1, 0, 1 << 70, None, True, [], {}, "x" * 5000, "\x1b[2J", [[[]]], "9" * 5000),
    *([0] * 1000, {"a": {"b": {}}}, "\ud800"),
)  # fmt: skip

_RECORD = Publication(
    number=12,
    at="2026-09-14T12:00:00+00:00",
    finished=True,
    title="2 files added",
    files={"index.html": PublishedFile(digest="0f" * 16, size=120, form="gzip", tag="e1")},
).dump()

_LOG = json.dumps(log_of("0" * 16, "2026-12-31T10:00:00.000Z", nora() | tobias())).encode()


@dataclass(frozen=True, slots=True)
class Finding:
    """An input that broke a reader off."""

    kind: str
    seed: int
    what: str
    data: bytes


class TooLong(BaseException):
    """Raised inside a reader that takes too long; no reader catches it."""


@contextmanager
def _within(seconds: float) -> Iterator[None]:
    """Processor time, not the clock's: a busy machine makes no finding."""

    def ring(*_: object) -> None:
        raise TooLong

    before = signal.signal(signal.SIGPROF, ring)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def try_one(readers: Readers, kind: str, seed: int) -> Finding | None:
    """Read one input, which the seed gives."""
    chance = random.Random(f"{kind} {seed}")
    readers.input = b""
    try:
        with _within(MOST_SECONDS):
            readers.kinds[kind](chance)
    except TooLong:
        return Finding(kind, seed, f"more than {MOST_SECONDS} s", readers.input)
    except Exception as error:
        place = traceback.extract_tb(error.__traceback__)[-1]
        what = f"{type(error).__name__}: {str(error)[:120]} ({place.filename}:{place.lineno})"
        return Finding(kind, seed, what, readers.input)
    return None


# --- growth ------------------------------------------------------------------------------------

_EXERCISE = b"name: Row\npattern: pull\nmuscles: {prime: [lats]}\nkit: []\ndemands: []\n"
_EPISODE = (
    b"title: One\nnumber: 1\nblocks:\n  - name: Row\n    kind: strength\n    items:\n      - exercise: row\n"
)
_TALK = b"WEBVTT\n\n00:00.000 --> 00:05.000\nNow we do the row and then the squat, ten of each. "

HOLES: Mapping[str, tuple[str, bytes]] = {
    "a page": ("pages", b"---\ntitle: One\n---\n%s\n"),
    "the head of a page": ("pages", b"---\ntitle: %s\n---\nText\n"),
    "plain text": ("exercises", _EXERCISE + b"summary: %s\n"),
    "text in quotes": ("exercises", _EXERCISE + b'summary: "%s"\n'),
    "a list": ("exercises", _EXERCISE + b"also: [%s]\n"),
    "a record": ("exercises", _EXERCISE + b"cautions: [{text: %s}]\n"),
    "a key": ("exercises", _EXERCISE + b"%s: x\n"),
    "lines": ("exercises", _EXERCISE + b"%s"),
    "a dose": ("episodes", _EPISODE + b"        dose: %s\n"),
    "a load": ("episodes", _EPISODE + b'        load: "%s"\n'),
    "a tempo": ("episodes", _EPISODE + b'        tempo: "%s"\n'),
    "a time": ("episodes", _EPISODE + b'        at: "%s"\n'),
    "notes": ("episodes", _EPISODE + b'notes: "%s"\n'),
    "an address": ("series", b'title: One\naddress: "%s"\n'),
    "a video": ("episodes", _EPISODE + b'video: {file: "%s"}\n'),
    "a cue": ("captions", b"WEBVTT\n\n00:00.000 --> 00:05.000\n%s\n"),
    "a cue's time": ("captions", b"WEBVTT\n\n00:00.000 --> %s\nText\n"),
    "captions": ("captions", b"WEBVTT\n\n%s"),
    "talk": ("draft", _TALK + b"%s\n"),
    "a transcript": ("draft", b"0:05 Now we do the row and then the squat, ten of each. %s\n"),
    "a log": ("log", b'{"what": "%s"}'),
    "JSON": ("log", b"%s"),
}
"""Files with a place in which a piece is repeated, by what stands there; the kind says who reads them."""


def read_grown(readers: Readers, hole: str, piece: str, size: int) -> Finding | None:
    """Read a file in which a piece is repeated until that many bytes; a finding where it takes too long."""
    kind, file = HOLES[hole]
    data = file.replace(b"%s", piece.encode() * (size // len(piece.encode())))
    try:
        with _within(MOST_SECONDS):
            readers.read(kind, data)
    except TooLong:
        return Finding(hole, 0, f"{piece!r} in {hole}: more than {MOST_SECONDS} s for {size} bytes", data)
    return None


def pieces() -> tuple[str, ...]:
    """What is put in, but for what is long of itself."""
    return tuple(piece for piece in _PIECES if 0 < len(piece) < 40)
