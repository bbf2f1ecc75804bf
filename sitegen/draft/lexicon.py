"""The phrases by which a series' exercises may be called, made from its library."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from sitegen.draft.stems import POSTURES, stem
from sitegen.draft.trade import (
    COMMON_WORDS,
    KIT_WORDS,
    ORDINARY_TELLING,
    SAME_NAMES,
    STRONG_BASES,
    TELLING_WORDS,
    WEAK_BASES,
    words_in,
)
from sitegen.draft.words import stream_of
from sitegen.model import Exercise, Series
from sitegen.reading.captions.cues import Cue
from sitegen.vocabulary import MUSCLE_REGIONS

_FILLERS = words_in("a an the of in on at with from to and off for my your it up down into spot place")
_HEAD_SHARE = {"strong": 0.6, "weak": 0.35}
"""What part of a name's weight its movement word carries."""

PREPOSITIONS = words_in("in on at with from to off against between into")


@dataclass(frozen=True, slots=True, kw_only=True)
class Phrase:
    """One name of one exercise."""

    exercise: str
    variant: str | None = None
    head: tuple[str, ...]
    """The stems that must be heard: the movement's name, or the rarest word of a name without one."""
    rest: tuple[str, ...]
    """The other telling stems of the name."""
    strong: bool
    """Whether the head alone may stand for the whole."""
    thin: bool
    """Whether it is a single word that is said for other reasons as well."""
    nameless: bool
    """Whether it has no movement word, as "cat camel"."""
    stems: tuple[str, ...]
    """All stems in order."""

    @property
    def weights(self) -> tuple[float, float]:
        """Weight of the head, and of each word of the rest."""
        if not self.rest:
            return 1.0, 0.0
        if self.nameless:
            return 1.0 / (1 + len(self.rest)), 1.0 / (1 + len(self.rest))
        head = _HEAD_SHARE["strong" if self.strong else "weak"]
        return head, (1.0 - head) / len(self.rest)


@dataclass(frozen=True, slots=True)
class Lexicon:
    """All phrases by the stems of their heads, and the words that surround an exercise in talk."""

    by_head: dict[tuple[str, ...], tuple[Phrase, ...]]
    context: dict[str, frozenset[str]]
    """Stems that speak for an exercise, by id: kit with stand-ins, muscles, words of its cues."""
    kit: frozenset[str]
    """Stems of all kit words."""
    telling: frozenset[str]
    """Stems that make another exercise of the movement they stand before."""
    names: dict[str, str]
    """What each exercise is called."""
    written: frozenset[str]
    """The words of all names as written, with their plurals."""
    kit_stems: dict[str, frozenset[str]]
    """Stems by which each piece of kit is called, by its id."""

    def piece_of(self, word: str) -> str | None:
        """Id of the piece of kit that a word names."""
        return next((piece for piece, stems in self.kit_stems.items() if stem(word) in stems), None)


@lru_cache(maxsize=10_000)
def stems_of(text: str) -> tuple[str, ...]:
    """The stems of a written name, read as talk is read."""
    cue = Cue(start_ms=0, end_ms=1000, text=text, identifier="")
    return tuple(part for token in stream_of([cue]).tokens for part in parts_of(token.text))


def parts_of(word: str) -> tuple[str, ...]:
    """The stems of one word: two for a movement written in one, such as ``deadlift``."""
    base = stem(word)
    return _JOINED.get(base, (base,))


_JOINED: dict[str, tuple[str, ...]] = {}


def _bases(written: str) -> tuple[tuple[str, ...], ...]:
    return tuple(sorted((stems_of(name) for name in written.split("|")), key=len, reverse=True))


STRONG, WEAK = _bases(STRONG_BASES), _bases(WEAK_BASES)
_JOINED |= {"".join(base): base for base in STRONG if len(base) == 2}
stems_of.cache_clear()
_GROUPS = tuple(tuple(stems_of(name) for name in group.split("|")) for group in SAME_NAMES)


class _Same:
    """A series as a key: the same object, whatever is in it."""

    def __init__(self, series: Series) -> None:
        self.series = series

    def __hash__(self) -> int:
        return id(self.series)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and other.series is self.series


def lexicon_of(series: Series) -> Lexicon:
    """The lexicon of a series' library; made once where several recordings of a series are heard."""
    return _lexicon(_Same(series))


@lru_cache(maxsize=8)
def _lexicon(same: _Same) -> Lexicon:
    series = same.series
    kit = _kit_stems(series)
    all_kit = frozenset().union(*kit.values()) if kit else frozenset()
    phrases = [phrase for exercise in series.exercises.values() for phrase in _phrases(exercise, all_kit)]
    phrases += list(_short_names(phrases, all_kit))
    by_head: dict[tuple[str, ...], list[Phrase]] = {}
    for phrase in phrases:
        by_head.setdefault(phrase.head, []).append(phrase)
    return Lexicon(
        by_head={head: tuple(found) for head, found in by_head.items()},
        context={e.id: _context(e, kit) for e in series.exercises.values()},
        kit=all_kit,
        telling=(frozenset(s for p in phrases for s in p.rest) | {stem(w) for w in TELLING_WORDS})
        - all_kit
        - {"1"},
        names={e.id: e.name for e in series.exercises.values()},
        written=_written(series),
        kit_stems=kit,
    )


