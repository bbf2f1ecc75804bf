"""The name of an exercise that the library lacks, without the words around it."""

from collections.abc import Iterator

from sitegen.drafting.heard import Heard
from sitegen.drafting.learned_tables import word_list
from sitegen.drafting.names.cards import rarity
from sitegen.drafting.transcript.stems import stem

_MOST_WORDS = 4
"""Of a name: longer ones are sentences (our choice)."""
_CALLING, _TOLD, _MOVEMENT, _COMPOUND, _AGAIN, _ALONE = 2.5, 1.0, 1.2, 1.0, 0.8, 0.4
"""What speaks for some words being a name: "called" before or behind them, "it's the" before them, a movement
at their end and another word before it, being said again in the recording, beginning or ending their
sentence. Set by hand: there are too few to learn from.
"""

_BEFORE, _BEHIND = 12, 25
"""Words around the stretch in which its name may be said as well: it is announced, or told in the recap."""

_TELLING = frozenset({"its", "thats", "is", "this", "ones", "called"})

_SINGLE = 1.2
"""What is taken from one word alone that is no movement: a name is hardly ever "knees"."""

_LONG = 0.45
"""What each further word must bring."""


def name_in(heard: Heard, first: int, end: int) -> tuple[str, int]:
    """The likeliest name said between two tokens, and the token where it begins; an empty one where nothing
    may be a name.
    """
    best = max(_names(heard, first, end), default=None)
    if best is None:
        return "", first
    _, place, length = best
    return heard.words(-place, -place + length - 1), -place


def _names(heard: Heard, first: int, end: int) -> Iterator[tuple[float, int, int]]:
    """Score, token (negative, so that of equals the first is the largest) and length of what may be names."""
    common = word_list("common") | word_list("fillers")
    movements, body = (frozenset(map(stem, word_list(name))) for name in ("movements", "sides"))
    first, end = max(0, first - _BEFORE), min(len(heard.tokens), end + _BEHIND)
    places: dict[str, list[int]] = {}
    for index, word in enumerate(heard.shapes):
        places.setdefault(word, []).append(index)
    for index in range(first, end):
        for length in range(1, _MOST_WORDS + 1):
            last = index + length - 1
            if last >= end or (length > 1 and heard.tokens[last].break_before):
                break
            words = [token.text for token in heard.tokens[index : last + 1]]
            if heard.tokens[last].value is not None or heard.shapes[last] == "<name>":
                break
            if words[0] in common or words[-1] in common or len(words[-1]) < 3:
                continue
            if any(word in word_list("no_name") for word in words):
                continue
            if length == 1 and stem(words[0]) in body:
                continue
            score = sum(rarity(stem(w), heard.model) if w not in common else 0.0 for w in words)
            score -= _LONG * length
            before = heard.shapes[max(0, index - 4) : index]
            after = heard.shapes[last + 1 : last + 4]
            calls = {"called", "call", "name", "named", "calls"}
            # "That is called a clam", and by half "the clam, as some call it": behind, it may be another's.
            score += _CALLING * bool(calls & set(before)) + 0.5 * _CALLING * bool(calls & set(after))
            back = [token.text for token in heard.tokens[max(0, index - 2) : index]]
            score += _TOLD * (back[-1:] in (["the"], ["a"]) and bool(_TELLING.intersection(back)))
            moves = stem(words[-1]) in movements
            score += _MOVEMENT * moves + _COMPOUND * (moves and length > 1)
            score -= _SINGLE * (length == 1 and not moves)
            times = sum(heard.shapes[i : i + length] == words for i in places.get(words[0], ()))
            score += _AGAIN * min(2, times - 1)
            opens = heard.tokens[index].break_before > 0
            closes = last + 1 >= len(heard.tokens) or heard.tokens[last + 1].break_before > 0
            score += _ALONE * (opens + closes)
            yield score, -index, length
