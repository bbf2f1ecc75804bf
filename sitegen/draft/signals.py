"""Phrases that order a session: openings, your turn, coming back, formats.

The phrases are common practice of talk in recorded sessions, no source. Sound-alikes that recognisers
often write stand beside the words they stand for.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from sitegen.draft.talk import SENTENCE, Talk
from sitegen.vocabulary import AMRAP, CIRCUIT, EMOM, GIANT_SET, INTERVALS, STRAIGHT, SUPERSET, TRI_SET

TURN = "turn"
RESUME = "resume"
OPENER = "opener"
KIND = "kind"
FORMAT = "format"
COUNTED = "counted"
ROUND = "round"
DONE = "done"

_GROUP = (
    r"(?:(?:tri|try|three|tree|trey) ?sets?|super ?sets?|giant ?sets?|circuits?|blocks?|groups?|pairs?|"
    r"trios?|parts?|sections?|combos?|couplets?|triplets?|set of (?:exercises|moves)|finishers?|pairing|"
    r"cluster)"
)
_WHICH = r"(?:first|second|third|fourth|fifth|sixth|next|last|final|another|main|other|1 more|1 last)"
_HERE = r"(?:it |now |again |here |please |right |just |there )*"
_PART = (
    r"(?:legs|leg|arms?|abs|core|upper body|lower body|shoulders|back|chest|hips|floor|trunk|balance|"
    r"strength)"
)
_US = r"(?:it |us |you |your body |the body |the \w+ |yourself |ourselves |things )?"
_VIDEO = r"(?:video|recording|film|clip|tape)"


@dataclass(frozen=True, slots=True, kw_only=True)
class Signal:
    """A phrase that orders the session, from token ``first`` to ``last``."""

    kind: str
    first: int
    last: int
    weight: float
    """How much it says."""
    value: str = ""
    """The kind of block, the format, or the number said."""


@dataclass(frozen=True, slots=True)
class _Row:
    """Phrases that mean the same."""

    kind: str
    weight: float
    value: str
    pattern: re.Pattern[str]
    alone: bool
    """Whether they must make a sentence of their own."""


def _row(kind: str, weight: float, *phrases: str, value: str = "", alone: bool = False) -> _Row:
    return _Row(kind, weight, value, re.compile(rf"\b(?:{'|'.join(phrases)})"), alone)


_ROWS = (
    _row(TURN, 3, rf"(?:pause|stop|paws|pores|halt) {_HERE}(?:the |this |that |your )?{_VIDEO}\b"),
    _row(TURN, 3, r"(?:hit|press|push|click|tap) (?:on )?(?:the )?(?:pause|stop)\b"),
    _row(TURN, 2.5, r"(?:pause|paws) (?:me|us|it)(?: here| now| there| again| please| while)?\b"),
    _row(TURN, 2.5, r"stop (?:me|us) (?:here|now|there)\b"),
    _row(TURN, 2.5, r"pause (?:here|now|again|please|1 more time)\b"),
    _row(TURN, 2.5, r"pause and (?:do|get|go|finish|complete|come)\b"),
    _row(TURN, 2, rf"(?:pass|pace|poise|poses?|pours?) (?:it|me|us|here|the {_VIDEO})\b"),
    _row(TURN, 2, r"lets pause\b", r"your (?:turn|go)\b", r"over to you\b", r"time for you to\b"),
    _row(TURN, 2, r"pause\b", alone=True),
    _row(
        TURN,
        1,
        r"off you go\b",
        r"go (?:ahead|on) and (?:do|hit|get|pause)\b",
        r"have a go\b",
        r"go and do (?:it|them|those|your|that)\b",
    ),
    _row(
        TURN,
        0.8,
        r"(?:come|came|get) (?:on )?back (?:here )?(?:when|once|after)\b",
        r"see you (?:back here|after|when|in a)\b",
        r"ill (?:wait|be here|be right here|see you)\b",
    ),
    _row(TURN, 0.7, r"pause\b"),
    _row(
        RESUME,
        2,
        r"welcome back\b",
        r"(?:were|we are|and were|youre|you are) back\b",
        r"back with me\b",
        r"(?:hello|hi|hey) again\b",
        r"there you are\b",
        r"see you again\b",
    ),
    _row(
        RESUME,
        1.5,
        r"how (?:was|did) (?:that|it|they)\b",
        r"hope (?:that|it|you|this) (?:\w+ )?(?:was|went|did|could|had|enjoyed|got)\b",
        r"hopefully that\b",
        r"thank you for coming back\b",
    ),
    _row(
        OPENER,
        2.5,
        rf"{_WHICH} (?:big |little |and last |and final |exercise |mini |of the |short )?{_GROUP}\b"
        r"(?! (?:is |are |was )?(?:done|finished|over|down|of the (?:movement|rep)))",
        rf"{_GROUP} (?:number |no )?(?:\d{{1,2}}|a|b|c|d)\b"
        r"(?! (?:reps|times|seconds|minutes|rounds|sets|exercises|each))",
    ),
    _row(
        OPENER,
        1.5,
        r"(?:the |your )?(?:last|final) (?:thing|bit|piece) (?:is|of|we|here|today)\b",
        r"(?:last|final) (?:1|thing|bit|exercise) (?:for|of) (?:today|the day)\b",
        rf"now (?:its|for the|to the) (?:\w+ )?{_PART}\b",
    ),
    _row(OPENER, 0.8, rf"(?:its|onto|on to|for) (?:your |the |our )?{_PART}(?: time| part| work| now)?\b"),
    _row(
        COUNTED,
        1.5,
        r"(?:have|got|theres|there are|its|doing|do|just|are|has|of|with|by|show you) (?:the )?"
        r"(?P<n>\d{1,2}) (?:\w+ ){0,2}?(?:exercises?|moves|movements|things|stations)\b",
    ),
    _row(
        ROUND,
        1,
        r"(?:round|set|time) (?:number )?\d\b",
        r"(?:second|third|fourth|last|final|next|1 more) (?:and last |and final )?(?:round|set|time|go)\b",
        r"(?:once|1 time|all|that) (?:more|again)\b",
    ),
    _row(
        DONE,
        1,
        r"(?:thats|that is|and youre|youre|all|are|is|that was|well) (?:\w+ ){0,4}(?:done|finished|over)\b",
    ),
    _row(
        KIND,
        2,
        rf"warm ?(?:ing)? ?{_US}ups?\b",
        r"get (?:nice and |us |ourselves |you )?warm\b",
        r"loosen(?:ing)? (?:\w+ )?up\b",
        r"(?:get|wake) (?:\w+ ){0,3}(?:moving|joints)\b",
        r"blood (?:moving|flowing)\b",
        value="warm-up",
    ),
    _row(
        KIND,
        2,
        r"cool(?:ing)? ?(?:\w+ )?(?:it |us |you |things )?down\b",
        r"(?:lets|to|we|and|a|some|nice|short|then|just|need a|bit of) (?:\w+ )?stretch(?:es|ing)?\b"
        r"(?! (?:your|the|one|1|out 1|it between|both))",
        r"wind(?:ing)? (?:\w+ )?down\b",
        r"bring (?:it|things|the pulse) down\b(?! (?:to|slowly|with|behind|in front|and))",
        r"settle (?:down|into|everything)\b",
        r"everything settle\b",
        r"round it off\b",
        value="cool-down",
    ),
    _row(KIND, 2, r"stretch(?:ing)?\b", value="cool-down", alone=True),
    _row(KIND, 1.5, r"cardio\b", r"finisher\b", r"conditioning\b", r"heart rate\b", value="conditioning"),
    _row(KIND, 1.5, r"mobility\b", r"(?:for|our|the|practise|practice) balance\b", value="mobility"),
    _row(FORMAT, 2, r"(?:tri|try|tree|tribe|tory|tori) ?sets?\b", value=TRI_SET),
    _row(FORMAT, 2, r"(?:super|supper) ?sets?\b", value=SUPERSET),
    _row(FORMAT, 1.2, r"(?:pair|couplet)s?\b", value=SUPERSET),
    _row(FORMAT, 1.2, r"(?:trio|triplet)s?\b", value=TRI_SET),
    _row(FORMAT, 2, r"giant ?sets?\b", value=GIANT_SET),
    _row(FORMAT, 2, r"circuits?\b", value=CIRCUIT),
    _row(FORMAT, 2, r"straight sets?\b", value=STRAIGHT),
    _row(
        FORMAT,
        2,
        r"intervals?\b",
        r"\d+ (?:seconds )?on\b.{1,20}\b\d+ (?:seconds )?off\b",
        r"\d+ seconds of work\b",
        r"work time\b",
        value=INTERVALS,
    ),
    _row(
        FORMAT,
        2.5,
        r"every minute(?: on the minute)?\b",
        r"emom\b",
        r"be m o m\b",
        r"top of (?:each|every|the) minute\b",
        value=EMOM,
    ),
    _row(FORMAT, 2.5, r"as many (?:\w+ )?rounds (?:\w+ )?as\b", r"amrap\b", value=AMRAP),
)


def signals_of(talk: Talk) -> list[Signal]:
    """All signals, in order."""
    return sorted(_found(talk), key=lambda signal: (signal.first, -signal.weight))


def _found(talk: Talk) -> Iterator[Signal]:
    for row in _ROWS:
        for match in row.pattern.finditer(talk.stream.text):
            first, last = talk.span(match)
            if not row.alone or talk.alone(first, last, SENTENCE):
                value = match.groupdict().get("n") or row.value
                yield Signal(kind=row.kind, first=first, last=last, weight=row.weight, value=value)


def first_opening(signals: list[Signal]) -> int:
    """Token at which the first block is opened; 0 where nothing says so."""
    return next((s.first for s in signals if s.kind in (OPENER, KIND) and s.weight >= 1.5), 0)
