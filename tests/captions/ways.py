"""Learning the weights of stretches: sums over all ways to cut many recordings, step by step together."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import minimize

from sitegen.drafting.structure.arcs import ARC_FEATURES, NEW_FEATURES, TALK_FEATURES
from sitegen.drafting.structure.stretches import HOPELESS, Arc, Lattice

NAMES = (
    [f"exercise: {name}" for name in ARC_FEATURES]
    + [f"new: {name}" for name in NEW_FEATURES]
    + [f"talk: {name}" for name in TALK_FEATURES]
)


@dataclass
class Lattices:
    """Arcs and other talk of one recording as matrices, and which of them the truth allows."""

    first: np.ndarray
    end: np.ndarray
    labels: list[str]
    features: np.ndarray
    """Of arcs; all features side by side: those of exercises, of new exercises, of other talk."""
    talk: np.ndarray
    """Of passages, in the same columns."""
    right: np.ndarray
    right_talk: np.ndarray

    @property
    def length(self) -> int:
        """The number of passages."""
        return len(self.talk)


def scored(lattices: Lattices, weights: Mapping[str, float]) -> Lattice:
    """The lattice as drafting makes it, without making all arcs again."""
    narrow = np.array([weights[name] for name in NAMES], dtype=np.float32)
    scores, alone = lattices.features @ narrow, (lattices.talk @ narrow).astype(float)
    before = np.concatenate([[0.0], np.cumsum(alone)])
    first, end = lattices.first, lattices.end
    kept = np.flatnonzero(scores > before[end] - before[first] + HOPELESS)
    arcs = [Arc(int(first[n]), int(end[n]), lattices.labels[n], float(scores[n])) for n in kept]
    return Lattice(arcs, alone.tolist())


class Ways:
    """All ways through some lattices, as sums that are worked out for all recordings at once.

    Nodes are the places between passages, one more in each recording than it has passages. Step by step the
    same place of all recordings is worked out in one go.
    """

    def __init__(self, lengths: np.ndarray, number: np.ndarray, first: np.ndarray, end: np.ndarray) -> None:
        self.lengths = lengths
        self.base = np.concatenate([[0], np.cumsum(lengths + 1)[:-1]])
        self.number = number
        self.first, self.end = self.base[number] + first, self.base[number] + end
        self.passages = np.concatenate([b + np.arange(n) for b, n in zip(self.base, lengths, strict=True)])
        """The node before each passage."""
        self.nodes = int(lengths.sum() + len(lengths))
        steps = range(int(lengths.max()) + 1)
        self.by_end, self.order_end = self._by_place(end, steps)
        self.by_first, self.order_first = self._by_place(first, steps)
        self.at = [self.base[lengths >= step] + step for step in steps]

    def _by_place(
        self, place: np.ndarray, steps: range
    ) -> tuple[list[tuple[int, int, np.ndarray, np.ndarray]], np.ndarray]:
        """The arcs by place and recording: for each step the part of the order, and where recordings
        begin.
        """
        order = np.lexsort((self.number, place))
        bounds = np.searchsorted(place[order], np.arange(len(steps) + 1))
        parts = []
        for step in steps:
            low, high = int(bounds[step]), int(bounds[step + 1])
            recordings, starts = np.unique(self.number[order[low:high]], return_index=True)
            parts.append((low, high, self.base[recordings] + step, starts))
        return parts, order

    def sums(self, scores: np.ndarray, talk: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        """Of each recording log Z, and how often each arc and each passage of talk is on the way."""
        alone = np.zeros(self.nodes)
        alone[self.passages] = talk
        forward, backward = np.zeros(self.nodes), np.zeros(self.nodes)
        by_end, from_ = scores[self.order_end], self.first[self.order_end]
        for step in range(1, len(self.at)):
            here = self.at[step]
            forward[here] = forward[here - 1] + alone[here - 1]
            low, high, nodes, starts = self.by_end[step]
            if high > low:
                _add(forward, nodes, forward[from_[low:high]] + by_end[low:high], starts)
        by_first, to = scores[self.order_first], self.end[self.order_first]
        for step in range(len(self.at) - 2, -1, -1):
            here = self.at[step + 1] - 1
            backward[here] = backward[here + 1] + alone[here]
            low, high, nodes, starts = self.by_first[step]
            if high > low:
                _add(backward, nodes, backward[to[low:high]] + by_first[low:high], starts)
        total = forward[self.base + self.lengths]
        arcs = np.exp(np.minimum(0, forward[self.first] + scores + backward[self.end] - total[self.number]))
        which = np.repeat(np.arange(len(self.lengths)), self.lengths)
        talks = np.exp(
            np.minimum(0, forward[self.passages] + talk + backward[self.passages + 1] - total[which])
        )
        return total, arcs, talks


def _add(sums: np.ndarray, nodes: np.ndarray, values: np.ndarray, starts: np.ndarray) -> None:
    """Add the values of each recording (which begin at ``starts``) to its node, all of them logarithms."""
    most = np.maximum(np.maximum.reduceat(values, starts), sums[nodes])
    counts = np.diff(np.append(starts, len(values)))
    more = np.add.reduceat(np.exp(values - np.repeat(most, counts)), starts)
    sums[nodes] = most + np.log(more + np.exp(sums[nodes] - most))


_NEVER = -1e6

_FIRST, _MOST = 25, 150
"""Steps to come near the best weights, and from there to them, which takes fewer. Short of them, after 60
plain steps, as many exercises of hands left out were found, with a precision lower by 0.03.
"""


def learn_stretches(
    lattices: Sequence[Lattices], weights: Sequence[float], strength: float = 0.02
) -> dict[str, float]:
    """Maximum conditional likelihood of the true ways, with a Gaussian prior on the weights."""
    lengths = np.array([len(lat.talk) for lat in lattices])
    number = np.repeat(np.arange(len(lattices)), [len(lat.first) for lat in lattices])
    first, end = (np.concatenate([getattr(lat, name) for lat in lattices]) for name in ("first", "end"))
    features, talk = (np.concatenate([getattr(lat, n) for lat in lattices]) for n in ("features", "talk"))
    right = np.flatnonzero(np.concatenate([lat.right for lat in lattices]))
    right_talk = np.concatenate([lat.right_talk for lat in lattices])
    every = Ways(lengths, number, first, end)
    true = Ways(lengths, number[right], first[right], end[right])
    weight = np.array(weights)
    of_passage = np.repeat(weight, lengths)
    prior = strength * len(lattices)

    def loss(w: np.ndarray) -> tuple[float, np.ndarray]:
        narrow = w.astype(np.float32)
        scores, alone = (features @ narrow).astype(float), (talk @ narrow).astype(float)
        total, arcs, talks = every.sums(scores, alone)
        good, good_arcs, good_talks = true.sums(scores[right], np.where(right_talk, alone, _NEVER))
        arcs[right] -= good_arcs
        surplus = (arcs * weight[number]).astype(np.float32)
        surplus_talk = ((talks - good_talks) * of_passage).astype(np.float32)
        value = float(weight @ (total - good)) + 0.5 * prior * float(w @ w)
        return value, (surplus @ features + surplus_talk @ talk).astype(float) + prior * w

    start = np.zeros(len(NAMES))
    start[NAMES.index("exercise: bias")] = -4
    start[NAMES.index("new: bias")] = -6
    near = minimize(loss, start, jac=True, method="L-BFGS-B", options={"maxiter": _FIRST}).x
    # Many features say nearly the same, so the way down is long and narrow. Near its end it is made round: by
    # how sure the ways are of each arc there (the diagonal of the information that each gives).
    narrow = near.astype(np.float32)
    _, arcs, talks = every.sums((features @ narrow).astype(float), (talk @ narrow).astype(float))
    unsure = (arcs * (1 - arcs) * weight[number]).astype(np.float32)
    unsure_talk = (talks * (1 - talks) * of_passage).astype(np.float32)
    curved = features.T @ (features * unsure[:, None]) + talk.T @ (talk * unsure_talk[:, None])
    turned = np.linalg.inv(np.linalg.cholesky(curved.astype(float) + prior * np.eye(len(NAMES)))).T

    def rounded(z: np.ndarray) -> tuple[float, np.ndarray]:
        value, slope = loss(turned @ z)
        return value, turned.T @ slope

    begin = np.linalg.solve(turned, near)
    result = minimize(rounded, begin, jac=True, method="L-BFGS-B", options={"maxiter": _MOST})
    return {name: float(weight) for name, weight in zip(NAMES, turned @ result.x, strict=True)}
