"""Which exercises are named in a recording."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from sitegen.draft.hits import Hit, Stems
from sitegen.draft.lexicon import Lexicon, Phrase
from sitegen.draft.stems import POSTURES, stem
from sitegen.draft.trade import COMMON_WORDS, words_in

_WINDOW_BEFORE, _WINDOW_AFTER, _KIT_WINDOW = 4, 8, 14
_CONFLICT = 0.35
_LONGER = 0.05
"""How much each further word of a name that was heard weighs against a shorter name."""

_NAMELESS_REACH = 3
"""How far before its last word the others of a name without a movement word may stand; they stand in
order.
"""

_POSSESSIVES = frozenset(("your", "the", "that", "those", "our", "both"))
"""Between a movement and what it is done with: "roll your shoulders"."""

_BEFORE_SIDES = words_in("each per every a other both this right left")

_SHORT = 3
"""Words of so few letters sound like too many others; they count only right before the movement."""

_COMMON = frozenset(stem(word) for word in COMMON_WORDS)
LEAST = 0.55
"""Smallest score of a naming."""
_LEAST_WEAK = 0.72


@dataclass(slots=True)
class Naming:
    """An exercise named in talk."""

    exercise: str
    variant: str | None
    first: int
    """Index of the first token of the name."""
    last: int
    score: float
    """0 to about 1: how completely and clearly it is named."""
    matched: int
    """How many words of the name were heard."""
    exact: bool
    """Whether the movement itself was heard as written."""
    head: int = 0
    """How many of those words are the movement's own; 0 for a name that has none."""
    thin: bool = False
    """Whether the name is a single word that is an ordinary verb as well."""
    verb: bool = False
    """Whether it may as well be the verb: a single word, neither a plural nor ending in -ing."""
    announced: bool = False
    """Whether it was given as the name of an exercise."""
    others: dict[str, float] = field(default_factory=dict)
    """Other exercises that the same words may mean, with their scores."""


def namings(stems: Stems, lexicon: Lexicon, least: float | None = None) -> list[Naming]:
    """Every naming of an exercise of the library, in order; where several overlap, the fullest.

    ``least`` is the smallest score that counts; None for the usual one.
    """
    candidates: list[Naming] = []
    for head, phrases in lexicon.by_head.items():
        for first, last, like in _heads(stems, head):
            candidates += _at(stems, lexicon, phrases, (first, last), like, least)
    candidates.sort(
        key=lambda n: (-round(n.score + _LONGER * n.matched, 3), n.variant is not None, n.first, n.exercise)
    )
    taken: dict[int, Naming] = {}
    for naming in candidates:
        owner = next((taken[i] for i in range(naming.first, naming.last + 1) if i in taken), None)
        if owner is None:
            taken |= dict.fromkeys(range(naming.first, naming.last + 1), naming)
        elif naming.exercise != owner.exercise:
            owner.others.setdefault(naming.exercise, naming.score)
    unique = {id(naming): naming for naming in taken.values()}
    return sorted(unique.values(), key=lambda naming: naming.first)


def _heads(stems: Stems, head: tuple[str, ...]) -> Iterator[tuple[int, int, float]]:
    """First and last place and likeness of every occurrence of a head."""
    for hit in stems.hits.get(head[0], ()):
        place, likes = hit.place + hit.span, [hit.likeness]
        for word in head[1:]:
            following = stems.within(word, place, place) or stems.within(word, place - 1, place - 1)
            if not following:
                break
            place = following[0].place + following[0].span
            likes.append(following[0].likeness)
        else:
            if not stems.broken(hit.place, place - 1, 1):
                yield hit.place, place - 1, sum(likes) / len(likes)


def _at(
    stems: Stems,
    lexicon: Lexicon,
    phrases: tuple[Phrase, ...],
    head: tuple[int, int],
    like: float,
    enough: float | None,
) -> Iterator[Naming]:
    """What is named where the head of the phrases is heard from one place to another."""
    first, last = head
    said = [stems.stems[place] for place in range(first, last + 1)]
    for phrase in phrases:
        score, begin, end, matched, sure = _score(stems, lexicon, phrase, first, last, like)
        if like < 0.95 and (phrase.thin or not _trusted(phrase, said, like, matched, begin < first, sure)):
            continue
        beside = 0 < first - begin <= len(phrase.rest)
        if not phrase.strong and matched and not sure and not beside:
            continue
        least = enough or (LEAST if phrase.strong or not phrase.rest else _LEAST_WEAK)
        if score >= least:
            written = _written(stems, phrase, first)
            end = max(end, written)
            thin = written < 0 and (
                phrase.thin or (not phrase.strong and not phrase.nameless and begin == end)
            )
            yield Naming(
                exercise=phrase.exercise,
                variant=phrase.variant,
                first=stems.tokens[begin],
                last=stems.tokens[end],
                score=score,
                matched=matched + len(phrase.head),
                exact=like >= 0.95,
                head=0 if phrase.nameless else len(phrase.head),
                thin=thin,
                verb=thin and not stems.stream.tokens[stems.tokens[end]].text.endswith(("s", "ing")),
            )


