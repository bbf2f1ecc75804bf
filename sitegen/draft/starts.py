"""Where a chapter begins: at the words that lead to the name, not at the name."""

from sitegen.draft.trade import words_in
from sitegen.draft.words import Stream

MOST_LEAD_S = 7.0
"""An introduction that takes longer is not part of the chapter."""

_LEADING = words_in(
    "a an the so okay ok now and then well alright right good great our your some my this that thats "
    "these is its it are was be "
    "first second third fourth fifth sixth last final next 1 2 3 4 5 6 7 8 9 exercise excise "
    "exercises move movement number no group here "
    "we were well im ill lets let us i you youre gonna going to do doing have got get go with start "
    "starting begin "
    "up on onto into for of in at from there after finish off by call called what comes coming "
    "together also just us"
    " moving over back another want need take grab come down roll uh um erm partner pair add"
)


def chapter_start(stream: Stream, name_at: int) -> int:
    """Token at which the introduction of the name at token ``name_at`` begins."""
    tokens = stream.tokens
    start = name_at
    while start > 0 and tokens[start].break_before < 2 and _belongs(stream, start, name_at):
        start -= 1
    if start > 0 and tokens[start].pause_before < 2.5:
        start = _with_short_lead(stream, start, name_at)
    return start


def _belongs(stream: Stream, start: int, name_at: int) -> bool:
    """Whether the word before ``start`` leads to the name."""
    tokens = stream.tokens
    if tokens[name_at].start - tokens[start - 1].start > MOST_LEAD_S:
        return False
    before = tokens[start - 1]
    return stream.punctuated or before.text in _LEADING or (start == name_at and before.value is not None)


def _with_short_lead(stream: Stream, start: int, name_at: int) -> int:
    """Take in a short sentence before, such as "Number one." or "What's next?"."""
    tokens = stream.tokens
    if not stream.punctuated:
        return start
    before = start - 1
    while before > 0 and tokens[before].break_before < 2:
        before -= 1
    words = [token.text for token in tokens[before:start]]
    short = len(words) <= 4 and tokens[name_at].start - tokens[before].start <= MOST_LEAD_S
    leads = {"first", "second", "third", "fourth", "next", "last", "number", "exercise", "then"} & set(words)
    return before if short and leads else start


def sentence_start(stream: Stream, index: int, most_s: float = 8.0) -> int:
    """First token of the sentence around a token; where nobody marks sentences, of the words that lead to
    it.
    """
    tokens = stream.tokens
    start = index
    while (
        start > 0
        and tokens[start].break_before < 2
        and tokens[index].start - tokens[start - 1].start <= most_s
    ):
        if not stream.punctuated and tokens[start - 1].text not in _LEADING:
            break
        start -= 1
    return start
