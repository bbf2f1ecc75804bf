"""Sets, rounds, rests and interval times in talk."""

import re
from collections.abc import Iterator

from sitegen.draft.amounts import SetsSaid, TimeSaid
from sitegen.draft.talk import CLAUSE, Talk
from sitegen.notation import Count, Duration

_MOST_SETS = 12
_BLOCK_TIME_S = 240
"""From here on a length of time is that of a block, not of an exercise."""

_SHORTEST_DOSE_S = 8
"""A shorter time is how long to hold or to lower."""

_SETS = re.compile(
    r"\b(?P<n>\d{1,2})(?: (?:to|or) (?P<m>\d{1,2}))? (?:more |full |whole |good |total |big |"
    r"of these |of those )*"
    r"(?P<unit>rounds|sets|times (?:through|around|round|over|together|in total|each(?! (?:side|leg|"
    r"arm|way|foot|hand)))|laps)\b"
    r"|\b(?:around|through|round|do|this|that|those|2|them|it|lot of them|whole thing|all of (?:it|"
    r"them|that|this)) (?P<twice>twice)\b"
    r"|\b(?:around|round|through|it|that|this|them|these|those|all|again) (?P<n2>\d{1,2}) times\b"
)
_OVER = re.compile(r"^(?:is |are )?(?:done|down|to go|left|finished|behind|of the way|in a row)\b")
_ANOTHER = re.compile(
    r"\b(?:round|set|number|first|second|third|last|next|final|another|1 more|more|thats|that was|after|of) $"
)
_CHANGED = re.compile(
    r"\b(?:no\b(?! (?:rest|need|kit|jump\w*|weights?|pause|problem|matter|rush|more|\w+ing))|sorry|"
    r"actually|make (?:that|it)|lets|wait|well|mean|rather|instead|scratch|wrong)\b"
)

TIME = re.compile(
    r"\b(?:(?P<n>\d{1,3})(?: (?:to|or) (?P<m>\d{1,3}))? (?P<unit>seconds?|secs?|minutes?|"
    r"mins?)(?P<half> and a half)?"
    r"|(?P<half_minute>half (?:a |1 )?minute)|(?:a|whole|full) (?P<a_minute>minute)(?P<half2> and a half)?)\b"
)
_REST_BEFORE = re.compile(r"\b(?:rest(?:ing)?|break|breather|recover|recovery|pausing|between)\b")
_REST_AFTER = re.compile(
    r"^(?:of )?(?:\w+ ){0,2}?(?:rest|break|breather|off|between|in between|recovery|after (?:each|every))\b"
)
_WORK_BEFORE = re.compile(r"\b(?:work time|work for|working for|work is|on for) (?:\w+ )?$")
_WORK_AFTER = re.compile(r"^(?:of )?(?:work\b|on (?=(?:and |then |\d)|$))")
_NO_AMOUNT_AFTER = re.compile(
    r"^(?:left\b(?! right)|more|to go|(?:on the way )?(?:up|down)\b|later|ago|tops|longer|early)"
)
_NO_AMOUNT_BEFORE = re.compile(
    r"\b(?:take|takes|taking|count of|for another|wait|last|next|about to|got|have|it for a|"
    r"over for a) (?:about |another |the |maybe )?$"
)
_TALLY = re.compile(r"\b(?:rounds?|sets?|after (?:each|every|that)|each set|each round|every round|pair)\b")


def sets_said(talk: Talk) -> Iterator[SetsSaid]:
    """Numbers of sets and rounds, leaving out those that count how far one has come."""
    for match in _SETS.finditer(talk.stream.text):
        first, last = talk.span(match)
        before, after = talk.before(first, 3, CLAUSE), talk.after(last, 4)
        if _OVER.search(after) or _ANOTHER.search(before) or not talk.unbroken(first, last):
            continue
        low = 2 if match["twice"] else int(match["n"] or match["n2"])
        high = int(match["m"] or low)
        if 1 <= low <= high <= _MOST_SETS and _counts_sets(match, low):
            yield SetsSaid(
                first=first,
                last=last,
                count=Count(low, high),
                word=_word(match),
                changed=changed(talk, first),
            )


def _counts_sets(match: re.Match[str], low: int) -> bool:
    return low >= 2 and (match["n2"] is None or low <= 5)


def _word(match: re.Match[str]) -> str:
    unit = match["unit"] or ""
    return "rounds" if unit.startswith(("round", "lap")) else "sets" if unit.startswith("set") else ""


def changed(talk: Talk, first: int) -> bool:
    """Whether the words shortly before a token take back what was said."""
    return bool(_CHANGED.search(talk.words(first - 6, first - 1)))


def length_of(match: re.Match[str]) -> Duration:
    """The length of a match of :data:`TIME`."""
    if match["half_minute"]:
        return Duration(30, 30)
    if match["a_minute"]:
        seconds = 90 if match["half2"] else 60
        return Duration(seconds, seconds)
    factor = 60 if match["unit"].startswith("m") else 1
    low = int(match["n"])
    high = max(low, int(match["m"] or low))
    extra = 30 if match["half"] and factor == 60 else 0
    return Duration(low * factor + extra, high * factor + extra)


def time_kind(talk: Talk, first: int, last: int, length: Duration) -> str:
    """What a length of time is: ``dose``, ``rest``, ``work``, ``time`` of a block, or ``other``."""
    before, after, near = talk.before(first, 7), talk.after(last, 6), talk.after(last, 4, CLAUSE)
    if _NO_AMOUNT_AFTER.search(near) or _NO_AMOUNT_BEFORE.search(talk.before(first, 4)):
        return "other"
    if _WORK_AFTER.search(near) or _WORK_BEFORE.search(before):
        return "work"
    if _REST_BEFORE.search(before + talk.words(first - 3, first - 1)) or _REST_AFTER.search(after):
        return "rest"
    if length.high < _SHORTEST_DOSE_S:
        return "other"
    return "time" if length.low >= _BLOCK_TIME_S else "dose"


def times_said(talk: Talk) -> Iterator[TimeSaid]:
    """Rests, work times and lengths of blocks."""
    for match in TIME.finditer(talk.stream.text):
        first, last = talk.span(match)
        length = length_of(match)
        kind = time_kind(talk, first, last, length)
        if kind == "rest":
            kind = _rest_kind(talk, first, last)
        if kind not in ("dose", "other"):
            yield TimeSaid(first=first, last=last, length=length, kind=kind)


def _rest_kind(talk: Talk, first: int, last: int) -> str:
    before, after = talk.before(first, 7), talk.after(last, 8, CLAUSE)
    after = re.split(r"\band \d", after)[0]
    if re.search(r"\b(?:exercises?|moves|stations)\b", after) or re.match(r"(?:seconds )?off\b", after):
        return "rest_exercises"
    if _TALLY.search(after):
        return "rest_sets"
    if re.search(r"\bbetween (?:the )?(?:exercises|moves|stations)\b", before):
        return "rest_exercises"
    return "rest_sets" if _TALLY.search(before) else "rest"
