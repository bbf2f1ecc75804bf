"""A recording as it is heard: words, passages, and what they say of exercises and amounts."""

from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.drafting.amounts.grammar import amounts_in
from sitegen.drafting.amounts.spoken import SpokenAmount
from sitegen.drafting.amounts.tempo import tempos_in
from sitegen.drafting.learned_tables import LearnedModel, learned
from sitegen.drafting.names.cards import CardLibrary, library_of
from sitegen.drafting.names.evidence import Evidence, evidence_of
from sitegen.drafting.names.mentions import Mention, mentions_of
from sitegen.drafting.names.passing import with_asides
from sitegen.drafting.transcript.passages import SENTENCE, Passage, passages_of
from sitegen.drafting.transcript.stems import stem
from sitegen.drafting.transcript.words import Token, stream_of
from sitegen.model import Series
from sitegen.reading.captions.cues import Captions

WHOLE = 0.85
"""Cover from which on a mention is one of the whole name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """All that the later stages look at; lists are in order of time."""

    series: Series
    library: CardLibrary
    model: LearnedModel
    tokens: list[Token]
    stems: list[str]
    shapes: list[str]
    """The words as the learned tables know them: names of exercises, numbers and kit as one sign each."""
    passages: list[Passage]
    mentions: list[Mention]
    amounts: list[SpokenAmount]
    tempos: list[SpokenAmount]
    evidence: Evidence

    def time(self, token: int) -> float:
        """When a token is said, in seconds."""
        return self.tokens[token].start

    def words(self, first: int, last: int) -> str:
        """The words from one token to another."""
        return " ".join(token.text for token in self.tokens[max(0, first) : last + 1])


def sentence_around(
    tokens: Sequence[Token], first: int, last: int, before: int, behind: int
) -> tuple[int, int]:
    """First and last token of the sentence of some tokens, at most so many words before and behind them."""
    start, end = first, last
    while start > max(0, first - before) and tokens[start].break_before < SENTENCE:
        start -= 1
    while end + 1 < min(len(tokens), last + 1 + behind) and tokens[end + 1].break_before < SENTENCE:
        end += 1
    return start, end


def words_beside(heard: Heard, first: int, last: int, most: int) -> tuple[list[str], list[str]]:
    """The words of a sentence before and behind some of its tokens, at most so many on each side."""
    start, end = sentence_around(heard.tokens, first, last, most, most)
    return heard.shapes[start:first], heard.shapes[last + 1 : end + 1]


def hear(captions: Captions, series: Series, model: LearnedModel | None = None) -> Heard:
    """What captions say; ``model`` holds the learned weights (the package's own where none is given)."""
    model = model or learned()
    library = library_of(series, model)
    stream = stream_of(captions.cues)
    stems = [stem(token.text) for token in stream.tokens]
    passages = passages_of(stream, model["sentences"])
    mentions = list(with_asides(stream.tokens, mentions_of(stream.tokens, stems, library)))
    return Heard(
        series=series,
        library=library,
        model=model,
        tokens=stream.tokens,
        stems=stems,
        shapes=_shapes(stream.tokens, stems, mentions, library),
        passages=passages,
        mentions=mentions,
        amounts=amounts_in(stream.tokens),
        tempos=list(tempos_in(stream.tokens)),
        evidence=evidence_of(stems, passages, library, model, [m for m in mentions if m.aside]),
    )


def _shapes(
    tokens: list[Token], stems: list[str], mentions: list[Mention], library: CardLibrary
) -> list[str]:
    kit: frozenset[str] = frozenset().union(*library.kit.values())
    shapes = [
        "<number>" if token.value is not None else "<kit>" if word in kit else token.text
        for token, word in zip(tokens, stems, strict=True)
    ]
    for mention in mentions:
        if mention.cover >= WHOLE:
            for index in range(mention.first, mention.last + 1):
                shapes[index] = "<name>"
    return shapes
