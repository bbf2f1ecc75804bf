"""Fitting small linear models to rows of named features, each row with the recording it comes from."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy.optimize import minimize
from sklearn.feature_extraction import DictVectorizer
from sklearn.linear_model import LogisticRegression

from tests.captions.corpus import Recording

Features = Iterable[tuple[str, float]]


def hand_weights(recordings: Sequence[Recording], power: float = 0.0) -> dict[str, float]:
    """What a recording of each hand counts: all hands the same together where ``power`` is 0; with 0.5 a
    hand with four times as many recordings counts twice.

    A stranger is one more hand, not one more recording of a known hand.
    """
    counts = Counter(recording.hand for recording in recordings)
    raw = {hand: count ** (power - 1) for hand, count in counts.items()}
    mean = sum(raw[r.hand] for r in recordings) / len(recordings)
    return {hand: value / mean for hand, value in raw.items()}


@dataclass(frozen=True, slots=True)
class Row:
    """What is seen at one place, and what is right there."""

    features: dict[str, float]
    wanted: Any
    group: str
    """The recording."""
    weight: float = 1.0
    choice: int = 0
    """In :func:`choice`: numbers, within its recording, the choice that the row belongs to."""


def _kept(rows: Sequence[Row], fewest: int) -> list[dict[str, float]]:
    """The features that occur in ``fewest`` or more recordings, or in all where there are fewer."""
    fewest = min(fewest, len({row.group for row in rows}))
    seen: dict[str, set[str]] = defaultdict(set)
    for row in rows:
        for name in row.features:
            seen[name].add(row.group)
    common = {name for name, groups in seen.items() if len(groups) >= fewest}
    return [{n: v for n, v in row.features.items() if n in common} for row in rows]


def linear(
    rows: Sequence[Row], *, fewest: int = 4, strength: float = 0.15, least: float = 0.0
) -> dict[str, float]:
    """A logistic regression over features that occur in ``fewest`` or more recordings."""
    return _regressions(rows, [None], fewest=fewest, strength=strength, least=least)[None]


def classes(rows: Sequence[Row], *, fewest: int, strength: float, least: float = 0.04) -> dict[str, float]:
    """A regression for each class: is it among those that are right, which ``wanted`` holds?"""
    wanted = sorted({one for row in rows for one in row.wanted})
    tables = _regressions(rows, wanted, fewest=fewest, strength=strength, least=least)
    return {f"{c}: {name}": weight for c, table in tables.items() for name, weight in table.items()}


def _regressions(
    rows: Sequence[Row], wanted: Sequence[Any], *, fewest: int, strength: float, least: float
) -> dict[Any, dict[str, float]]:
    """For each of the wanted classes its regression (None: what is wanted is true or false)."""
    vectorizer = DictVectorizer()
    kept = _kept(rows, fewest)
    for row in kept:
        row.pop("bias", None)
    matrix = vectorizer.fit_transform(kept)
    weights = np.array([row.weight for row in rows])
    names = vectorizer.get_feature_names_out()
    out = {}
    for one in wanted:
        right = np.array([bool(r.wanted) if one is None else one in r.wanted for r in rows])
        model = LogisticRegression(C=strength, max_iter=500).fit(matrix, right, sample_weight=weights)
        table = {n: float(w) for n, w in zip(names, model.coef_[0], strict=True) if abs(w) >= least}
        out[one] = table | {"bias": float(model.intercept_[0])}
    return out


def choice(
    rows: Sequence[Row], *, fewest: int = 4, strength: float = 0.5, least: float = 0.03
) -> dict[str, float]:
    """A conditional logit (McFadden 1974): of the rows of one choice the wanted ones, or none, is chosen.

    Not to choose has the score 0.
    """
    vectorizer = DictVectorizer()
    matrix = vectorizer.fit_transform(_kept(rows, fewest)).tocsr()
    numbers: dict[tuple[str, int], int] = {}
    number = np.array([numbers.setdefault((row.group, row.choice), len(numbers)) for row in rows])
    right = np.array([bool(row.wanted) for row in rows])
    size = len(numbers)
    weight = np.zeros(size)
    weight[number] = np.array([row.weight for row in rows])
    none_right = np.ones(size, dtype=bool)
    none_right[number[right]] = False

    def loss(w: np.ndarray) -> tuple[float, np.ndarray]:
        scores = np.clip(matrix @ w, -30, 30)
        odds = np.exp(scores)
        total = 1 + np.bincount(number, odds, size)
        good = none_right + np.bincount(number, odds * right, size)
        value = float((weight * (np.log(total) - np.log(good))).sum()) + 0.5 / strength * float(w @ w)
        pull = weight[number] * odds * (1 / total[number] - right / good[number])
        return value, matrix.T @ pull + w / strength

    result = minimize(loss, np.zeros(matrix.shape[1]), jac=True, method="L-BFGS-B", options={"maxiter": 200})
    names = vectorizer.get_feature_names_out()
    return {name: float(w) for name, w in zip(names, result.x, strict=True) if abs(w) >= least}
