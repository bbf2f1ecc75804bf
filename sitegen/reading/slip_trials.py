"""A YAML file to its value; where it has none, what may be meant is tried until the file reads better.

Where YAML stops, or a line has become part of another, is seldom where the slip is. So each slip that may
have been made near there (``pen_slips.py``) is put right for a trial: the one after which least is wrong is
told, and what is wrong in the rest of the file beside it. The value of such a file is never used.
"""

from dataclasses import dataclass
from typing import Any

from sitegen.problems import Problem
from sitegen.reading.line_beginnings import Slip, indent_of
from sitegen.reading.pen_slips import doubtful, slips
from sitegen.reading.schemas.report import BAD, Reading
from sitegen.reading.schemas.shape import Shape
from sitegen.reading.source import MAX_BYTES, Node, compose
from sitegen.reading.textfile import BadFile, decode

_MOST_SLIPS = 6
"""Slips told one beside the other; somebody who reads six comes back for more."""
_MOST_TRIED = 600_000
"""Characters read in trials for one file: 60 readings of an episode's file, half a second. A file that is
larger is judged by where the parser stopped alone."""
_LEAST_TRIED = 2_000
"""What a trial of a short file counts: its own cost."""
_OF_FORM = frozenset(
    {"unknown-key", "wrong-kind", "missing-key", "comma-in-text", "empty-value", "malformed"}
)
"""What is told of a file whose lines do not belong together as its writer thinks."""


@dataclass(frozen=True, slots=True)
class _Attempt:
    """What reading one text gave."""

    root: Node | None
    value: Any
    reading: Reading
    stops: tuple[int, ...] = ()
    """Where the parser stopped, none where it did not."""
    doubts: tuple[int, ...] = ()
    """Lines that were read, but hardly as they are meant."""

    @property
    def problems(self) -> list[Problem]:
        return [one for one in self.reading.problems if one.severity == "problem"]

    @property
    def badness(self) -> tuple[int, int]:
        """What is compared: a file that is read to its end is better than one that is not."""
        return (1, -self.stops[0]) if self.stops else (0, len(self.problems) + len(self.doubts))


def read_yaml(data: bytes, file: str, shape: Shape, reading: Reading) -> tuple[Node | None, Any]:
    """The root and the value of a file, BAD with every problem reported. Raises BadFile for what is no text.

    There is no root where the parser stopped: places are looked up in the file as it is.
    """
    first = _attempt(data, file, shape, reading)
    if first.value is not BAD and not first.doubts:
        return first.root, first.value
    told, last = _slips_told(decode(data, file, MAX_BYTES), file, shape, first)
    if told:
        reading.problems[:] = [*told, *last.reading.problems]
        if first.root is not None:  # otherwise no place in the file can be looked up
            reading.references[:] = last.reading.references
        return first.root, BAD
    return first.root, first.value


def _attempt(data: bytes, file: str, shape: Shape, reading: Reading) -> _Attempt:
    """One reading. Raises BadFile where no other line would help: a file too large, of another encoding."""
    try:
        root = compose(data, file)
    except BadFile as fault:
        if not fault.stops:
            raise
        reading.problems.append(fault.problem)
        return _Attempt(None, BAD, reading, fault.stops)
    doubts = tuple(doubtful(reading.data.decode("utf-8-sig")))
    return _Attempt(root, shape.read(root, reading, ()), reading, doubts=doubts)


def _slips_told(text: str, file: str, shape: Shape, now: _Attempt) -> tuple[list[Problem], _Attempt]:
    """The slips that were found, and what is left after them."""
    told: list[Problem] = []
    left = _MOST_TRIED
    while left > len(text) and len(told) < _MOST_SLIPS and (near := _near(text, now)):
        best: tuple[Slip, str, _Attempt] | None = None
        lines = text.split("\n")
        for slip in slips(lines, near, stopped=bool(now.stops)):
            left -= max(len(text), _LEAST_TRIED)
            if left < 0:
                break
            if not now.stops and _moves_far(slip, lines):
                continue
            mended = "\n".join(slip.mended.get(number, line) for number, line in enumerate(lines, 1))
            trial = _trial(mended, file, shape)
            if trial is not None and _is_better(trial, best[2] if best else now, now, sure=slip.sure):
                best = slip, mended, trial
                if trial.badness == (0, 0):
                    break
        if best is None:
            break
        slip, text, now = best
        told.append(slip.problem(file))
    return told, now


def _trial(text: str, file: str, shape: Shape) -> _Attempt | None:
    try:
        data = text.encode()
        return _attempt(data, file, shape, Reading(file, data))
    except BadFile:
        return None


def _is_better(trial: _Attempt, than: _Attempt, now: _Attempt, *, sure: bool) -> bool:
    """True where less is wrong; of a file that could be read, nothing else may become wrong."""
    if trial.badness >= than.badness:
        return False
    if now.value is not BAD and sure:  # a dash may begin a line of a text: then the entries stay as many
        return _count(trial.root) != _count(now.root)
    if now.stops or sure:
        return True
    before = {(one.check, one.message) for one in now.problems}
    return all((one.check, one.message) in before for one in trial.problems)


def _count(node: Any) -> int:
    """How many values a file has."""
    if isinstance(node, tuple):
        return sum(map(_count, node))
    inner = node.value if isinstance(node, Node) else ()
    return 1 + (sum(map(_count, inner)) if isinstance(inner, list) else 0)


def _moves_far(slip: Slip, lines: list[str]) -> bool:
    """True where a line would move by more than a slip: its key may be in the wrong place."""
    line = lines[slip.line - 1]
    new = slip.mended.get(slip.line, line)
    return new.lstrip() == line.lstrip() and line[:1] in " -" and abs(indent_of(new) - indent_of(line)) > 1


def _near(text: str, now: _Attempt) -> list[int]:
    """Numbers of the lines where a slip may be, the nearest to what is wrong first."""
    if now.stops:
        ends = list(now.stops)
    else:
        ends = [one.line for one in now.problems if one.check in _OF_FORM and one.line]
        ends = [*now.doubts, *ends][:_MOST_SLIPS]
    lines = text.split("\n")
    near: list[int] = []
    for end in ends:
        filled = [at for at in range(min(end, len(lines)), 0, -1) if lines[at - 1].strip()]
        near += filled[:4]
        if not now.stops:
            near += range(end + 1, min(end + 2, len(lines)) + 1)
    return list(dict.fromkeys(near))
