"""Putting recognition errors right where the neighbours say what must have been meant.

Only words in places where talk about doses leaves little choice are changed: what follows a number
is a unit ("twelve wraps"), what follows "each" is a side ("each sighed"), what precedes a unit is a number
("ate reps"). Words run together or torn apart are mended where both parts, or the whole, are ordinary.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import zip_longest

from rapidfuzz.distance import Levenshtein

from sitegen.draft.stems import likeness
from sitegen.draft.trade import COMMON_WORDS, KIT_WORDS, STRONG_BASES, TELLING_WORDS, WEAK_BASES, words_in
from sitegen.draft.words import NUMBER_WORDS, Token

_UNITS = (
    "seconds",
    "minutes",
    "minute",
    "reps",
    "repetitions",
    "times",
    "breaths",
    "steps",
    "rounds",
    "sets",
    "each",
    "every",
    "per",
)
_PLACES = ("side", "leg", "arm", "foot", "hand", "way", "direction", "sides", "legs", "arms")
_EACH = ("each", "every", "per")
_ORDER = ("exercise", "exercises", "welcome", "superset", "circuit")
_ORDINAL = ("first", "second", "third", "fourth")
_ORDERED = frozenset(
    ("exercise", "exercises", "one", "circuit", "superset", "group", "set", "block", "part", "round", "pair")
)
_NUMBERS = tuple(sorted(NUMBER_WORDS - {"zero", "one", "couple", "hundred", "dozen"}))
_LINKS = ("in", "on", "with", "for", "to")
_HOMOPHONES = {"to": "two", "too": "two", "for": "four", "ate": "eight", "then": "ten", "won": "one"}
_ORDINALS = {"twelfth": "twelve", "fifteenth": "fifteen", "twentieth": "twenty", "thirtieth": "thirty"}
_THEM = ("them", "these", "those")
_LEAST, _LEAST_NUMBER = 0.6, 0.8

_COACHING = words_in(
    "breathe breath breathing squeeze hold hips chest elbows elbow knees shoulders shoulder wrists "
    "neck head toes heels heel core belly "
    "floor wall ground slowly slow tall straight bent bend reach lower lift drop drive swing step "
    "steps switch swap change "
    "kilos kilo litres litre pounds years people exercises different same both straight again ready"
)
_KNOWN = (
    _COACHING
    | COMMON_WORDS
    | NUMBER_WORDS
    | frozenset((*_UNITS, *_PLACES, *_ORDER, *_ORDINAL, *_ORDERED))
    | frozenset(" ".join((STRONG_BASES, WEAK_BASES)).replace("|", " ").split())
    | TELLING_WORDS
    | words_in(
        "inside outside beside besides upside offside sideways alongside onset upset upright upstairs "
        "downstairs stairway "
        "handstand handle footstep footsteps footrest armrest armchair backrest legroom setup warmup "
        "today forward forwards "
        "backwards everything anything something nothing anyone everyone someone without within whoever "
        "however another "
        "downward upward waistband headrest bedside seaside roadside handsfree breakfast pause video "
        "rests resting"
    )
    | frozenset(word for key, others in KIT_WORDS.items() for word in (key, *others.split()))
)
_TELLING_UNITS = frozenset((*_UNITS, *_PLACES))


def repaired(tokens: Sequence[Token], names: frozenset[str]) -> list[Token]:
    """The words with such errors put right; times are kept. ``names`` are the words of the library's
    names.
    """
    mended = list(_once(list(_joined(list(_parted(tokens, names))))))
    for index in range(len(mended)):
        word = _meant(mended, index)
        if word:
            mended[index] = replace(mended[index], text=word)
    return mended


def _parted(tokens: Sequence[Token], names: frozenset[str]) -> Iterator[Token]:
    """Words run together, parted: ``eachside``, ``legraises``."""
    for token, following in zip_longest(tokens, tokens[1:]):
        place = _seam(token.text, names)
        if place is None and following and _is_unit(following.text):
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
    digits = len(word) - len(word.lstrip("0123456789"))
    if 0 < digits < len(word) and word[digits:] in _KNOWN:
        return digits
    letters = len(word.rstrip("0123456789"))
    if 1 < letters < len(word) and word[:letters].isalpha():
        return letters
    if word in _KNOWN or word in names or len(word) < 6 or not word.isalpha():
        return None
    known = _KNOWN | names
    places = [p for p in range(1, len(word)) if word[:p] in known and word[p:] in known]
    telling = [p for p in places if _tells(word[:p], word[p:], names) or _tells(word[p:], word[:p], names)]
    return telling[-1] if telling else None


@lru_cache(maxsize=20_000)
def _number_at_end(word: str) -> int | None:
    """Where a number begins that another word runs into; None where none does."""
    if word in _KNOWN:
        return None
    return next((p for p in range(2, len(word) - 2) if word[p:] in NUMBER_WORDS), None)


def _tells(part: str, other: str, names: frozenset[str]) -> bool:
    """Whether a part is a word that doses or names are made of, long enough not to be there by chance."""
    if part in _TELLING_UNITS or part in names:
        return len(part) >= 3
    return part in NUMBER_WORDS and (len(part) >= 4 or other in ("and", "then", "just", "the"))


def _joined(tokens: list[Token]) -> Iterator[Token]:
    """Words torn apart, joined: ``sec onds``."""
    index = 0
    while index < len(tokens):
        token = tokens[index]
        if index + 1 < len(tokens):
            following = tokens[index + 1]
            whole = token.text + following.text
            torn = token.text not in _KNOWN or following.text not in _KNOWN
            if torn and whole in _TELLING_UNITS | NUMBER_WORDS | frozenset(_ORDER):
                yield replace(token, text=whole, end=following.end)
                index += 2
                continue
        yield token
        index += 1


def _once(tokens: list[Token]) -> Iterator[Token]:
    """Words said or written twice in a row, taken once; numbers only where their unit follows."""
    for index, token in enumerate(tokens):
        after = [t.text for t in tokens[index + 1 : index + 3]]
        twice = bool(after) and after[0] == token.text and tokens[index + 1].break_before == 0
        with_unit = len(after) > 1 and _is_unit(after[1])
        if not twice or (_is_number(token.text) and not with_unit):
            yield token


def _meant(tokens: list[Token], index: int) -> str | None:
    """The word that must have been meant; None where it stays."""
    word = tokens[index].text
    before = tokens[index - 1].text if index else ""
    after, later = (tokens[i].text if i < len(tokens) else "" for i in (index + 1, index + 2))
    if (_is_unit(after) or (after == "of" and later in _THEM)) and (number := _number(word, before)):
        return number
    if before == "a" and index > 1 and tokens[index - 2].text in _UNITS and word not in _PLACES:
        return _nearest(word, ("side", "leg"), _LEAST)
    if after in _PLACES and (before in (*_UNITS, *_LINKS) or _is_number(before)):
        return _each(word)
    if word == "ate" and (after in (*_EACH, *_LINKS, "times") or before in ("do", "just")):
        return "eight"
    if _is_number(before) and word == "breathe" and after not in ("in", "out", "deeply", "and"):
        return "breaths"
    if word in _KNOWN or word.isdigit():
        return _ORDINALS.get(word)
    if tokens[index].break_before == 2:
        return _ORDINALS.get(word)
    if _is_number(before):
        return _nearest(word, _UNITS, _LEAST)
    if before in _EACH:
        return _nearest(word, _PLACES, _LEAST)
    if after in _ORDERED and (ordinal := _nearest(word, _ORDINAL, _LEAST)):
        return ordinal
    return _ORDINALS.get(word) or _nearest(word, _ORDER, _LEAST_NUMBER)


def _each(word: str) -> str | None:
    """ "each", where a word between an amount and a side can hardly be another one."""
    if word in _EACH or word in ("left", "right", "other", "both", "either"):
        return None
    return next((meant for meant in ("each", "per") if _spelt_alike(word, meant)), None)


def _spelt_alike(word: str, meant: str) -> bool:
    return Levenshtein.normalized_similarity(word, meant) >= 0.5


def _is_unit(word: str) -> bool:
    return word in ("seconds", "minutes", "reps", "repetitions", "breaths", "rounds", "sets")


def _is_number(word: str) -> bool:
    return word.isdigit() or word in NUMBER_WORDS


def _number(word: str, before: str) -> str | None:
    """The number that a word before a unit stands for."""
    if word.isdigit() or word in NUMBER_WORDS:
        return None
    if word in _HOMOPHONES:
        return None if _is_number(before) else _HOMOPHONES[word]
    return None if word in _KNOWN else _nearest(word, _NUMBERS, _LEAST)


@lru_cache(maxsize=20_000)
def _nearest(word: str, meant: tuple[str, ...], least: float) -> str | None:
    best = max(meant, key=lambda other: likeness(word, other))
    return best if likeness(word, best) >= least else None
