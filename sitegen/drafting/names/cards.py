"""What each exercise of a library may be called and described by, made from its card.

A card gives names (its own, other names, names of variants, and what the trade calls the same thing),
words of its text (summary, cues, kit, muscles) and attributes (pattern, muscles, demands, words of its
names) for which the learned table ``associations`` knows the words that go with them in talk.
Rare words weigh more: a word counts little where most recordings or most cards have it.
"""

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from sitegen.drafting.learned_tables import LearnedModel, groups, word_list, word_map
from sitegen.drafting.transcript.stems import sound, stem
from sitegen.drafting.transcript.words import plain_words
from sitegen.model import Exercise, Series

_FIELD = {"summary": 1.0, "cues": 1.0, "kit": 0.7, "muscles": 0.7, "faults": 0.5}
"""What a word of a card's text counts by where it stands."""

_LEAST_OF_NAME = 0.15
"""Part of a name's weight that every word of it keeps, however common it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ExerciseName:
    """One way to call one exercise."""

    exercise: str
    variant: str | None
    words: tuple[str, ...]
    """Stems of its telling words, each once."""
    weights: tuple[float, ...]
    """What share of the name each of them is; the sum is 1."""
    code: str
    """How the whole name sounds (Metaphone)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ExerciseCard:
    """What is known of one exercise."""

    exercise: str
    names: tuple[ExerciseName, ...]
    text: Mapping[str, float]
    """Weights of the stems of its text."""
    attributes: tuple[tuple[str, ...], ...]
    """Attributes by kind: words of the names; pattern; muscles and demands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardLibrary:
    """The cards of a series, and its kit."""

    cards: Mapping[str, ExerciseCard]
    kit: Mapping[str, frozenset[str]]
    """Stems by which each piece of kit is called, by its id."""
    by_word: Mapping[str, tuple[tuple[ExerciseName, float], ...]]
    """The names that have a stem, with its weight in each."""

    @property
    def names(self) -> Iterator[ExerciseName]:
        """The names of all cards."""
        return (name for card in self.cards.values() for name in card.names)


def stems_of(text: str) -> list[str]:
    """The stems of the telling words of a written text: no numbers, for they are said of everything."""
    return [word for word in _name_stems(text) if not word.isdigit()]


_ONE = "1"
"""The filler "one", as a figure: she says "one arm" as often as "single arm"."""


def _name_stems(name: str) -> list[str]:
    """The stems of the telling words of a name: its numbers belong to it, as in "figure-four stretch"."""
    fillers = word_list("fillers")
    return [stem(word) for word in plain_words(name) if word not in fillers and word != _ONE]


def library_of(series: Series, model: LearnedModel) -> CardLibrary:
    """The cards of a series' exercises."""
    exercises = list(series.exercises.values())
    kit = {piece.id: _kit_stems((piece.name, *piece.stand_ins)) for piece in series.details.kit.values()}
    texts = {e.id: _text(e, kit) for e in exercises}
    named = {e.id: list(_names(e)) for e in exercises}
    name_use = Counter(w for names in named.values() for w in {w for _, words in names for w in words})
    text_use = Counter(word for text in texts.values() for word in text)
    cards = {}
    for exercise in exercises:
        names = [
            ExerciseName(
                exercise=exercise.id,
                variant=variant,
                words=words,
                weights=_weights(words, name_use, len(exercises), model),
                code="".join(map(sound, words)),
            )
            for variant, words in named[exercise.id]
        ]
        text = {
            word: weight * rarity(word, model) * _telling(text_use[word], len(exercises))
            for word, weight in texts[exercise.id].items()
        }
        cards[exercise.id] = ExerciseCard(
            exercise=exercise.id, names=tuple(names), text=text, attributes=_attributes(exercise)
        )
    by_word: dict[str, list[tuple[ExerciseName, float]]] = {}
    for name in (name for card in cards.values() for name in card.names):
        for word, weight in zip(name.words, name.weights, strict=True):
            by_word.setdefault(word, []).append((name, weight))
    return CardLibrary(cards=cards, kit=kit, by_word={word: tuple(found) for word, found in by_word.items()})


def rarity(word: str, model: LearnedModel) -> float:
    """How rare a stem is in talk about training: 0 said in every recording, 1 never heard of."""
    return model["rarity"].weights.get(word, 1.0)


def _telling(cards: int, of: int) -> float:
    """How much a word tells that stands on some of the cards (inverse document frequency, 0 to 1)."""
    return math.log((of + 1) / (cards + 0.5)) / math.log(of + 1) if of > 1 else 1.0


def _weights(words: tuple[str, ...], use: Counter[str], of: int, model: LearnedModel) -> tuple[float, ...]:
    raw = [_LEAST_OF_NAME + rarity(word, model) * max(0.1, _telling(max(1, use[word]), of)) for word in words]
    return tuple(value / sum(raw) for value in raw)


def _names(exercise: Exercise) -> Iterator[tuple[str | None, tuple[str, ...]]]:
    """Every way to call it, by its telling stems; each once."""
    seen: set[tuple[str, ...]] = set()
    written: list[tuple[str | None, str]] = [(None, name) for name in (exercise.name, *exercise.also)]
    written += [(None, same) for _, name in tuple(written) for same in _same(name)]
    written += [(v.id, v.name) for v in exercise.variants if v.exercise is None]
    for variant, name in written:
        words = tuple(dict.fromkeys(_name_stems(name)))
        if words and words not in seen:
            seen.add(words)
            yield variant, words


def _same(name: str) -> Iterator[str]:
    """What else the trade calls a name."""
    stems = stems_of(name)
    for group in _same_names():
        if stems in group.values():
            yield from (other for other, called in group.items() if called != stems)


@cache
def _same_names() -> list[dict[str, list[str]]]:
    """Names for the same, with the stems of each."""
    return [{name: stems_of(name) for name in group} for group in groups("same_names")]


def _kit_stems(names: Iterable[str]) -> frozenset[str]:
    known = {stem(word): others for word, others in word_map("kit_words").items()}
    out: set[str] = set()
    for name in names:
        words = stems_of(name)
        out.update(words[-1:])
        for word in words:
            if word in known:
                out.update((word, *(stem(other) for other in known[word].split())))
    return frozenset(out)


def _text(exercise: Exercise, kit: Mapping[str, frozenset[str]]) -> dict[str, float]:
    """The stems of a card's text with the weight of the place where they stand."""
    same = word_map("muscle_words")
    muscles = (*exercise.muscles.prime, *exercise.muscles.assist)
    fields: list[tuple[str, Iterable[str]]] = [
        ("summary", stems_of(exercise.summary)),
        ("cues", (word for cue in exercise.cues for word in stems_of(cue))),
        ("faults", (word for fault in exercise.faults for word in stems_of(fault.see))),
        ("kit", (word for piece in exercise.kit for word in kit.get(piece, ()))),
        ("muscles", (word for m in muscles for word in (*stems_of(m), *stems_of(same.get(m, ""))))),
    ]
    out: dict[str, float] = {}
    for field, words in fields:
        for word in words:
            out[word] = max(out.get(word, 0.0), _FIELD[field])
    return out


def _attributes(exercise: Exercise) -> tuple[tuple[str, ...], ...]:
    named = dict.fromkeys(w for name in (exercise.name, *exercise.also) for w in stems_of(name))
    body = (*exercise.muscles.prime, *exercise.muscles.assist, *exercise.demands)
    return tuple(named), (f"pattern {exercise.pattern}",), tuple(f"body {part}" for part in body)
