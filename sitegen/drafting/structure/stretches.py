"""The recording cut into stretches: other talk, and the exercises shown, each once.

A semi-Markov model (Sarawagi and Cohen, "Semi-Markov conditional random fields for information
extraction", NIPS 2004): every way to lay arcs and other talk over the passages has a score, the sum of
the scores of its parts. The best way is found by dynamic programming (Viterbi); the probability of each
part, over all ways, by the forward and backward sums. Times are linear in the number of arcs.
"""

import math
from collections.abc import Sequence, Set
from dataclasses import dataclass
from operator import mul

from sitegen.drafting.structure.arcs import ARC_FEATURES, NEW, NEW_FEATURES, TALK_FEATURES, Arc
from sitegen.drafting.tables import Model

STRETCHES = "stretches"
"""The table of weights."""


def weights_of(model: Model) -> tuple[list[float], list[float], list[float]]:
    """The weights of arcs, of arcs of new exercises and of other talk, in the order of the features."""
    known = model[STRETCHES].weights
    arcs = [known.get(f"exercise: {name}", 0.0) for name in ARC_FEATURES]
    new = [known.get(f"new: {name}", 0.0) for name in NEW_FEATURES]
    talk = [known.get(f"talk: {name}", 0.0) for name in TALK_FEATURES]
    return arcs, new, talk


@dataclass(frozen=True, slots=True)
class Lattice:
    """Scores of all arcs and of every passage as other talk."""

    arcs: Sequence[Arc]
    scores: Sequence[float]
    talk: Sequence[float]
    into: Sequence[Sequence[tuple[int, float, int]]]
    """For each place the arcs that end there: where they begin, their score, their number."""

    @classmethod
    def of(cls, arcs: Sequence[Arc], scores: Sequence[float], talk: Sequence[float]) -> "Lattice":
        """The lattice of some arcs with their scores."""
        into: list[list[tuple[int, float, int]]] = [[] for _ in range(len(talk) + 1)]
        for number, ((first, end, _, _), score) in enumerate(zip(arcs, scores, strict=True)):
            into[end].append((first, score, number))
        return cls(arcs, scores, talk, into)

    @property
    def length(self) -> int:
        """The number of passages."""
        return len(self.talk)


def lattice_of(arcs: Sequence[Arc], talk: Sequence[Sequence[float]], model: Model) -> Lattice:
    """The scored lattice of a recording."""
    weights, new_weights, talk_weights = weights_of(model)
    scores = [
        float(sum(map(mul, features, new_weights if label == NEW else weights)))
        for _, _, label, features in arcs
    ]
    return Lattice.of(arcs, scores, [float(sum(map(mul, row, talk_weights))) for row in talk])


def best_arcs(lattice: Lattice) -> list[int]:
    """The numbers of the arcs of the best way in which no exercise of the library is shown twice."""
    gone: set[int] = set()
    by_label: dict[str, list[int]] = {}
    for number, arc in enumerate(lattice.arcs):
        by_label.setdefault(arc.label, []).append(number)
    while True:
        path = _viterbi(lattice, gone)
        weaker = _weaker_twins(lattice, path)
        if not weaker:
            return path
        # Whatever else would show the exercise over again there is given up with it.
        for number in weaker:
            lost = lattice.arcs[number]
            gone |= {n for n in by_label[lost.label] if _overlap(lattice.arcs[n], lost)}


def _overlap(arc: Arc, other: Arc) -> bool:
    return arc.first < other.end and other.first < arc.end


def _weaker_twins(lattice: Lattice, path: Sequence[int]) -> list[int]:
    """Of the arcs that show an exercise more than once all but the one that gains most over other talk."""
    by_label: dict[str, list[int]] = {}
    for number in path:
        if lattice.arcs[number].label != NEW:
            by_label.setdefault(lattice.arcs[number].label, []).append(number)

    def gain(number: int) -> float:
        return lattice.scores[number] - talk_instead(lattice, lattice.arcs[number])

    return [n for twins in by_label.values() for n in sorted(twins, key=gain)[:-1]]


def talk_instead(lattice: Lattice, arc: Arc) -> float:
    """The score of an arc's passages as other talk."""
    return sum(lattice.talk[arc.first : arc.end])


def _viterbi(lattice: Lattice, gone: Set[int]) -> list[int]:
    best = [0.0] * (lattice.length + 1)
    taken: list[int | None] = [None] * (lattice.length + 1)
    for end in range(1, lattice.length + 1):
        most, by = best[end - 1] + lattice.talk[end - 1], None
        for first, score, number in lattice.into[end]:
            if (value := best[first] + score) > most and number not in gone:
                most, by = value, number
        best[end], taken[end] = most, by
    path, end = [], lattice.length
    while end > 0:
        arc = taken[end]
        if arc is None:
            end -= 1
        else:
            path.append(arc)
            end = lattice.arcs[arc].first
    return path[::-1]


def probabilities(lattice: Lattice) -> list[float]:
    """How likely each arc is on the way, over all ways."""
    n = lattice.length
    forward = [0.0] * (n + 1)
    from_: list[list[tuple[int, float]]] = [[] for _ in range(n + 1)]
    for end in range(1, n + 1):
        terms = [forward[end - 1] + lattice.talk[end - 1]]
        for first, score, _ in lattice.into[end]:
            terms.append(forward[first] + score)
            from_[first].append((end, score))
        forward[end] = _log_sum(terms)
    backward = [0.0] * (n + 1)
    for first in range(n - 1, -1, -1):
        terms = [backward[first + 1] + lattice.talk[first]]
        terms += [backward[end] + score for end, score in from_[first]]
        backward[first] = _log_sum(terms)
    total = forward[n]
    return [
        math.exp(min(0.0, forward[first] + score + backward[end] - total))
        for (first, end, _, _), score in zip(lattice.arcs, lattice.scores, strict=True)
    ]


def _log_sum(terms: Sequence[float]) -> float:
    most = max(terms)
    return most + math.log(sum([math.exp(term - most) for term in terms]))
