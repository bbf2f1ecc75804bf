"""The best way to cut a recording, and probabilities, against all ways written out."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sitegen.drafting.structure.arcs import NEW
from sitegen.drafting.structure.stretches import Arc, Lattice, best_arcs, probabilities

SCORES = st.floats(-4, 4, allow_nan=False)


@st.composite
def lattices(draw: st.DrawFn) -> Lattice:
    length = draw(st.integers(1, 5))
    talk = [draw(SCORES) for _ in range(length)]
    arcs = []
    for _ in range(draw(st.integers(0, 7))):
        first = draw(st.integers(0, length - 1))
        end = draw(st.integers(first + 1, length))
        arcs.append(Arc(first, end, draw(st.sampled_from(["squat", "plank", NEW])), draw(SCORES)))
    return Lattice(arcs, talk)


def all_ways(lattice: Lattice) -> list[tuple[tuple[int, ...], float]]:
    """Every set of arcs that do not overlap, with its score."""
    ways = []
    for size in range(len(lattice.arcs) + 1):
        for chosen in itertools.combinations(range(len(lattice.arcs)), size):
            places = [p for n in chosen for p in range(lattice.arcs[n].first, lattice.arcs[n].end)]
            if len(places) == len(set(places)):
                free = set(range(len(lattice.talk))) - set(places)
                score = sum(lattice.arcs[n].score for n in chosen) + sum(lattice.talk[p] for p in free)
                ways.append((chosen, score))
    return ways


def score_of(lattice: Lattice, chosen: list[int]) -> float:
    return next(score for way, score in all_ways(lattice) if set(way) == set(chosen))


@given(lattices())
@settings(deadline=None, max_examples=150)
def test_the_best_way_is_the_best_of_all(lattice: Lattice) -> None:
    path = best_arcs(lattice)
    shown = [lattice.arcs[n].label for n in path if lattice.arcs[n].label != NEW]
    assert len(shown) == len(set(shown))
    best = max(score for _, score in all_ways(lattice))
    unlimited = [way for way, score in all_ways(lattice) if math.isclose(score, best)]
    repeats = any(
        len(labels) != len(set(labels))
        for way in unlimited
        if (labels := [lattice.arcs[n].label for n in way if lattice.arcs[n].label != NEW])
    )
    if not repeats:
        assert score_of(lattice, path) == pytest.approx(best)


@given(lattices())
@settings(deadline=None, max_examples=150)
def test_probabilities_are_those_of_all_ways(lattice: Lattice) -> None:
    ways = all_ways(lattice)
    total = sum(math.exp(score) for _, score in ways)
    for number, probability in enumerate(probabilities(lattice)):
        with_it = sum(math.exp(score) for way, score in ways if number in way)
        assert probability == pytest.approx(with_it / total)
