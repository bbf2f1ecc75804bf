"""The word lists and weights of :mod:`sitegen.drafting`, read from the files in ``data/``.

``words.yaml`` holds lists that the trade knows (common practice, no source), each with an example;
``*.tsv`` hold weights learned from recordings by ``python -m tests.captions.train``, with their
provenance in the lines that begin with ``#``.
"""

import math
from collections.abc import Iterable, Iterator, Mapping
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

import yaml

DATA = Path(__file__).parent / "data"


def words_in(text: str) -> frozenset[str]:
    """The words of a text: a readable way to write a set of words."""
    return frozenset(text.split())


@lru_cache(maxsize=1)
def _lists() -> dict[str, Any]:
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    data: dict[str, Any] = yaml.load((DATA / "words.yaml").read_text(encoding="utf-8"), Loader=loader)
    return data


@cache
def word_list(name: str) -> frozenset[str]:
    """A list of single words."""
    return words_in(_lists()[name]["words"])


@cache
def word_map(name: str) -> Mapping[str, str]:
    """A list in which each word or phrase stands for another."""
    return dict(_lists()[name]["means"])


@cache
def groups(name: str) -> list[list[str]]:
    """Groups of phrases that mean the same."""
    return [[phrase.strip() for phrase in group.split("|")] for group in _lists()[name]["groups"]]


def phrases_of(name: str) -> list[str]:
    """A list of phrases, as patterns."""
    return list(_lists()[name]["phrases"])


def phrases_said(name: str, words: Iterable[str]) -> dict[str, int]:
    """How many phrases of each group of a list are said, by the first of the group, which is its name."""
    talk = f" {' '.join(words)} "
    counts = {group: sum(f" {phrase} " in talk for phrase in phrases) for group, *phrases in groups(name)}
    return {group: count for group, count in counts.items() if count}


def probability(score: float) -> float:
    """Log-odds as a probability; beyond 30 nothing changes that matters, and ``exp`` could overflow."""
    return 1 / (1 + math.exp(-max(-30.0, min(30.0, score))))


Feature = tuple[str, float]
"""The name of something seen at a place, and how strongly it is present."""


def word_features(prefix: str, words: Iterable[str]) -> Iterator[Feature]:
    """Each of the words once, as a feature with this prefix."""
    for word in dict.fromkeys(words):
        yield f"{prefix}{word}", 1.0


class Weights:
    """Weights of a linear model by the name of the feature."""

    def __init__(self, weights: Mapping[str, float]) -> None:
        self.weights = weights

    def score(self, features: Iterable[Feature]) -> float:
        """The sum of the weights; features without a weight add nothing."""
        weights = self.weights
        return sum(weights.get(name, 0.0) * value for name, value in features)


class LearnedModel:
    """All learned weights: the tables by name."""

    def __init__(self, tables: Mapping[str, Mapping[str, float]]) -> None:
        self.tables = {name: Weights(table) for name, table in tables.items()}

    def __getitem__(self, name: str) -> Weights:
        return self.tables[name]


@lru_cache(maxsize=1)
def learned() -> LearnedModel:
    """The weights that the package carries."""
    tables: dict[str, dict[str, float]] = {}
    for path in sorted(DATA.glob("*.tsv")):
        for line in path.read_text(encoding="utf-8").splitlines():
            if line and not line.startswith("#"):
                table, feature, weight = line.split("\t")
                tables.setdefault(table, {})[feature] = float(weight)
    return LearnedModel(tables)
