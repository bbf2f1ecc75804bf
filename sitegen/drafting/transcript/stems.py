"""Making inflections, joined words and sound-alikes of words comparable."""

from functools import lru_cache

from jellyfish import metaphone
from rapidfuzz.distance import Levenshtein

from sitegen.drafting.learned_tables import word_map

_IRREGULAR = {"calves": "calf", "feet": "foot", "flies": "fly", "during": "during"}
POSTURES = ("standing", "seated", "sitting", "lying", "kneeling")
"""Words of a name that go without saying once the posture is seen; kept apart from the verbs."""

_IRREGULAR |= {word: word for word in POSTURES}
_KEEP_S = ("ss", "us", "is")


_SOFT = ("lung", "hing", "bridg", "plung")

_SAME: dict[str, str] = {}
"""Filled below: the words of SAME_WORDS, as stems."""


@lru_cache(maxsize=20_000)
def stem(word: str) -> str:
    """The word without plural, -ing, -ed and a final e: ``raises``, ``raising`` and ``raise`` are one."""
    if word in _IRREGULAR or len(word) < 3 or word.isdigit():
        return _IRREGULAR.get(word, word)
    base = _without_plural(word)
    # What is left has three letters or more: "swing" and "bring" have no ending to lose, nor have "bed" and
    # "shed".
    if base.endswith("ing") and len(base) > 5:
        base = _undouble(base[:-3])
    elif base.endswith("ed") and len(base) > 5:
        base = _undouble(base[:-2])
    base = _without_e(base)
    return _SAME.get(base, base)


def _without_e(base: str) -> str:
    """Without a final e that an ending drops, but with one that makes the g of "lunge" soft."""
    if base in _SOFT:
        return f"{base}e"
    return base[:-1] if len(base) > 3 and base.endswith("e") and not base.endswith(("ge", "ce")) else base


def _without_plural(word: str) -> str:
    if word.endswith("ies") and len(word) > 4:  # "ties" and "dies" are one letter and their ending
        return word[:-3] + "y"
    if word.endswith(("sses", "shes", "ches", "xes", "zes")):
        return word[:-2]
    return word[:-1] if word.endswith("s") and not word.endswith(_KEEP_S) else word


def _undouble(base: str) -> str:
    return base[:-1] if len(base) > 3 and base[-1] == base[-2] and base[-1] not in "lsz" else base


_SAME |= {stem(word): stem(other) for word, other in word_map("same_words").items()}
stem.cache_clear()


@lru_cache(maxsize=20_000)
def sound(word: str) -> str:
    """How it sounds, by Metaphone (L. Philips, Computer Language 7(12), 1990)."""
    return metaphone(word)


@lru_cache(maxsize=200_000)
def likeness(heard: str, meant: str) -> float:
    """How well a heard stem fits a meant one: 1 the same, 0.85 the same sound, less for near ones, 0 for
    others.
    """
    if heard == meant:
        return 1.0
    if len(meant) < 3 or len(heard) < 2 or heard[0].isdigit() or meant[0].isdigit():
        return 0.0
    ratio = Levenshtein.normalized_similarity(heard, meant)
    if ratio < 0.5:
        return 0.0
    if sound(heard) == sound(meant):
        return 0.85
    # Shares of letters in common and the likenesses below are our choice: one letter of five may be misheard;
    # of shorter words that makes another word, unless both also sound nearly the same.
    if ratio >= 0.8 and len(meant) >= 5:
        return 0.9 * ratio
    if (
        ratio >= 0.6
        and len(meant) >= 4
        and Levenshtein.distance(sound(heard), sound(meant), score_cutoff=1) <= 1
    ):
        return 0.6
    return 0.0
