"""What the words of a passage do: begin an exercise, show one, hand over to the viewer, open a block.

Each is a linear model over words and silences, learned from recordings (``data/talk.tsv``); here are the
features that it sees, and the scores (log-odds) of all passages of a recording.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from sitegen.drafting.heard import Heard, words_beside
from sitegen.drafting.learned_tables import Feature, word_features
from sitegen.drafting.names.mentions import Mention

START, INSIDE, TURN, BLOCK, SHOWN = "start", "inside", "turn", "block", "shown"
ACTS = (START, INSIDE, TURN, BLOCK)
"""The models of passages; :data:`SHOWN` is one of mentions."""

_PAUSES_S = (1.5, 4.0, 10.0)
"""Bounds between silences that are none, short, long and very long. These, and how many words are looked at
below, are our choice; what each weighs is learned.
"""


@dataclass(frozen=True, slots=True)
class TalkActs:
    """Log-odds of each passage for each act, and of each mention for showing its exercise."""

    passages: dict[str, list[float]]
    mentions: list[float]


def acts_of(heard: Heard) -> TalkActs:
    """The scores of a recording."""
    scores = {
        act: [heard.model[act].score(features(heard, act, p)) for p in range(len(heard.passages))]
        for act in ACTS
    }
    return TalkActs(scores, [heard.model[SHOWN].score(shown_features(heard, m)) for m in heard.mentions])


def features(heard: Heard, act: str, place: int) -> list[Feature]:
    """The features of a passage for one of :data:`ACTS`."""
    return list({INSIDE: _inside, TURN: _turn}.get(act, _start)(heard, place))


def _words(heard: Heard, place: int) -> list[str]:
    if not 0 <= place < len(heard.passages):
        return []
    passage = heard.passages[place]
    return heard.shapes[passage.first : passage.last + 1]


def _pairs(prefix: str, words: list[str]) -> Iterator[Feature]:
    for pair in dict.fromkeys(pairwise(words)):
        yield f"{prefix}{pair[0]} {pair[1]}", 1.0


def _pause(prefix: str, seconds: float) -> Feature:
    return f"{prefix}{sum(seconds >= bound for bound in _PAUSES_S)}", 1.0


def _start(heard: Heard, place: int) -> Iterator[Feature]:
    """The first words of a passage, the last ones before it, and the silence between."""
    words = _words(heard, place)
    yield "bias", 1.0
    yield _pause("silence before ", heard.passages[place].pause_before)
    yield from word_features("begins ", words[:2])
    yield from word_features("soon ", words[:9])
    yield from _pairs("begins ", words[:4])
    yield from word_features("before ", _words(heard, place - 1)[-4:])
    yield from word_features("behind ", _words(heard, place + 1)[:9])
    if place == 0:
        yield "first of all", 1.0


def _inside(heard: Heard, place: int) -> Iterator[Feature]:
    """The words of a passage, and of its neighbours."""
    yield "bias", 1.0
    yield _pause("silence after ", heard.passages[place].pause_after)
    yield from word_features("", _words(heard, place))
    yield from word_features("near ", [*_words(heard, place - 1), *_words(heard, place + 1)])


def _turn(heard: Heard, place: int) -> Iterator[Feature]:
    """The words of a passage, the silence behind it, and what is said then."""
    words = _words(heard, place)
    yield "bias", 1.0
    yield _pause("silence after ", heard.passages[place].pause_after)
    yield from word_features("", words)
    yield from _pairs("", words)
    yield from word_features("then ", _words(heard, place + 1)[:8])
    if place + 1 == len(heard.passages):
        yield "last of all", 1.0


_REACH = 6
"""Words on each side: with more, words of the next clause are learned by heart (our choice)."""


def shown_features(heard: Heard, mention: Mention) -> list[Feature]:
    """The words around a mention, in its sentence."""
    tokens = heard.tokens
    before, after = words_beside(heard, mention.first, mention.last, _REACH)
    out: list[Feature] = [("bias", 1.0), ("cover", mention.cover), ("best", float(mention.best))]
    out += word_features("before ", before)
    out += word_features("after ", after)
    out += word_features("next before ", before[-1:])
    out += word_features("next after ", after[:1])
    out += _pairs("before ", before[-3:])
    if not before:
        out.append(("begins", 1.0))
    if not after:
        out.append(("ends", 1.0))
    if tokens[mention.last].text.endswith("s"):
        out.append(("plural", 1.0))
    out.append(_pause("silence before ", tokens[mention.first - len(before)].pause_before))
    place = mention.first / max(1, len(tokens))
    out.append(("late", place))
    return out
