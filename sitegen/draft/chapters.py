"""Which of the mentions open a chapter, and in which block: one walk through the recording."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from sitegen.draft.mentions import SHOWN, Mention
from sitegen.draft.signals import COUNTED, DONE, FORMAT, KIND, OPENER, RESUME, ROUND, TURN, Signal
from sitegen.draft.words import Stream
from sitegen.notation import Dose

_BOUNDARY = 2.0
"""Evidence that it takes to begin a block between two exercises."""

WHOLE = 0.88
"""Score from which on a name is said as a whole."""

_OPENING = 40
"""Words before the first exercise of a block in which it is said what block it is."""

_QUICK_S = 8.0
"""Two exercises are seldom named within so many seconds."""

_CLEARER = 1.0
"""By how much a later mention must open an exercise more clearly, to be taken for the showing."""

_TURN = 2.0
_NEAR_TURN = 30
"""Tokens within which phrases of handing over belong to one."""


@dataclass(slots=True)
class Chapter:
    """A mention taken to show its exercise."""

    mention: Mention
    expected: Dose | None = None
    """The planned dose."""
    repeats: list[Mention] = field(default_factory=list)
    """Later mentions of it in the same block."""


@dataclass(slots=True)
class Turn:
    """The viewer is handed over to, from token ``first`` to ``last``."""

    first: int
    last: int
    score: float
    strongest: Signal


@dataclass(slots=True)
class Part:
    """A block in the making."""

    chapters: list[Chapter] = field(default_factory=list)
    turn: Turn | None = None
    begin: int = 0
    """First token that belongs to it."""

    @property
    def last_token(self) -> int:
        """Last token of its talk so far."""
        spans = [m.naming.last for c in self.chapters for m in (c.mention, *c.repeats)]
        return max(spans, default=self.begin)


def turns_of(stream: Stream, signals: list[Signal]) -> list[Turn]:
    """Moments at which the viewer is handed over to, phrases close together taken as one."""
    turns: list[Turn] = []
    for signal in (s for s in signals if s.kind == TURN):
        current = turns[-1] if turns else None
        if (
            current
            and signal.first - current.last <= _NEAR_TURN
            and not _silent(stream, current.last, signal.first)
        ):
            if signal.first > current.strongest.last:
                current.score += signal.weight
            if signal.weight > current.strongest.weight:
                current.strongest = signal
            current.last = max(current.last, signal.last)
        else:
            turns.append(Turn(signal.first, signal.last, signal.weight, signal))
    for turn in turns:
        turn.score += _followed(stream, signals, turn)
    turns = [turn for turn in turns if turn.score >= _TURN]
    return sorted((*turns, *_implied(stream, signals, turns)), key=lambda turn: turn.first)


def _implied(stream: Stream, signals: list[Signal], turns: list[Turn]) -> Iterator[Turn]:
    """Coming back after a silence means that the viewer was handed over to, whatever was said."""
    tokens = stream.tokens
    for signal in (s for s in signals if s.kind == RESUME and s.weight >= _TURN):
        gap = next(
            (i for i in range(signal.first, max(0, signal.first - 8), -1) if tokens[i].pause_before >= 2.0),
            None,
        )
        if gap is not None and not any(gap - 2 * _NEAR_TURN <= turn.last < gap for turn in turns):
            yield Turn(gap - 1, gap - 1, _TURN, replace(signal, kind=TURN, first=gap - 1, last=gap - 1))


def _silent(stream: Stream, first: int, last: int) -> bool:
    return any(stream.tokens[i].pause_before >= 2.5 for i in range(first + 1, last + 1))


def _followed(stream: Stream, signals: list[Signal], turn: Turn) -> float:
    """A silence soon after and coming back after it speak for a turn."""
    tokens = stream.tokens
    gap = next(
        (i for i in range(turn.last + 1, min(turn.last + 30, len(tokens))) if tokens[i].pause_before >= 2.0),
        None,
    )
    if gap is None:
        return 0.0
    back = any(s.kind in (RESUME, OPENER, KIND) and gap <= s.first <= gap + 20 for s in signals)
    return 1.5 if back else 0.7


class Walk:
    """Goes through turns and mentions in order and builds the parts of the session."""

    def __init__(self, stream: Stream, signals: list[Signal], turns: list[Turn]) -> None:
        self.stream = stream
        self.signals = signals
        self.turns = turns
        self.parts: list[Part] = [Part()]
        self.seen: set[str] = set()
        self.passed: list[Mention] = []
        """Mentions that show nothing yet; a dose may have been said with one."""

    def go(self, mentions: list[Mention]) -> list[Part]:
        """The parts with their chapters."""
        waiting = list(self.turns)
        for mention in mentions:
            while waiting and waiting[0].last < mention.naming.first:
                self._turn(waiting.pop(0))
            self._mention(mention)
        for turn in waiting:
            self._turn(turn)
        return [part for part in self.parts if part.chapters]

    def _turn(self, turn: Turn) -> None:
        if self.parts[-1].chapters:
            self.parts[-1].turn = turn
            self.parts.append(Part(begin=turn.last + 1))

    def _mention(self, mention: Mention) -> None:
        part = self.parts[-1]
        again = self._in_part(mention, part)
        if again is not None:
            self._again(mention, again, part)
            return
        if mention.score < self._needed(mention, part):
            self.passed.append(mention)
            return
        if part.chapters and self._evidence(part, mention) >= _BOUNDARY:
            part = Part(begin=part.last_token + 1)
            self.parts.append(part)
        same = [m for m in self.passed if m.naming.exercise == mention.naming.exercise and m.dose]
        part.chapters.append(Chapter(mention, repeats=[m for m in same if m.naming.first >= part.begin]))
        if mention.naming.exercise:
            self.seen.add(mention.naming.exercise)

    def _again(self, mention: Mention, chapter: Chapter, part: Part) -> None:
        """A second mention: mostly a repeat, but the first one may have been no more than a heading."""
        first = chapter.mention
        clearer = not first.opened and mention.score > first.score + _CLEARER
        heading = mention.opened and self._passed_over(chapter, part)
        if clearer and first.dose is None and (heading or self._still_first(mention, part)):
            chapter.repeats.append(first)
            chapter.mention = mention
            part.chapters.sort(key=lambda c: c.mention.naming.first)
        else:
            chapter.repeats.append(mention)

    def _still_first(self, mention: Mention, part: Part) -> bool:
        """Whether a mention with a dose comes before anything of the block is done a second time."""
        repeated = any(c.repeats for c in part.chapters[:-1])
        rounds = any(s.kind == ROUND and part.begin <= s.first <= mention.naming.first for s in self.signals)
        return mention.dose is not None and not repeated and not rounds

    def _passed_over(self, chapter: Chapter, part: Part) -> bool:
        """Whether another exercise follows at once, as in a heading that names them all."""
        tokens = self.stream.tokens
        index = part.chapters.index(chapter)
        if index + 1 == len(part.chapters):
            return False
        following = part.chapters[index + 1].mention.naming.first
        return tokens[following].start - tokens[chapter.mention.naming.last].end < _QUICK_S

    def _in_part(self, mention: Mention, part: Part) -> Chapter | None:
        """The chapter of this part that a mention speaks of again."""
        naming = mention.naming
        same = [c for c in part.chapters if c.mention.naming.exercise == naming.exercise != ""]
        if same or naming.score >= 0.95:
            return same[0] if same else None
        return next((c for c in part.chapters if c.mention.naming.exercise in naming.others), None)

    def _needed(self, mention: Mention, part: Part) -> float:
        """The score it takes, in the light of what went before."""
        naming = mention.naming
        needed = SHOWN
        if naming.exercise in self.seen:
            needed += 1.5
        partial = naming.score < WHOLE and naming.exercise != ""
        needed += 2.0 if naming.thin and partial else 1.0 if naming.thin or partial else 0.0
        tokens = self.stream.tokens
        if (
            part.chapters
            and tokens[naming.first].start - tokens[part.chapters[-1].mention.naming.last].end < _QUICK_S
        ):
            needed += 0.5 if mention.led else 1.2
        return needed

    def _kind(self, part: Part) -> str:
        """The kind of block that was said to begin with a part's first exercise."""
        first = part.chapters[0].mention.naming.first
        said = [
            s.value
            for s in self.signals
            if s.kind == KIND and max(part.begin, first - _OPENING) <= s.first <= first
        ]
        return said[-1] if said else ""

    def _evidence(self, part: Part, mention: Mention) -> float:
        """What speaks for a new block between the last chapter of a part and a mention."""
        last = part.chapters[-1].mention.naming.last
        kind = self._kind(part)
        between = [s for s in self.signals if last < s.first <= mention.naming.first]
        between = [s for s in between if s.kind != KIND or s.value != kind]
        repeats = [m for c in part.chapters for m in c.repeats if m.naming.first > last and not m.conditional]
        again = {id(c) for c in part.chapters for m in c.repeats if m in repeats}
        rounds = any(s.kind == ROUND for s in between)
        evidence = 2.0 if len(again) >= 2 or (again and rounds) else 0.0
        for kind in (OPENER, KIND, RESUME, COUNTED, DONE, FORMAT):
            evidence += max((s.weight for s in between if s.kind == kind), default=0.0)
        return evidence