def _written(stems: Stems, phrase: Phrase, first: int) -> int:
    """Last place of a name with small words, such as "march in place", said as it is written; -1 where it
    is not.
    """
    if len(phrase.stems) == len(phrase.head) + len(phrase.rest):
        return -1
    begin = first - phrase.stems.index(phrase.head[0])
    end = begin + len(phrase.stems)
    return end - 1 if begin >= 0 and tuple(stems.stems[begin:end]) == phrase.stems else -1


def _trusted(phrase: Phrase, said: list[str], like: float, matched: int, before: bool, sure: bool) -> bool:
    """Whether a movement that only sounds like one is held up by the words around it."""
    if len(phrase.head) > 1 and like >= 0.8:
        return True
    if any(word in _COMMON for word in said) or like < 0.8:
        return before and sure and matched == len(phrase.rest) > 0
    return sure or not matched


def _score(
    stems: Stems, lexicon: Lexicon, phrase: Phrase, first: int, last: int, like: float
) -> tuple[float, int, int, int, bool]:
    """Score, first and last place of the words that belong together, how many beyond the head were heard, and
    whether one of those was heard exactly."""
    head_weight, word_weight = phrase.weights
    score, begin, end, matched, sure = head_weight * like, first, last, 0, False
    for word in phrase.rest:
        near = _nearest(stems, word, first, last, in_order=phrase.nameless, strong=phrase.strong)
        if near:
            hit, factor = near
            score += word_weight * hit.likeness * factor
            matched += 1
            sure = sure or hit.likeness >= 0.95
            if factor >= 0.9:
                begin, end = min(begin, hit.place), max(end, hit.place + hit.span - 1)
        elif word in POSTURES:
            score += 0.7 * word_weight
        elif word in lexicon.kit:
            credit = _kit_credit(stems, lexicon, phrase.exercise, first, last)
            score += word_weight * (credit if phrase.strong else credit / 2)
    whole = bool(phrase.rest) and all(word in POSTURES for word in phrase.rest[matched:]) and matched > 0
    weight = _CONFLICT / 5 if whole else _CONFLICT
    return score - weight * _conflicts(stems, lexicon, phrase, begin), begin, end, matched, sure


def _nearest(
    stems: Stems, word: str, first: int, last: int, *, in_order: bool, strong: bool
) -> tuple[Hit, float] | None:
    """The best hit of a word of the name around its head, and how much its distance leaves of it."""
    best: tuple[Hit, float] | None = None
    for hit in stems.within(word, max(0, first - _WINDOW_BEFORE), last + _WINDOW_AFTER):
        if first <= hit.place <= last or (in_order and not 0 < first - hit.place <= _NAMELESS_REACH):
            continue
        if hit.place > last and stems.stems[hit.place - 1] in _BEFORE_SIDES:
            continue  # "Lunges, ten each side" are no side lunges.
        if hit.likeness < 0.95 and len(word) <= _SHORT and not 0 < first - hit.place <= 2:
            continue
        low, high = min(first, hit.place), max(last, hit.place)
        if stems.broken(low, high):
            continue
        distance = first - hit.place - hit.span + 1 if hit.place < first else hit.place - last
        tied = hit.place == last + 2 and stems.stems[last + 1] in _POSSESSIVES
        factor = _nearness(distance, before=hit.place < first, strong=strong or tied)
        if best is None or hit.likeness * factor > best[0].likeness * best[1]:
            best = (hit, factor)
    return best


def _nearness(distance: int, *, before: bool, strong: bool) -> float:
    """What its distance leaves of a word of a name: right before the movement all."""
    if before:
        return 1.0 if distance <= 2 else 0.85
    near = 0.9 if strong else 0.7
    return near if distance <= 3 else near - 0.2


def _kit_credit(stems: Stems, lexicon: Lexicon, exercise: str, first: int, last: int) -> float:
    """A kit word of the name may be left out: the kit is seen, or was said a sentence ago."""
    around = stems.stems[max(0, first - _KIT_WINDOW) : last + _KIT_WINDOW]
    return 0.7 if any(word in lexicon.context[exercise] and word in lexicon.kit for word in around) else 0.4


def _conflicts(stems: Stems, lexicon: Lexicon, phrase: Phrase, first: int) -> int:
    """How many words directly before the head make another exercise of it."""
    count = 0
    for place in range(first - 1, max(-1, first - 4), -1):
        word = stems.stems[place]
        if stems.broken(place, place + 1, 1) or not (word in lexicon.telling or word in lexicon.kit):
            break
        if word in lexicon.telling and word not in phrase.stems:
            count += 1
    return count
