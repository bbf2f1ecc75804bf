"""Putting recognition errors right where the neighbours say what must have been meant.

Only words in places where talk about doses leaves little choice are changed: what follows a number
is a unit ("twelve wraps"), what follows "each" is a side ("each sighed"), what precedes a unit is a number
("ate reps"). Words run together or torn apart are mended where both parts, or the whole, are ordinary.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

from rapidfuzz.distance import Levenshtein

from sitegen.draft.known import KNOWN, ORDER, ORDERED, ORDINAL, PLACES, UNITS, is_unit
from sitegen.draft.seams import joined, parted
from sitegen.draft.stems import likeness
from sitegen.draft.words import NUMBER_WORDS, Token

_EACH = ("each", "every", "per")
_NUMBERS = tuple(sorted(NUMBER_WORDS - {"zero", "one", "couple", "hundred", "dozen"}))
_LINKS = ("in", "on", "with", "for", "to")
_HOMOPHONES = {"to": "two", "too": "two", "for": "four", "ate": "eight", "then": "ten", "won": "one"}
_ORDINALS = {"twelfth": "twelve", "fifteenth": "fifteen", "twentieth": "twenty", "thirtieth": "thirty"}
_THEM = ("them", "these", "those")
_LEAST, _LEAST_NUMBER = 0.6, 0.8


def repaired(tokens: Sequence[Token], names: frozenset[str]) -> list[Token]:
    """The words with such errors put right; times are kept. ``names`` are the words of the library's
    names.
    """
    mended = list(_once(list(joined(list(parted(tokens, names))))))
    for index in range(len(mended)):
        word = _meant(mended, index)
        if word:
            mended[index] = replace(mended[index], text=word)
    return mended


def _once(tokens: list[Token]) -> Iterator[Token]:
    """Words said or written twice in a row, taken once; numbers only where their unit follows."""
    for index, token in enumerate(tokens):
        after = [t.text for t in tokens[index + 1 : index + 3]]
        twice = bool(after) and after[0] == token.text and tokens[index + 1].break_before == 0
        with_unit = len(after) > 1 and is_unit(after[1])
        if not twice or (_is_number(token.text) and not with_unit):
            yield token


def _meant(tokens: list[Token], index: int) -> str | None:
    """The word that must have been meant; None where it stays."""
    word = tokens[index].text
    before = tokens[index - 1].text if index else ""
    after, later = (tokens[i].text if i < len(tokens) else "" for i in (index + 1, index + 2))
    if (is_unit(after) or (after == "of" and later in _THEM)) and (number := _number(word, before)):
        return number
    if before == "a" and index > 1 and tokens[index - 2].text in UNITS and word not in PLACES:
        return _nearest(word, ("side", "leg"), _LEAST)
    if after in PLACES and (before in (*UNITS, *_LINKS) or _is_number(before)):
        return _each(word)
    if word == "ate" and (after in (*_EACH, *_LINKS, "times") or before in ("do", "just")):
        return "eight"
    if _is_number(before) and word == "breathe" and after not in ("in", "out", "deeply", "and"):
        return "breaths"
    if word in KNOWN or word.isdigit():
        return _ORDINALS.get(word)
    if tokens[index].break_before == 2:
        return _ORDINALS.get(word)
    if _is_number(before):
        return _nearest(word, UNITS, _LEAST)
    if before in _EACH:
        return _nearest(word, PLACES, _LEAST)
    if after in ORDERED and (ordinal := _nearest(word, ORDINAL, _LEAST)):
        return ordinal
    return _ORDINALS.get(word) or _nearest(word, ORDER, _LEAST_NUMBER)


def _each(word: str) -> str | None:
    """ "each", where a word between an amount and a side can hardly be another one."""
    if word in _EACH or word in ("left", "right", "other", "both", "either"):
        return None
    return next((meant for meant in ("each", "per") if _spelt_alike(word, meant)), None)


def _spelt_alike(word: str, meant: str) -> bool:
    return Levenshtein.normalized_similarity(word, meant) >= 0.5


def _is_number(word: str) -> bool:
    return word.isdigit() or word in NUMBER_WORDS


def _number(word: str, before: str) -> str | None:
    """The number that a word before a unit stands for."""
    if word.isdigit() or word in NUMBER_WORDS:
        return None
    if word in _HOMOPHONES:
        return None if _is_number(before) else _HOMOPHONES[word]
    return None if word in KNOWN else _nearest(word, _NUMBERS, _LEAST)


@lru_cache(maxsize=20_000)
def _nearest(word: str, meant: tuple[str, ...], least: float) -> str | None:
    best = max(meant, key=lambda other: likeness(word, other))
    return best if likeness(word, best) >= least else None
