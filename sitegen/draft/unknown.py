"""Exercises that are shown and that the library lacks."""

import re
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import replace

from sitegen.draft.find import Naming
from sitegen.draft.hits import Stems
from sitegen.draft.lexicon import STRONG, WEAK, Lexicon, parts_of
from sitegen.draft.stems import stem
from sitegen.draft.trade import COMMON_WORDS, words_in
from sitegen.draft.words import Stream

_CALLED = re.compile(r"\b(?:is called|its called|called|name is|call (?:it|this|that)) (?:a |an |the |our )?")
_NUMBERED = re.compile(
    r"\b(?:(?:first|second|third|fourth|fifth|next|last|final) (?:exercise|move|movement|"
    r"1)(?: (?:here|of these|in this \w+))?|"
    r"(?:exercise|move|movement|number) \d{1,2})(?: is| are|s| we have| will be)? (?:going to be |"
    r"gonna be )?(?:a |an |the |our |some |called )*"
)
_BY_FIRST_STEM = {base[0]: [b for b in STRONG if b[0] == base[0]] for base in STRONG}
_MOST_WORDS = 4
_RESEMBLES = 0.75
_ALIKE = 0.65
"""Share of words in common (Dice coefficient) from which on an announced name is taken for one of the
library.
"""

_ENDS_A_NAME = words_in(
    "hold lie so and with for on you we i it is are that this where which in at as then now if do "
    "keep take your my "
    "start stand put sit reach grab we're feet hands legs arms from to of again please okay"
)


def unknown_namings(stems: Stems, lexicon: Lexicon, known: list[Naming]) -> list[Naming]:
    """Names that nothing in the library answers to, in order; ``exercise`` is empty."""
    covered = {index for naming in known for index in range(naming.first, naming.last + 1)}
    found: dict[int, Naming] = {}
    for naming in (*_announced(stems.stream, lexicon), *_movements(stems, lexicon)):
        span = set(range(naming.first, naming.last + 1))
        if not span & covered:
            covered |= span
            found[naming.first] = naming
    return [found[first] for first in sorted(found)]


def _naming(first: int, last: int, score: float, *, announced: bool = False) -> Naming:
    return Naming(
        exercise="",
        variant=None,
        first=first,
        last=last,
        score=score,
        matched=0,
        exact=True,
        announced=announced,
    )


def _announced(stream: Stream, lexicon: Lexicon) -> Iterator[Naming]:
    """ "The second exercise is called the windmill"."""
    for pattern, sure in ((_CALLED, True), (_NUMBERED, False)):
        for match in pattern.finditer(stream.text):
            first = bisect_right(stream.offsets, match.end()) - 1
            last = _name_end(stream, first)
            if last is None:
                continue
            words = [token.text for token in stream.tokens[first : last + 1]]
            resembling = _resembling(words, lexicon)
            if resembling:
                yield replace(
                    _naming(first, last, _RESEMBLES, announced=True), exercise=resembling, exact=False
                )
                continue
            movement = _is_movement(words)
            if movement or (sure and not set(words) <= COMMON_WORDS):
                yield _naming(first, last, 1.0, announced=True)


def _resembling(words: list[str], lexicon: Lexicon) -> str | None:
    """The exercise of which an announced name is a clear part: "wall press" for the wall press-up."""
    heard = tuple(part for word in words for part in parts_of(word))
    best: dict[str, float] = {}
    for phrase in (p for phrases in lexicon.by_head.values() for p in phrases if heard[0] in p.stems):
        common = sum(word in heard for word in phrase.stems)
        score = 2 * common / (len(heard) + len(phrase.stems))
        best[phrase.exercise] = max(score, best.get(phrase.exercise, 0.0))
    ranked = sorted(best.items(), key=lambda pair: (-pair[1], pair[0]))
    if not ranked or ranked[0][1] < _ALIKE or (len(ranked) > 1 and ranked[1][1] == ranked[0][1]):
        return None
    return ranked[0][0]


def _name_end(stream: Stream, first: int) -> int | None:
    tokens = stream.tokens
    last = None
    for index in range(first, min(first + _MOST_WORDS, len(tokens))):
        token = tokens[index]
        if (
            (index > first and token.break_before)
            or token.value not in (None, 1)
            or token.text in _ENDS_A_NAME
        ):
            break
        last = index
    return last


def _is_movement(words: list[str]) -> bool:
    stems = tuple(stem(word) for word in words)
    return any(stems[-len(base) :] == base for base in (*STRONG, *WEAK))


def _movements(stems: Stems, lexicon: Lexicon) -> Iterator[Naming]:
    """Movements known to the trade, with the words that tell which."""
    words = tuple(stems.stems)
    for place, word in enumerate(words):
        for base in _BY_FIRST_STEM.get(word, ()):
            if words[place : place + len(base)] != base:
                continue
            first = place
            while first > 0 and words[first - 1] in lexicon.telling and not stems.broken(first - 1, first):
                first -= 1
            told = 1.0 if first < place else 0.8
            yield _naming(stems.tokens[first], stems.tokens[place + len(base) - 1], told)
