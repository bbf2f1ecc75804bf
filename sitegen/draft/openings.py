"""Where in the talk a block begins."""

from sitegen.draft.chapters import Part
from sitegen.draft.heard import Heard
from sitegen.draft.signals import COUNTED, FORMAT, KIND, OPENER, RESUME, Signal
from sitegen.draft.starts import sentence_start

ONE_OPENING = 25
"""Phrases that open a block with fewer words between them belong together."""

FRAME = ("warm-up", "cool-down")
_PLAIN = 1.5
"""Weight from which on a phrase opens a block by itself."""


def block_start(heard: Heard, part: Part, first_start: int) -> int:
    """Token at which a block begins whose first exercise is introduced at token ``first_start``."""
    kinds = (OPENER, KIND, RESUME, FORMAT, COUNTED)
    signals = [s for s in heard.signals if part.begin <= s.first <= first_start + 3 and s.kind in kinds]
    gap = _silence(heard, part.begin, first_start)
    resume = next((s.first for s in signals if s.kind == RESUME), None)
    if part.begin and resume is not None:
        return gap if gap is not None else max(part.begin, sentence_start(heard.talk.stream, resume))
    first = _frame_opening(signals)
    if first is None:
        first = _first_of_opening(heard, part, signals, first_start)
    if first is None:
        return first_start
    return max(part.begin, min(first_start, sentence_start(heard.talk.stream, first)))


def _silence(heard: Heard, first: int, last: int) -> int | None:
    """The first token after a silence of two seconds or more."""
    return next((i for i in range(first, last + 1) if heard.talk.tokens[i].pause_before >= 2.0), None)


def talk_again(heard: Heard, part: Part) -> int:
    """The first token of a part behind the silence in which the viewer does the part before."""
    if not part.begin:
        return 0
    gap = _silence(heard, part.begin, part.chapters[0].mention.naming.first)
    return part.begin if gap is None else gap


def _next_sentence(heard: Heard, index: int) -> int:
    """The first token from ``index`` on that begins a sentence; ``index`` where none does soon."""
    tokens = heard.talk.tokens
    if index == 0:
        return 0
    return next((i for i in range(index, min(index + 12, len(tokens))) if tokens[i].break_before == 2), index)


def _frame_opening(signals: list[Signal]) -> int | None:
    """The words that open a warm-up or cool-down: what was said before of rounds and work times is about
    the session.
    """
    frame = (s for s in reversed(signals) if s.kind == KIND and s.value in FRAME and s.weight >= _PLAIN)
    return next((s.first for s in frame), None)


def _first_of_opening(heard: Heard, part: Part, signals: list[Signal], first_start: int) -> int | None:
    """The first of the phrases that together open a block."""
    opening = [(s.first, s.last) for s in signals if s.weight >= _PLAIN]
    earliest = max(_next_sentence(heard, part.begin), first_start - ONE_OPENING)
    opening += [(s.first, s.last) for s in heard.amounts.sets if earliest <= s.first < first_start]
    if not opening:
        return None
    opening.sort()
    first = opening[-1][0]
    for start, last in reversed(opening):
        if first - last <= ONE_OPENING:
            first = start
    return first
