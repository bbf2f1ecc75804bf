"""The recording cut into stretches: other talk, and the exercises shown, each once.

A semi-Markov model (Sarawagi and Cohen, "Semi-Markov conditional random fields for information
extraction", NIPS 2004): every way to lay arcs and other talk over the passages has a score, the sum of
the scores of its parts. The best way is found by dynamic programming (Viterbi); the probability of each
part, over all ways, by the forward and backward sums. Times are linear in the number of arcs.
"""

import math
from collections.abc import Iterable, Sequence, Set
from dataclasses import dataclass
from itertools import accumulate
from operator import mul
from typing import NamedTuple

from sitegen.drafting.learned_tables import LearnedModel
from sitegen.drafting.structure.arcs import (
    LABEL_FEATURES,
    NEW,
    NEW_FEATURES,
    SPAN_FEATURES,
    TALK_FEATURES,
    SpannedPassages,
)

STRETCHES = "stretches"
"""The table of weights."""

HOPELESS = -12.0
"""An arc whose passages are so much likelier as other talk is on the way at most six times in a million (e to
the power of this), and never on the best one: it is left out, as is half of all.
"""


class Arc(NamedTuple):
    """Passages ``first`` up to ``end`` show ``label``: how much speaks for it."""

    first: int
    end: int
    label: str
    score: float


@dataclass(frozen=True, slots=True)
class Lattice:
    """Scores of all arcs and of every passage as other talk."""

    arcs: Sequence[Arc]
    talk: Sequence[float]
    """By passage."""


def lattice_of(
    spans: Iterable[SpannedPassages], talk: Sequence[Sequence[float]], model: LearnedModel
) -> Lattice:
    """The scored lattice of a recording."""
    for_span = _weights(model, "exercise", SPAN_FEATURES)
    for_label = _weights(model, "exercise", LABEL_FEATURES)
    for_new = _weights(model, "new", NEW_FEATURES)
    for_talk = _weights(model, "talk", TALK_FEATURES)
    alone = [float(sum(map(mul, row, for_talk))) for row in talk]
    before = [0.0, *accumulate(alone)]
    arcs: list[Arc] = []
    for first, end, features, labels, new in spans:
        least = before[end] - before[first] + HOPELESS
        common = sum(map(mul, features, for_span))
        for label, own in labels:
            score = common + sum(map(mul, own, for_label))
            if score > least:
                arcs.append(Arc(first, end, label, score))
        if new is not None and (score := sum(map(mul, new, for_new))) > least:
            arcs.append(Arc(first, end, NEW, score))
    return Lattice(arcs, alone)


def _weights(model: LearnedModel, label: str, features: Sequence[str]) -> list[float]:
    """The weights of some features, in their order."""
    known = model[STRETCHES].weights
    return [known.get(f"{label}: {name}", 0.0) for name in features]


def best_arcs(lattice: Lattice) -> list[int]:
    """The numbers of the arcs of the best way in which no exercise of the library is shown twice."""
    by_label: dict[str, list[int]] = {}
    into: list[list[int]] = [[] for _ in range(len(lattice.talk) + 1)]
    before = [0.0, *accumulate(lattice.talk)]
    for number, (first, end, label, score) in enumerate(lattice.arcs):
        # No other is on the best way, for its passages are better as other talk.
        if score > before[end] - before[first]:
            by_label.setdefault(label, []).append(number)
            into[end].append(number)
    gone: set[int] = set()
    while True:
        path = _viterbi(lattice, into, gone)
        weaker = _weaker_twins(lattice, path)
        if not weaker:
            return path
        # Whatever else would show the exercise over again there is given up with it.
        for number in weaker:
            lost = lattice.arcs[number]
            arcs = ((n, lattice.arcs[n]) for n in by_label[lost.label])
            gone |= {n for n, arc in arcs if arc.first < lost.end and lost.first < arc.end}


def _weaker_twins(lattice: Lattice, path: Sequence[int]) -> list[int]:
    """Of the arcs that show an exercise more than once all but the one that gains most over other talk."""
    by_label: dict[str, list[int]] = {}
    for number in path:
        if lattice.arcs[number].label != NEW:
            by_label.setdefault(lattice.arcs[number].label, []).append(number)

    def gain(number: int) -> float:
        arc = lattice.arcs[number]
        return arc.score - talk_instead(lattice, arc)

    return [n for twins in by_label.values() for n in sorted(twins, key=gain)[:-1]]


def talk_instead(lattice: Lattice, arc: Arc) -> float:
    """The score of an arc's passages as other talk."""
    return sum(lattice.talk[arc.first : arc.end])


def _viterbi(lattice: Lattice, into: Sequence[Sequence[int]], gone: Set[int]) -> list[int]:
    """The best way; ``into`` holds for each place the numbers of the arcs that end there."""
    best = [0.0] * (len(lattice.talk) + 1)
    taken: list[int | None] = [None] * (len(lattice.talk) + 1)
    for end in range(1, len(lattice.talk) + 1):
        most, by = best[end - 1] + lattice.talk[end - 1], None
        for number in into[end]:
            arc = lattice.arcs[number]
            if (value := best[arc.first] + arc.score) > most and number not in gone:
                most, by = value, number
        best[end], taken[end] = most, by
    path, end = [], len(lattice.talk)
    while end > 0:
        arc_number = taken[end]
        if arc_number is None:
            end -= 1
        else:
            path.append(arc_number)
            end = lattice.arcs[arc_number].first
    return path[::-1]


def probabilities(lattice: Lattice) -> list[float]:
    """How likely each arc is on the way, over all ways."""
    n = len(lattice.talk)
    into: list[list[tuple[int, float]]] = [[] for _ in range(n + 1)]
    from_: list[list[tuple[int, float]]] = [[] for _ in range(n + 1)]
    for first, end, _, score in lattice.arcs:
        into[end].append((first, score))
        from_[first].append((end, score))
    forward = [0.0] * (n + 1)
    for end in range(1, n + 1):
        terms = [forward[first] + score for first, score in into[end]]
        forward[end] = _log_sum([forward[end - 1] + lattice.talk[end - 1], *terms])
    backward = [0.0] * (n + 1)
    for first in range(n - 1, -1, -1):
        terms = [backward[end] + score for end, score in from_[first]]
        backward[first] = _log_sum([backward[first + 1] + lattice.talk[first], *terms])
    total = forward[n]
    return [
        math.exp(min(0.0, forward[first] + score + backward[end] - total))
        for first, end, _, score in lattice.arcs
    ]


def _log_sum(terms: Sequence[float]) -> float:
    most = max(terms)
    return most + math.log(sum([math.exp(term - most) for term in terms]))
