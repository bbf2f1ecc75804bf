"""Words run together and words torn apart, put right where little else can be meant."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import zip_longest

from sitegen.draft.known import KNOWN, PLACES, SMALL, UNITS, is_unit
from sitegen.draft.words import NUMBER_WORDS, Token

_TELLING = frozenset((*UNITS, *PLACES))
_WHOLE = _TELLING | NUMBER_WORDS | frozenset(("exercise", "exercises", "superset", "circuit", "welcome"))
"""Words that are mended where they were torn apart."""

_SHORTEST = 6
"""Letters of the shortest word that is parted."""


@dataclass(frozen=True, slots=True)
class Names:
    """The words of the library's names."""

    words: frozenset[str]
    """As written, with their plurals."""
    pairs: frozenset[tuple[str, str]]
    """Two that stand side by side in a name."""


def parted(tokens: Sequence[Token], names: Names) -> Iterator[Token]:
    """The words, those run together parted: ``eachside``, ``legraises``, ``hold12``."""
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
def _seam(word: str, names: Names) -> int | None:
    """Where a word is to be parted; None where it is whole."""
    if (place := _beside_figures(word)) is not None:
        return place
    if word in KNOWN or word in names.words or len(word) < _SHORTEST or not word.isalpha():
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


def _parts(first: str, second: str, names: Names) -> bool:
    """Whether two words run into each other here.

    Many English words are made of two others (``workout``), so one of the two must be a small word, a unit
    or a number, or both must stand side by side in a name.
    """
    known = KNOWN | names.words
    if first not in known or second not in known:
        return False
    if (first, second) in names.pairs:
        return True
    return any(_tells(part, other, names) for part, other in ((first, second), (second, first)))


def _tells(part: str, other: str, names: Names) -> bool:
    if part in names.words:
        return other in SMALL and len(part) >= 3
    if part in _TELLING:
        return (other in SMALL or other in _TELLING or other in NUMBER_WORDS) and len(part) >= 3
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
