"""Words run together and words torn apart, put right where little else can be meant."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import zip_longest

from sitegen.draft.compounds import COMPOUNDS
from sitegen.draft.known import KNOWN, PLACES, SMALL, UNITS, is_unit
from sitegen.draft.words import NUMBER_WORDS, Token

_TELLING = frozenset((*UNITS, *PLACES))
_WHOLE = _TELLING | NUMBER_WORDS | frozenset(("exercise", "exercises", "superset", "circuit", "welcome"))
"""Words that are mended where they were torn apart."""

_SHORTEST = 6
"""Letters of the shortest word that is parted."""


def parted(tokens: Sequence[Token], names: frozenset[str]) -> Iterator[Token]:
    """The words, those run together parted: ``eachside``, ``legraises``, ``hold12``.

    ``names`` are the words of the library's names.
    """
    for token, following in zip_longest(tokens, tokens[1:]):
        place = _seam(token.text, names)
        if place is None and following and is_unit(following.text):
            place = _number_at_end(token.text)
        if place is None:
            yield token
            continue
        middle = token.start + (token.end - token.start) * place / len(token.text)
        yield replace(token, text=token.text[:place], end=middle)
        yield replace(token, text=token.text[place:], start=middle, break_before=0, pause_before=0.0)


@lru_cache(maxsize=20_000)
def _seam(word: str, names: frozenset[str]) -> int | None:
    """Where a word is to be parted; None where it is whole."""
    if (place := _beside_figures(word)) is not None:
        return place
    if word in KNOWN or word in names or word in COMPOUNDS:
        return None
    if len(word) < _SHORTEST or not word.isalpha():
        return None
    places = [place for place in range(1, len(word)) if _parts(word[:place], word[place:], names)]
    return places[-1] if places else None


def _beside_figures(word: str) -> int | None:
    """The place between figures and letters."""
    digits = len(word) - len(word.lstrip("0123456789"))
    if 0 < digits < len(word) and word[digits:] in KNOWN:
        return digits
    letters = len(word.rstrip("0123456789"))
    return letters if 1 < letters < len(word) and word[:letters].isalpha() else None


def _parts(first: str, second: str, names: frozenset[str]) -> bool:
    """Whether two words run into each other here: one of them of a name, a unit, a side or a number."""
    known = KNOWN | names
    if first not in known or second not in known:
        return False
    return _tells(first, second, names) or _tells(second, first, names)


def _tells(part: str, other: str, names: frozenset[str]) -> bool:
    if part in _TELLING or part in names:
        return len(part) >= 3
    return part in NUMBER_WORDS and (len(part) >= 4 or other in SMALL)


@lru_cache(maxsize=20_000)
def _number_at_end(word: str) -> int | None:
    """Where a number begins that another word runs into; None where none does."""
    if word in KNOWN:
        return None
    return next((p for p in range(2, len(word) - 2) if word[p:] in NUMBER_WORDS), None)


def joined(tokens: Sequence[Token]) -> Iterator[Token]:
    """The words, those torn apart joined: ``sec onds``."""
    index = 0
    while index < len(tokens):
        token = tokens[index]
        following = tokens[index + 1] if index + 1 < len(tokens) else None
        if following and _torn(token.text, following.text):
            yield replace(token, text=token.text + following.text, end=following.end)
            index += 2
        else:
            yield token
            index += 1


def _torn(first: str, second: str) -> bool:
    return first + second in _WHOLE and (first not in KNOWN or second not in KNOWN)