def _written(series: Series) -> frozenset[str]:
    names = [name for group in SAME_NAMES for name in group.split("|")]
    for exercise in series.exercises.values():
        names += [exercise.name, *exercise.also, *(variant.name for variant in exercise.variants)]
    words = {word for name in names for word in re.findall(r"[a-z]+", name.lower().replace("'", ""))}
    long = {word for word in words if len(word) >= 3 or word == "up"}
    return frozenset(long | {_plural(word) for word in long})


def _plural(word: str) -> str:
    return word if word.endswith("s") else f"{word}s"


def _kit_stems(series: Series) -> dict[str, frozenset[str]]:
    return {kit.id: frozenset(_kit_words((kit.name, *kit.stand_ins))) for kit in series.details.kit.values()}


def _kit_words(names: Iterable[str]) -> Iterator[str]:
    for name in names:
        words = [word for word in stems_of(name) if word not in _FILLERS and not word.isdigit()]
        yield from words[-1:] if len(words) > 1 else words
        for word in words:
            if word in _KIT_STEMS:
                yield word
                yield from _KIT_STEMS[word]


_COMMON = frozenset(stem(word) for word in COMMON_WORDS)
_ORDINARY = frozenset(
    stem(word)
    for word in (*COMMON_WORDS, *POSTURES, *(w for m in MUSCLE_REGIONS for w in m.split()), *ORDINARY_TELLING)
)
_KIT_STEMS = {
    stem(word): frozenset(stem(other) for other in others.split()) for word, others in KIT_WORDS.items()
}


def _context(exercise: Exercise, kit: dict[str, frozenset[str]]) -> frozenset[str]:
    words = {s for muscle in (*exercise.muscles.prime, *exercise.muscles.assist) for s in stems_of(muscle)}
    words |= {s for cue in exercise.cues for s in stems_of(cue) if len(s) > 3}
    for piece in exercise.kit:
        words |= kit.get(piece, frozenset())
    return frozenset(words - _FILLERS)


def _phrases(exercise: Exercise, kit: frozenset[str]) -> Iterator[Phrase]:
    names: list[tuple[str | None, tuple[str, ...]]]
    names = [(None, stems_of(name)) for name in (exercise.name, *exercise.also)]
    names += [(None, other) for _, name in tuple(names) for other in _same_names(name)]
    names += [(v.id, stems_of(v.name)) for v in exercise.variants if v.exercise is None]
    seen: set[tuple[str, ...]] = set()
    for variant, stems in names:
        if stems and stems not in seen:
            seen.add(stems)
            yield _phrase(exercise.id, variant, stems, kit)


def _short_names(phrases: list[Phrase], kit: frozenset[str]) -> Iterator[Phrase]:
    """A word that tells one exercise from all others may stand for its name: "pigeon" for the pigeon
    stretch.
    """
    owners: dict[str, set[str]] = {}
    for phrase in phrases:
        for word in (*phrase.head, *phrase.rest):
            owners.setdefault(word, set()).add(phrase.exercise)
    for phrase in phrases:
        word = phrase.rest[0] if len(phrase.rest) == 1 and not phrase.nameless else ""
        if len(word) > 4 and len(owners[word]) == 1 and word not in kit | _ORDINARY:
            yield replace(
                phrase, head=(word,), rest=(), strong=False, nameless=True, thin=True, stems=(word,)
            )


def _same_names(name: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    for group in _GROUPS:
        if name in group:
            yield from (other for other in group if other != name)


def _phrase(exercise: str, variant: str | None, stems: tuple[str, ...], kit: frozenset[str]) -> Phrase:
    head, strong = _head(stems)
    rest = [s for s in stems if s not in head and s not in _FILLERS]
    return Phrase(
        exercise=exercise,
        variant=variant,
        head=head,
        rest=tuple(dict.fromkeys(rest)),
        strong=strong,
        nameless=head not in STRONG and head not in WEAK,
        stems=stems,
        thin=len(stems) == 1 and (head in WEAK or stems[0] in _COMMON | kit),
    )


def _head(stems: tuple[str, ...]) -> tuple[tuple[str, ...], bool]:
    """The movement's name in a phrase, and whether it may stand alone."""
    end = next((i for i, s in enumerate(stems) if s in PREPOSITIONS and i > 0), len(stems))
    for part in (stems[:end], stems):
        for bases, strong in ((STRONG, True), (WEAK, False)):
            if found := _last_base(part, bases):
                return found, strong
    telling = [s for s in stems if s not in _FILLERS] or list(stems)
    return (telling[-1],), False


def _last_base(stems: tuple[str, ...], bases: tuple[tuple[str, ...], ...]) -> tuple[str, ...] | None:
    """The base that ends last; of two that end together the longer one."""
    ends = [
        (index + len(base), len(base), base)
        for base in bases
        for index in range(len(stems) - len(base) + 1)
        if stems[index : index + len(base)] == base
    ]
    return max(ends)[2] if ends else None
