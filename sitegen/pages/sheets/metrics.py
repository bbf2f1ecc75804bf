"""How wide text is in the sheet's font, and how many lines it takes: before any browser lays it out.

Widths are in ems (the size of the type), so that they hold for every size. Lines are broken at
spaces only. A browser finds more places (after a hyphen, say), so it never needs more lines.
"""

import json
from collections.abc import Sequence
from functools import lru_cache
from itertools import chain
from typing import Any

_UNKNOWN = 1.0
"""Width of a character that the font does not have: as wide as it is high, such as a Chinese one."""

WordWidths = tuple[float, ...]
"""Widths of a text's words."""


class Ruler:
    """Measures text with the widths in a theme's ``metrics/sheet-font.json``."""

    def __init__(self, data: bytes) -> None:
        table = json.loads(data)
        self._regular, self._bold = (_widths(table, weight) for weight in ("400", "700"))
        self.space = max(self._regular[" "], self._bold[" "])
        """The wider of the two weights' spaces."""
        self.words = lru_cache(maxsize=65536)(self._words)

    def _words(self, text: str, bold: bool = False) -> WordWidths:
        """The widths of a text's words in ems."""
        widths = self._bold if bold else self._regular
        return tuple(sum(widths.get(character, _UNKNOWN) for character in word) for word in _split(text))

    def knows(self, text: str) -> bool:
        """Whether the font has every character of a text."""
        return all(character in self._bold or character.isspace() for character in text)

    def width(self, text: str, *, bold: bool = False) -> float:
        """The width of a text on one line, in ems."""
        words = self.words(text, bold)
        return sum(words) + self.space * max(0, len(words) - 1)


def _widths(table: dict[str, Any], weight: str) -> dict[str, float]:
    """Ems by character."""
    pairs = zip(table["characters"], table[weight], strict=True)
    return {character: width / 1000 for character, width in pairs}


def _split(text: str) -> list[str]:
    """Words between spaces at which a line may end; a no-break space is not one."""
    return [word for word in text.replace("\n", " ").replace("\t", " ").split(" ") if word]


@lru_cache(maxsize=65536)
def count_lines(words: WordWidths, space: float, line: float) -> int:
    """Lines that words take where a line has room for ``line`` ems; 0 for no words.

    A word that is longer than a line is broken wherever the line ends.
    """
    lines, at = 0, 0.0
    for word in words:
        after = at + space + word if at else word
        if lines and after <= line:
            at = after
            continue
        more, at = divmod(word, line) if word > line else (0, word)
        lines += 1 + int(more)
    return lines


def joined(parts: Sequence[WordWidths]) -> WordWidths:
    """The words of several texts that follow one another."""
    return tuple(chain.from_iterable(parts))
