"""Where exercises of the library are named in talk: in whole, in part, or by words that sound so.

A mention needs some of the words of a name close together (``row with the towel``), or words whose
sound is that of the whole name (``hi niece``). How much of the name is there is its ``cover``.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rapidfuzz import process
from rapidfuzz.distance import Levenshtein

from sitegen.drafting.learned_tables import word_list
from sitegen.drafting.names.cards import CardLibrary, ExerciseName
from sitegen.drafting.transcript.passages import SENTENCE
from sitegen.drafting.transcript.stems import likeness, sound
from sitegen.drafting.transcript.words import Token

_LEAST_COVER = 0.3
"""Share of a name that must be heard for a mention."""

_SLACK = 2
"""Words that may stand between those of a name."""

_SOUNDS_ALIKE = 0.8
"""Likeness of two words or names from which on one is taken for the other misheard."""

_SHORTEST_CODE, _SHORT_CODE = 4, 6
"""Sounds of the shortest name that is recognised by its sound; short ones must fit exactly."""

_MISHEARD = 0.85
"""What a word or name counts that only sounds right."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mention:
    """One exercise named, from token ``first`` to ``last``."""

    exercise: str
    variant: str | None
    first: int
    last: int
    cover: float
    """Share of the name that is heard, 0 to 1."""
    best: bool
    """Whether no other exercise of the library fits the words better."""
    aside: str = ""
    """Why it is made in passing (:mod:`sitegen.drafting.names.passing`): it then speaks for nothing shown."""


def mentions_of(tokens: Sequence[Token], stems: Sequence[str], library: CardLibrary) -> list[Mention]:
    """The mentions in order of their first word."""
    found = [*_by_words(tokens, stems, library), *_by_sound(tokens, stems, library)]
    return _ranked(_longest(found))


_Found = tuple[int, int, float, ExerciseName]


def _by_words(tokens: Sequence[Token], stems: Sequence[str], library: CardLibrary) -> Iterator[_Found]:
    """Names of which words are heard near each other."""
    meant = _meant(stems, library)
    for first, word in enumerate(stems):
        for target, fit in meant.get(word, ()):
            for name, _ in library.by_word[target]:
                found = _cover(tokens, stems, meant, first, name)
                if found[1] >= _LEAST_COVER:
                    # A little less where its first word is misheard: of two the plain one wins.
                    yield first, found[0], found[1] * (1.0 if fit == 1.0 else 0.95), name


def _meant(stems: Sequence[str], library: CardLibrary) -> dict[str, list[tuple[str, float]]]:
    """For each stem heard the stems of names that it may be, with how well it fits."""
    common = word_list("common")
    out: dict[str, list[tuple[str, float]]] = {}
    for word in set(stems):
        if word in library.by_word:
            out[word] = [(word, 1.0)]
        elif len(word) > 3 and word not in common:
            fits = [(other, likeness(word, other)) for other in library.by_word if len(other) > 3]
            out[word] = [(other, _MISHEARD) for other, fit in fits if fit >= _SOUNDS_ALIKE]
    return out


def _cover(
    tokens: Sequence[Token],
    stems: Sequence[str],
    meant: dict[str, list[tuple[str, float]]],
    first: int,
    name: ExerciseName,
) -> tuple[int, float]:
    """The last token of the name that begins at ``first``, and how much of it is heard."""
    left = dict(zip(name.words, name.weights, strict=True))
    last, cover, gap = first, 0.0, 0
    for index in range(first, min(len(tokens), first + len(name.words) + 2 * _SLACK)):
        if index > first and (tokens[index].break_before >= SENTENCE or gap > _SLACK or not left):
            break
        hit = next(((t, fit) for t, fit in meant.get(stems[index], ()) if t in left), None)
        if hit:
            cover += left.pop(hit[0]) * hit[1]
            last, gap = index, 0
        else:
            gap += 1
    return last, cover


def _by_sound(tokens: Sequence[Token], stems: Sequence[str], library: CardLibrary) -> Iterator[_Found]:
    """Names that some words in a row sound like as a whole."""
    names = [name for name in library.names if len(name.code) >= _SHORTEST_CODE]
    if not names:
        return
    codes = [name.code for name in names]
    longest = max(map(len, codes)) + 2
    fits: dict[str, list[tuple[ExerciseName, float]]] = {}
    fillers = word_list("fillers")
    sounds = [sound(word) for word in stems]
    for first, word in enumerate(stems):
        if word in fillers:
            continue
        code = ""
        for last in range(first, min(len(tokens), first + 4)):  # no name is heard as more words (our choice)
            if last > first and tokens[last].break_before >= SENTENCE:
                break
            code += sounds[last]
            if len(code) > longest:
                break
            if len(code) < _SHORTEST_CODE or stems[last] in fillers:
                continue
            if code not in fits:
                fits[code] = _sounding(code, names, codes)
            for name, like in fits[code]:
                yield first, last, like * _MISHEARD, name


def _sounding(
    code: str, names: Sequence[ExerciseName], codes: Sequence[str]
) -> list[tuple[ExerciseName, float]]:
    least = 1.0 if len(code) < _SHORT_CODE else _SOUNDS_ALIKE
    similar = process.extract(
        code, codes, scorer=Levenshtein.normalized_similarity, score_cutoff=least, limit=3
    )
    return [(names[index], like) for _, like, index in similar if codes[index][0] == code[0]]


def _longest(found: Sequence[_Found]) -> list[_Found]:
    """Of overlapping mentions of one exercise the one that covers most of a name."""
    kept: dict[str, list[_Found]] = {}
    for one in sorted(found, key=lambda f: (-f[2], f[1] - f[0], f[0], f[3].variant or "")):
        others = kept.setdefault(one[3].exercise, [])
        if all(one[1] < other[0] or one[0] > other[1] for other in others):
            others.append(one)
    return sorted((one for others in kept.values() for one in others), key=lambda f: (f[0], f[1]))


def _ranked(found: list[_Found]) -> list[Mention]:
    """The mentions, each told whether another exercise fits the same words better."""
    out = []
    for index, (first, last, cover, name) in enumerate(found):
        # Forty on each side, in the order of their starts, and not all with all, which is slow (our choice).
        near = [f for f in found[max(0, index - 40) : index + 40] if f[0] <= last and f[1] >= first]
        others = [f for f in near if f[3].exercise != name.exercise]
        best = all(cover >= other[2] - 1e-9 for other in others)  # but for rounding: shares are summed
        exercise, variant, cover = name.exercise, name.variant, min(1.0, cover)
        out.append(
            Mention(exercise=exercise, variant=variant, first=first, last=last, cover=cover, best=best)
        )
    return out
