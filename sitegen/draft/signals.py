"""Phrases that order a session: openings, your turn, coming back, formats."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from sitegen.draft.talk import Talk
from sitegen.vocabulary import AMRAP, CIRCUIT, EMOM, GIANT_SET, INTERVALS, STRAIGHT, SUPERSET, TRI_SET

GROUP = (
    r"(?:(?:tri|try|three|tree|trey) ?sets?|super ?sets?|giant ?sets?|circuits?|blocks?|groups?|"
    r"pairs?|trios?|parts?|"
    r"sections?|combos?|couplets?|triplets?|set of (?:exercises|moves)|finishers?|pairing|cluster)"
)
_ORDINAL = r"(?:first|second|third|fourth|fifth|sixth|next|last|final|another|main|other|1 more|1 last)"

TURN = "turn"
RESUME = "resume"
OPENER = "opener"
KIND = "kind"
FORMAT = "format"
COUNTED = "counted"
ROUND = "round"
DONE = "done"

ALONE = "alone "
"""Before a kind: the words must make a sentence of their own."""

_PATTERNS: tuple[tuple[str, str, float, str], ...] = (
    (
        TURN,
        r"(?:pause|stop|paws|pores|halt) (?:it |now |again |here |please |right |just |there )*(?:the |"
        r"this |that |your )?(?:video|recording|film|clip|tape)\b",
        3,
        "",
    ),
    (
        TURN,
        r"(?:pause|paws) (?:me|us|it)(?: here| now| there| again| please| while)?\b|\bstop (?:me|"
        r"us) (?:here|now|there)\b|\bput (?:me|us|it) on pause\b",
        2.5,
        "",
    ),
    (
        TURN,
        r"(?:pass|pace|poise|poses?|pours?|pause) (?:it|me|us|here|the (?:video|film|recording))\b|"
        r"\blets pause\b",
        2,
        "",
    ),
    (TURN, r"(?:hit|press|push|click|tap) (?:on )?(?:the )?(?:pause|stop)\b", 3, ""),
    (TURN, r"pause (?:here|now|again|please|1 more time|and (?:do|get|go|finish|complete|come))\b", 2.5, ""),
    (TURN, r"your (?:turn|go)\b|\bover to you\b|\btime for you to\b", 2, ""),
    (
        TURN,
        r"off you go\b|\bgo (?:ahead|on) and (?:do|hit|get|pause)\b|\bgo get it\b|\bhave a go\b|"
        r"\bgo and do (?:it|them|those|your|that)\b",
        1,
        "",
    ),
    (
        TURN,
        r"(?:come|came|get) (?:on )?back (?:here |and find me )?(?:when|once|after)\b|"
        r"\bsee you (?:back here|after|when|in a)\b|\bill (?:wait|be here|be right here|see you)\b",
        0.8,
        "",
    ),
    (TURN, r"pause\b", 0.7, ""),
    (ALONE + TURN, r"pause\b", 2, ""),
    (ALONE + KIND, r"stretch(?:ing)?\b", 2, "cool-down"),
    (
        RESUME,
        r"welcome back\b|\b(?:were|we are|and were|youre|you are) back\b|\bback with me\b|\b(?:hello|hi|"
        r"hey) again\b|\bthere you are\b|\bsee you again\b",
        2,
        "",
    ),
    (
        RESUME,
        r"how (?:was|did) (?:that|it|they)\b|\bhope (?:that|it|you|this) (?:\w+ )?(?:was|went|did|could|"
        r"had|enjoyed|got)\b|\bthank you for coming back\b|\bhopefully that\b",
        1.5,
        "",
    ),
    (
        OPENER,
        rf"{_ORDINAL} (?:big |little |and last |and final |exercise |mini |of the |"
        rf"short )?(?:{GROUP})\b(?! (?:is |are |was )?(?:done|finished|over|down|of the (?:movement|rep)))",
        2.5,
        "",
    ),
    (
        OPENER,
        rf"(?:{GROUP}) (?:number |no )?(?:\d{{1,2}}|a|b|c|d)\b(?! (?:reps|times|seconds|minutes|rounds|"
        rf"sets|exercises|each))",
        2.5,
        "",
    ),
    (OPENER, r"(?:the |your )?(?:last|final) (?:thing|bit|piece) (?:is|of|we|here|today)\b", 1.5, ""),
    (
        OPENER,
        r"(?:last|final) (?:1|thing|bit|exercise) (?:for|of) (?:today|the day)\b|\bnow (?:its|for the|"
        r"to the) (?:\w+ )?(?:legs|arms|abs|core|back|chest|shoulders|upper|lower|floor)\b",
        1.5,
        "",
    ),
    (
        OPENER,
        r"(?:its|onto|on to|for) (?:your |the |our )?(?:legs|leg|arms?|abs|core|upper body|lower body|"
        r"shoulders|back|hips|floor|trunk|balance|strength)(?: time| part| work| now)?\b",
        0.8,
        "",
    ),
    (
        COUNTED,
        r"(?:have|got|theres|there are|its|doing|do|just|are|has|of|with|by|"
        r"show you) (?:the )?(?P<n>\d{1,2}) (?:\w+ ){0,2}?(?:exercises?|moves|movements|things|stations)\b",
        1.5,
        "",
    ),
    (
        ROUND,
        r"(?:round|set|time) (?:number )?\d\b|\b(?:second|third|fourth|last|final|next|"
        r"1 more) (?:and last |and final )?(?:round|set|time|go)\b|\b(?:once|1 time|all|that) (?:more|"
        r"again)\b|\bsecond time\b",
        1,
        "",
    ),
    (
        DONE,
        r"(?:thats|that is|and youre|youre|all|are|is|that was|well) (?:\w+ ){0,4}(?:done|finished|over)\b",
        1,
        "",
    ),
    (
        KIND,
        r"warm ?(?:ing)? ?(?:it |us |you |your body |the body |the \w+ |yourself |ourselves )?ups?\b|"
        r"\bget (?:nice and |us |ourselves |you )?warm\b|\bmake us warm\b|\bloosen(?:ing)? (?:\w+ )?up\b|"
        r"\b(?:get|wake) (?:\w+ ){0,3}(?:moving|joints)\b|\bblood (?:moving|flowing)\b|\bpreparation\b",
        2,
        "warm-up",
    ),
    (
        KIND,
        r"cool(?:ing)? ?(?:\w+ )?(?:it |us |you |things )?down\b|\b(?:lets|to|we|and|a|some|nice|short|"
        r"then|just|need a|bit of) (?:\w+ )?stretch(?:es|ing)?\b(?! (?:your|the|one|1|out 1|it between|"
        r"both))|^stretch\b|\bwind(?:ing)? (?:\w+ )?down\b|\bbring (?:it|things|"
        r"the pulse) down\b(?! (?:to|slowly|with|behind|in front|and))|\bsettle (?:down|into|"
        r"everything)\b|\beverything settle\b|\bround it off\b",
        2,
        "cool-down",
    ),
    (KIND, r"cardio\b|\bfinisher\b|\bconditioning\b|\bheart rate\b|\bhiit\b", 1.5, "conditioning"),
    (KIND, r"mobility\b|\b(?:for|our|the|practise|practice) balance\b", 1.5, "mobility"),
    (FORMAT, r"(?:tri|try|tree|tribe|tory|tori) ?sets?\b", 2, TRI_SET),
    (FORMAT, r"(?:super|supper) ?sets?\b", 2, SUPERSET),
    (FORMAT, r"(?:pair|couplet)s?\b", 1.2, SUPERSET),
    (FORMAT, r"(?:trio|triplet)s?\b", 1.2, TRI_SET),
    (FORMAT, r"giant ?sets?\b", 2, GIANT_SET),
    (FORMAT, r"circuits?\b", 2, CIRCUIT),
    (FORMAT, r"straight sets?\b", 2, STRAIGHT),
    (
        FORMAT,
        r"intervals?\b|\b\d+ (?:seconds )?on\b.{1,20}\b\d+ (?:seconds )?off\b|\b\d+ seconds of work\b|"
        r"\bwork time\b",
        2,
        INTERVALS,
    ),
    (
        FORMAT,
        r"every minute(?: on the minute)?\b|\bemom\b|\be m o m\b|\btop of (?:each|every|the) minute\b",
        2.5,
        EMOM,
    ),
    (FORMAT, r"as many (?:\w+ )?rounds (?:\w+ )?as\b|\bamrap\b", 2.5, AMRAP),
)
_COMPILED = tuple(
    (kind, re.compile(rf"\b(?:{pattern})"), weight, value) for kind, pattern, weight, value in _PATTERNS
)


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


def signals_of(talk: Talk) -> list[Signal]:
    """All signals, in order."""
    return sorted(_found(talk), key=lambda signal: (signal.first, -signal.weight))


def _found(talk: Talk) -> Iterator[Signal]:
    for kind, pattern, weight, value in _COMPILED:
        for match in pattern.finditer(talk.stream.text):
            first, last = talk.span(match)
            if kind.startswith(ALONE) and not talk.alone(first, last):
                continue
            said = match.groupdict().get("n") or value
            yield Signal(kind=kind.removeprefix(ALONE), first=first, last=last, weight=weight, value=said)


def first_opening(signals: list[Signal]) -> int:
    """Token at which the first block is opened; 0 where nothing says so."""
    return next((s.first for s in signals if s.kind in (OPENER, KIND) and s.weight >= 1.5), 0)
