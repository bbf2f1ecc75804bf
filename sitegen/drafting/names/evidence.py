"""How much each passage speaks for each exercise: names, words of its card, words that go with its kind."""

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence

from sitegen.drafting.learned_tables import LearnedModel, Weights
from sitegen.drafting.names.cards import CardLibrary
from sitegen.drafting.names.mentions import Mention
from sitegen.drafting.transcript.passages import Passage

KINDS = ("text", "names", "pattern", "body")
"""Kinds of evidence beside names: words of the card's text, and of the table ``associations`` those that
go with a word of its name, with its pattern, with its muscles and demands.
"""

_REPEATED, _MEMORY = 0.3, 45
"""What a word counts that was said already among so many words before it: saying "down" ten times over is
no ten times the evidence.
"""


Evidence = dict[str, dict[str, list[float]]]
"""Sums over passages: ``[kind][exercise][n]`` is the evidence of the first ``n`` passages."""


def evidence_of(
    stems: Sequence[str],
    passages: Sequence[Passage],
    library: CardLibrary,
    model: LearnedModel,
    asides: Sequence[Mention] = (),
) -> Evidence:
    """The evidence of every passage, as what an exercise has more than the average one of the library; a
    passage in which an exercise is named in passing (``asides``) says nothing for it.
    """
    known = _by_word(model["associations"])
    table = {word: list(_speaks(word, library, known)) for word in set(stems)}
    usual = _usual(library, known)
    counts = _counts(stems)
    sums: Evidence = {kind: {exercise: [0.0] for exercise in library.cards} for kind in KINDS}
    for passage in passages:
        begin, end = (
            bisect_left(asides, at, key=lambda m: m.first) for at in (passage.first, passage.last + 1)
        )
        passed = {mention.exercise for mention in asides[begin:end]}
        total = {kind: dict.fromkeys(library.cards, 0.0) for kind in KINDS}
        said = 0.0
        for index in range(passage.first, passage.last + 1):
            said += counts[index]
            for kind, exercise, weight in table[stems[index]]:
                total[kind][exercise] += weight * counts[index]
        for kind, values in total.items():
            for exercise, less in usual[kind].items():
                values[exercise] -= less * said
            mean = sum(values.values()) / max(1, len(values))
            for exercise, value in values.items():
                row = sums[kind][exercise]
                row.append(row[-1] + (min(0.0, value - mean) if exercise in passed else value - mean))
    return sums


def _counts(stems: Sequence[str]) -> list[float]:
    """What each word counts: less where it was just said."""
    heard: dict[str, int] = {}
    counts = []
    for index, word in enumerate(stems):
        counts.append(_REPEATED if index - heard.get(word, -_MEMORY) < _MEMORY else 1.0)
        heard[word] = index
    return counts


EXPECTED = "*"
"""In the table of associations the evidence of an average word for an attribute: what is less than that
speaks against it.
"""


def _by_word(associations: Weights) -> dict[str, dict[str, float]]:
    """The table as weights of attributes by word."""
    out: dict[str, dict[str, float]] = {}
    for feature, weight in associations.weights.items():
        attribute, _, word = feature.partition(": ")
        out.setdefault(word, {})[attribute] = weight
    return out


def _known_of(attributes: Sequence[str], known: Mapping[str, Mapping[str, float]]) -> list[str]:
    return [attribute for attribute in attributes if attribute in known.get(EXPECTED, {})]


def _usual(library: CardLibrary, known: Mapping[str, Mapping[str, float]]) -> dict[str, dict[str, float]]:
    """What any word says for an exercise on average, by kind."""
    out: dict[str, dict[str, float]] = {kind: {} for kind in KINDS}
    for exercise, card in library.cards.items():
        for kind, attributes in zip(KINDS[1:], card.attributes, strict=True):
            if told := _known_of(attributes, known):
                out[kind][exercise] = sum(known[EXPECTED][a] for a in told) / len(told)
    return out


def _speaks(
    word: str, library: CardLibrary, known: Mapping[str, Mapping[str, float]]
) -> Iterator[tuple[str, str, float]]:
    """The exercises that a word speaks for, with the kind of evidence."""
    weights = known.get(word, {})
    for exercise, card in library.cards.items():
        if word in card.text:
            yield "text", exercise, card.text[word]
        if weights:
            for kind, attributes in zip(KINDS[1:], card.attributes, strict=True):
                told = sum(weights[a] for a in attributes if a in weights)
                if told:
                    yield kind, exercise, told / len(_known_of(attributes, known))
