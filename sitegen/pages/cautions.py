"""Cautions and advice in a reader's words: in full, and short where space is small."""

import re
from itertools import takewhile

from sitegen.model import Caution
from sitegen.pages.plain_text import plain_text

_SENTENCE_END = re.compile(r"(?<=[.!?])\s+(?=\W?[A-Z0-9])")  # "e.g. a chair" goes on in lower case


def first_sentences(text: str, most: int) -> str:
    """The beginning of a text, whole sentences as they are written."""
    return " ".join(_SENTENCE_END.split(" ".join(text.split()))[:most])


def folds(caution: Caution) -> bool:
    """Whether there is more to a caution than its short form: more words, or where they come from."""
    return bool(caution.source) or short_caution(caution) != plain_text(caution.text)


def short_caution(caution: Caution) -> str:
    """A caution for a small place, as plain text: its short form, else its first sentence.

    A question goes on to what answers it: "High blood pressure?" alone tells nobody what to do.
    """
    sentences = _SENTENCE_END.split(caution.text)
    asked = len(list(takewhile(lambda sentence: sentence.endswith("?"), sentences)))
    return plain_text(caution.short or " ".join(sentences[: asked + 1]))
