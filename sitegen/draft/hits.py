"""Where the words of the lexicon are heard: as written, sounding alike, run together or torn apart."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from sitegen.draft.lexicon import Lexicon, parts_of
from sitegen.draft.stems import likeness, sound
from sitegen.draft.words import Stream


@dataclass(frozen=True, slots=True)
class Hit:
    """A stem of the lexicon heard at some place of the stream of stems."""

    place: int
    span: int
    likeness: float


class Stems:
    """The stems of a recording with the places where each stem of the lexicon is heard."""

    def __init__(self, stream: Stream, lexicon: Lexicon) -> None:
        self.stream = stream
        self.stems: list[str] = []
        self.tokens: list[int] = []
        """Token of each stem."""
        for index, token in enumerate(stream.tokens):
            for part in parts_of(token.text):
                self.stems.append(part)
                self.tokens.append(index)
        self.hits = _hits(self.stems, lexicon)
        self.places = {meant: [hit.place for hit in hits] for meant, hits in self.hits.items()}

    def within(self, meant: str, first: int, last: int) -> list[Hit]:
        """The hits of a stem at places ``first`` to ``last``."""
        places = self.places.get(meant, [])
        return self.hits[meant][bisect_left(places, first) : bisect_right(places, last)] if places else []

    def broken(self, first: int, last: int, least: int = 2) -> bool:
        """Whether a sentence ends (or, for ``least`` 1, any mark stands) between two places."""
        tokens = self.stream.tokens
        return any(
            tokens[i].break_before >= least for i in range(self.tokens[first] + 1, self.tokens[last] + 1)
        )


def _hits(stems: list[str], lexicon: Lexicon) -> dict[str, list[Hit]]:
    """Places of every stem of the lexicon, in order."""
    meant = {stem for phrases in lexicon.by_head.values() for p in phrases for stem in (*p.head, *p.rest)}
    pairs = {a + b: (a, b) for ps in lexicon.by_head.values() for p in ps for a, b in pairwise(p.stems)}
    single = {
        heard: _meanings(heard, meant_by_sound)
        for meant_by_sound in [_by_sound(meant)]
        for heard in set(stems)
    }
    by_code = _by_code(meant)
    found: dict[str, list[Hit]] = {}
    for place, heard in enumerate(stems):
        for word, like in single[heard]:
            found.setdefault(word, []).append(Hit(place, 1, like))
        if heard in pairs and heard not in meant:
            for word in pairs[heard]:
                found.setdefault(word, []).append(Hit(place, 1, 0.9))
        if place + 1 < len(stems):
            for word, like in _joined(heard, stems[place + 1], meant, by_code):
                found.setdefault(word, []).append(Hit(place, 2, like))
    return found


def _by_sound(meant: set[str]) -> dict[str, list[str]]:
    """Stems by the first sign of their sound, so that only likely ones are compared."""
    grouped: dict[str, list[str]] = {}
    for word in sorted(meant):
        grouped.setdefault(sound(word)[:1], []).append(word)
    return grouped


def _by_code(meant: set[str]) -> dict[str, list[str]]:
    grouped: dict[str, list[str]] = {}
    for word in sorted(meant):
        if len(word) >= 6:
            grouped.setdefault(sound(word), []).append(word)
    return grouped


def _meanings(heard: str, grouped: dict[str, list[str]]) -> list[tuple[str, float]]:
    likely = grouped.get(sound(heard)[:1], ())
    scored = ((word, likeness(heard, word)) for word in likely if abs(len(word) - len(heard)) <= 3)
    return [(word, like) for word, like in scored if like > 0]


def _joined(
    one: str, two: str, meant: set[str], by_code: dict[str, list[str]]
) -> Iterator[tuple[str, float]]:
    """Words of the lexicon that were torn in two."""
    joined = one + two
    if joined in meant:
        yield joined, 0.95
    elif len(joined) >= 6 and one not in meant and two not in meant:
        yield from ((word, 0.8) for word in by_code.get(sound(joined), ()) if likeness(joined, word) >= 0.85)
