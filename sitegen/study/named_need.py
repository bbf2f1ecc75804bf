"""A need with the words by which people and texts name it."""

import re
from collections.abc import Iterable

from sitegen.model import Need


class NamedNeed:
    """Finds a need in a text: by its name, or by what the trainer lists under ``also:``."""

    def __init__(self, need: Need) -> None:
        self.id, self.name = need.id, need.name
        self._words = [
            # "Careful back" and "careful backs" are one word here.
            (word, re.compile(rf"\b{re.escape(word.removesuffix('s'))}", re.I))
            for word in (need.name, *need.also)
        ]

    def word_in(self, *texts: str) -> str:
        """The word by which the texts name the need; empty where they do not."""
        return next((word for word, said in self._words if any(map(said.search, texts))), "")


def beginning(name: str) -> str:
    """What a caution names a form by: its first two words, for nobody writes out "holding a chair"."""
    return " ".join(name.lower().split()[:2])


def without_forms(text: str, names: Iterable[str]) -> str:
    """A text in small letters without names of forms: "the seated turn" does not name the need "seated"."""
    text = text.lower()
    for name in names:
        text = text.replace(beginning(name), "")
    return text
