"""What a word that is not known was meant to be: by name, by the trade's common names, by nearness."""

import re
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from importlib.resources import files

_ALIKE = 60.0
"""Least share of letters in common, in per cent, of a word and what it may have been meant to be (tried on
slips of the pen: one or two letters of a short word)."""
_LONGEST = 80
"""Words longer than any known one are no slip of it, and comparing them takes time."""
_LISTED = 25
"""Most known words that advice lists."""


def nearest(word: str, words: Iterable[str]) -> str | None:
    """The known word most like ``word``, or None where none is near."""
    from rapidfuzz import fuzz, process

    if len(word) > _LONGEST:
        return None
    found = process.extractOne(word.lower(), list(words), scorer=fuzz.ratio, score_cutoff=_ALIKE)
    return str(found[0]) if found else None


def nearest_or_all(word: str, words: Iterable[str]) -> str:
    """Advice for a word that is not known: the nearest one, or all there are."""
    known = list(words)
    near = nearest(word, known)
    return f"did you mean {near!r}?" if near else f"write one of {listed(known)}"


def listed(words: Iterable[str], most: int = _LISTED) -> str:
    """Words with commas, the first ``most`` of them, and how many more there are."""
    known = list(words)
    more = f" and {len(known) - most} more" if len(known) > most else ""
    return ", ".join(known[:most]) + more


def meanings(kind: str, word: str) -> Sequence[str]:
    """What the trade's common name ``word`` means: words that content files use, none where it is not known.

    ``kind`` is a heading of ``common_names.yaml``.
    """
    table = _common_names()[kind]
    plain = re.sub(r"[\s_-]+", " ", word.strip().lower())
    return table.get(plain) or table.get(plain.replace(" ", "-")) or ()


def which(words: Sequence[str]) -> str:
    """Advice that asks which of the words is meant."""
    quoted = [repr(word) for word in words]
    if len(quoted) == 1:
        return f"write {quoted[0]}"
    return f"write what you mean: {', '.join(quoted[:-1])} or {quoted[-1]}"


@cache
def _common_names() -> Mapping[str, Mapping[str, list[str]]]:
    import yaml

    text = files("sitegen.reading").joinpath("common_names.yaml").read_text(encoding="utf-8")
    names: Mapping[str, Mapping[str, list[str]]] = yaml.safe_load(text)
    return names
