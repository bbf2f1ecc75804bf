"""What a draft or an episode says line by line: blocks, exercises, turns, and the questions beside them.

Read from the file's text with positions, so that a change can be made where the words stand. A file
that is not finished, or wrong elsewhere, is read as far as it goes.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from sitegen.drafting.structure.planned_session import entries, text_of
from sitegen.notation import NotationError, parse_clock
from sitegen.reading.source import MappingNode, Node, child_at, compose

BLOCK, ITEM, TURN = "block", "exercise", "turn"
_TURN_KEY = "your_turn"

QUESTION = re.compile(r"# QUESTION(?: \((?P<at>[\d:]+)\))?: (?P<text>.*?)\s*$")
"""A question as drafts write it, at the end of a line or alone on one."""

# How sure a draft is of a line, from 0 to 1.
_SURE = re.compile(r"# (?P<sure>[01]\.\d\d)\b")


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenQuestion:
    """A question of the file."""

    line: int
    at: float | None
    """Seconds; when the words are said that it is about."""
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MomentRow:
    """One moment of the film that the file names, or has a place for."""

    id: str
    """``2`` is the third block, ``2.0`` its first exercise, ``2.turn`` its turn."""
    kind: str
    name: str
    at: float | None
    """Seconds; None where the file does not say."""
    dose: str | None
    sets: str | None
    sure: float | None
    """The confidence that a draft wrote beside it."""
    asked: tuple[OpenQuestion, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RowPlace:
    """Where a row stands in the file."""

    node: Node
    first: int
    end: int
    """Its lines, from ``first`` up to ``end``."""


class Lines:
    """The rows of a text, and where they stand. Raises BadFile where the text is no YAML."""

    def __init__(self, text: str, file: str) -> None:
        self.text = text
        self.split = text.split("\n")
        self.root = compose(text.encode(), file)
        self.places: dict[str, RowPlace] = {}
        self.rows = tuple(self._rows())

    def film(self) -> str | None:
        """The video's file, below the content folder."""
        return text_of(child_at(child_at(self.root, "video"), "file"))

    def _rows(self) -> Iterator[MomentRow]:
        blocks = entries(self.root, "blocks")
        following = _line_behind(self.root, "blocks")
        end = len(self.split) if following is None else following
        for b, block in enumerate(blocks):
            last = blocks[b + 1].start_mark.line if b + 1 < len(blocks) else end
            items = entries(block, "items")
            head = items[0].start_mark.line if items else last
            self.places[str(b)] = RowPlace(node=block, first=block.start_mark.line, end=last)
            asked = tuple(self._asked(block.start_mark.line, head))
            of_turn = tuple(one for one in asked if _TURN_KEY in one.text)
            yield self._row(str(b), BLOCK, block, head, b, tuple(a for a in asked if a not in of_turn))
            for i, item in enumerate(items):
                stop = items[i + 1].start_mark.line if i + 1 < len(items) else last
                self.places[f"{b}.{i}"] = RowPlace(node=item, first=item.start_mark.line, end=stop)
                asked = tuple(self._asked(item.start_mark.line, stop))
                yield self._row(f"{b}.{i}", ITEM, item, stop, i, asked)
            self.places[f"{b}.turn"] = self.places[str(b)]
            turn = _seconds(child_at(block, _TURN_KEY))
            key, name = f"{b}.{TURN}", "your turn"
            yield MomentRow(
                id=key, kind=TURN, name=name, at=turn, dose=None, sets=None, sure=None, asked=of_turn
            )

    def _row(
        self, key: str, kind: str, node: Node, end: int, number: int, asked: tuple[OpenQuestion, ...]
    ) -> MomentRow:
        first = node.start_mark.line
        names = ("exercise",) if kind == ITEM else ("name", "routine")
        name = next((found for n in names if (found := text_of(child_at(node, n)))), f"{kind} {number + 1}")
        sure = next((m for line in self.split[first:end] if (m := _SURE.search(line))), None)
        return MomentRow(
            id=key,
            kind=kind,
            name=name,
            at=_seconds(child_at(node, "at")),
            dose=text_of(child_at(node, "dose")),
            sets=text_of(child_at(node, "sets") or child_at(node, "rounds")),
            sure=float(sure["sure"]) if sure and kind == ITEM else None,
            asked=asked,
        )

    def _asked(self, first: int, end: int) -> Iterator[OpenQuestion]:
        for line in range(first, end):
            if found := QUESTION.search(self.split[line]):
                at = _clock(found["at"]) if found["at"] else None
                yield OpenQuestion(line=line, at=at, text=found["text"])


def _line_behind(root: Node, key: str) -> int | None:
    """The line of the key that stands behind a key of a mapping; None where that is the last."""
    if not isinstance(root, MappingNode):
        return None
    keys = [name for name, _ in root.value]
    for before, after in pairwise(keys):
        if before.value == key:
            return int(after.start_mark.line)
    return None


def _seconds(node: Node | None) -> float | None:
    text = text_of(node)
    return _clock(text) if text else None


def _clock(text: str) -> float | None:
    try:
        return float(parse_clock(text))
    except NotationError:
        return None
