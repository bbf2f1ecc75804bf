"""Talk cut into passages: a sentence, a part of a long one, or a few short ones that follow each other.

Starts of exercises, blocks and turns are looked for at the beginnings of passages only. Where nobody
marks sentences, as in machine captions, they are parted where the learned table ``sentences`` says that
one word likely ends a sentence and the next begins one.
"""

from bisect import bisect
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from sitegen.drafting.learned_tables import Weights
from sitegen.drafting.transcript.words import Token, TokenStream

SENTENCE = 2
"""The break that ends a sentence (see :class:`Token`)."""

_FEWEST, _MOST = 4, 16
"""Words of a passage: fewer are joined with what follows, and longer ones parted, so that a passage takes
about five seconds and the start of an exercise is not far from the start of a passage.
"""

_LIKELY = 0.0
"""Score from which on a sentence is taken to end where nobody marks it: it is as likely as not."""

_LONE_PAUSE_S = 2.0
"""A short sentence is not joined across a longer silence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Passage:
    """Some words in a row; ``first`` and ``last`` are the numbers of its tokens."""

    first: int
    last: int
    start: float
    """Seconds."""
    end: float
    pause_before: float
    """Silence before it, in seconds."""
    pause_after: float

    @property
    def length(self) -> int:
        """The number of its words."""
        return self.last - self.first + 1


def boundary_features(before: Token, after: Token) -> list[tuple[str, float]]:
    """What tells whether a sentence ends between two words."""
    return [("bias", 1.0), (f"ends {before.text}", 1.0), (f"begins {after.text}", 1.0)]


def passages_of(stream: TokenStream, sentences: Weights) -> list[Passage]:
    """The passages of the talk, in order."""
    tokens = stream.tokens
    if not tokens:
        return []
    spans = list(_joined(tokens, list(_sentences(stream, sentences))))
    out = []
    for index, (first, last) in enumerate(spans):
        following = spans[index + 1][0] if index + 1 < len(spans) else None
        out.append(
            Passage(
                first=first,
                last=last,
                start=tokens[first].start,
                end=tokens[last].end,
                pause_before=tokens[first].pause_before,
                pause_after=tokens[following].pause_before if following is not None else 0.0,
            )
        )
    return out


def _sentences(stream: TokenStream, sentences: Weights) -> Iterator[tuple[int, int]]:
    """First and last token of every sentence, long ones parted."""
    tokens = stream.tokens
    first = 0
    for index in range(1, len(tokens) + 1):
        if index == len(tokens) or tokens[index].break_before >= SENTENCE:
            yield from _parted(tokens, first, index - 1, sentences, punctuated=stream.punctuated)
            first = index


def _parted(
    tokens: list[Token], first: int, last: int, sentences: Weights, *, punctuated: bool
) -> Iterator[tuple[int, int]]:
    """A stretch without marks cut at its likeliest places until no part is too long."""
    scores = {
        # A comma is a likelier place than none.
        index: sentences.score(boundary_features(tokens[index - 1], tokens[index]))
        + (1.5 if tokens[index].break_before else 0.0)
        for index in range(first + _FEWEST, last - _FEWEST + 2)
    }
    bounds = [first, last + 1]
    # From the likeliest place to the least likely: each is then the likeliest that is left of its part, and
    # no part is gone over again, however long the stretch.
    for index in sorted(scores, key=lambda index: -scores[index]):
        after = bisect(bounds, index)
        begin, end = bounds[after - 1], bounds[after]
        too_short = min(index - begin, end - index) < _FEWEST
        likely = not punctuated and scores[index] > _LIKELY
        if not too_short and (likely or end - begin > _MOST):
            bounds.insert(after, index)
    yield from ((begin, end - 1) for begin, end in pairwise(bounds))


def _joined(tokens: list[Token], spans: list[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """The spans, short ones joined with what follows at once."""
    held: int | None = None
    for index, (first, last) in enumerate(spans):
        begin = first if held is None else held
        following = spans[index + 1][0] if index + 1 < len(spans) else None
        short = last - begin + 1 < _FEWEST
        if short and following is not None and tokens[following].pause_before < _LONE_PAUSE_S:
            held = begin
            continue
        held = None
        yield begin, last
