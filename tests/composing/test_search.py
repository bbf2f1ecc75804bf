"""The search against trying every session: small random tasks, all of which are gone through."""

import random
from collections.abc import Iterator
from dataclasses import replace
from itertools import permutations

import pytest

from sitegen.composing.broken_rules import broken
from sitegen.composing.search import find
from sitegen.composing.session_points import score
from sitegen.composing.task import BlockToFill, Option, Rules, Task, TrainingWant

MUSCLES = ["chest", "lats", "glutes", "quadriceps"]


def option(draw: random.Random, number: int) -> Option:
    prime, assist = draw.sample(MUSCLES, 2)
    sets = draw.choice([8, 12])
    shares = {prime: sets, assist: sets // 2}
    return Option(
        key=f"exercise-{number}",
        points=draw.randint(-6, 30),
        feeds=shares,
        load=shares,
        push=sets if draw.random() < 0.3 else 0,
        pull=sets if draw.random() < 0.3 else 0,
        hard={prime: sets} if draw.random() < 0.5 else {},
        seconds=draw.randint(60, 200),
        kit=frozenset(draw.sample(["towel", "chair", "carrier"], draw.randint(0, 2))),
        prime=frozenset({prime}),
        pattern=draw.choice(["push", "pull", "squat", "hinge"]),
        grip=draw.random() < 0.2,
        floor=draw.random() < 0.2,
        new=draw.random() < 0.2,
        assist=frozenset({assist}),
        sort=frozenset(draw.sample(["lower", "upper", "speed"], draw.randint(0, 2))),
        astray=frozenset(draw.sample(["seated", "no-floor"], draw.randint(0, 2))),
        lift=draw.choice(["", "knee", "hinge"]),
        turn=draw.choice([None, 0, 1, 3]),
    )


def task(seed: int) -> Task:
    draw = random.Random(seed)
    size = draw.randint(4, 6)
    places = tuple(
        BlockToFill(
            options=tuple(option(draw, number) for number in range(size)),
            count=draw.choice([1, 2, 2, 3]),
            rotating=draw.random() < 0.7,
        )
        for _ in range(2)
    )
    wants = {
        m: TrainingWant(urgent=draw.randint(0, 16), urgent_points=3, usual=8, usual_points=1) for m in MUSCLES
    }
    rules = Rules(
        most={muscle: draw.randint(16, 60) for muscle in MUSCLES},
        tired=frozenset(draw.sample(MUSCLES, 1)) if draw.random() < 0.3 else frozenset(),
        push_per_pull=draw.choice([None, 1.5]),
        pull=8,
        seconds=draw.choice([None, 600, 800]),
        new=draw.choice([None, 0, 1]),
    )
    return Task(
        places=places if seed % 2 else (with_kept(places[0], draw), places[1]), wants=wants, rules=rules
    )


def with_kept(places: BlockToFill, draw: random.Random) -> BlockToFill:
    """The block with an exercise that stays where it stands."""
    stays = replace(option(draw, 0), key="stays")
    return replace(places, kept=(stays,), kept_at=(draw.randrange(places.count),))


def arrangements(places: BlockToFill) -> Iterator[tuple[Option, ...]]:
    """Every choice of a block in every order, what stays in its place."""
    for chosen in permutations(places.options, places.count - len(places.kept)):
        block = list(chosen)
        for at, option in zip(places.kept_at, places.kept, strict=True):
            block.insert(at, option)
        yield tuple(block)


def best_of_all(given: Task) -> int | None:
    """Points of the best session of every choice in every order."""
    first, second = given.places
    found = None
    for one in arrangements(first):
        for other in arrangements(second):
            keys = {option.key for option in (*one, *other)}
            if len(keys) == len(one) + len(other) and not broken(given, (one, other)):
                points = score(given, (one, other))
                found = points if found is None else max(found, points)
    return found


@pytest.mark.parametrize("seed", range(40))
def test_no_session_is_better_than_the_one_found(seed: int) -> None:
    given = task(seed)
    found = find(given, most_looked_at=10**6)

    assert (found.score if found else None) == best_of_all(given)
    if found:
        assert found.proven
        assert broken(given, found.blocks) == ()
        assert score(given, found.blocks) == found.score
        for places, block in zip(given.places, found.blocks, strict=True):
            assert tuple(block[at] for at in places.kept_at) == places.kept


def test_some_tasks_have_a_session_and_some_have_none() -> None:
    """Else the comparison above would prove little."""
    found = [find(task(seed), most_looked_at=10**6) is not None for seed in range(40)]
    assert 10 <= sum(found) <= 38


def test_a_search_cut_short_says_that_it_proves_nothing() -> None:
    given = next(t for t in map(task, range(40)) if (full := find(t, 10**6)) and full.proven)
    cut = find(given, most_looked_at=4)
    assert cut is None or not cut.proven


def test_exchanges_bring_a_search_that_was_cut_short_nearer_to_the_best() -> None:
    """And never break a rule."""
    gained = 0
    for given in map(task, range(40)):
        cut, full = find(given, most_looked_at=12), find(given, most_looked_at=10**6)
        if cut is None or full is None:
            continue
        assert broken(given, cut.blocks) == ()
        assert cut.score == score(given, cut.blocks) <= full.score
        gained += cut.score == full.score
    assert gained >= 10
