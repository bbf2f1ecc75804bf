"""Doses that change from set to set: ladders, pyramids, drop sets."""

from itertools import product

import pytest

from sitegen.notation import Dose, DoseChange, Load, NotationError
from sitegen.study.progression import points_of
from sitegen.study.recovery import is_hard
from sitegen.study.rotation import rotation, rotations
from sitegen.study.span import Span
from sitegen.study.timing import block_time, item_sets
from sitegen.study.volume import counted_items
from tests.study.series_parts import block, details, episode, exercise, forms, item

LIBRARY = forms(exercise("row", prime=["upper back"]), exercise("press", prime=["chest"]))


def straight(*doses: str, **more: object):
    """Straight sets of a row with these doses."""
    written = ", then ".join(doses)
    return block("straight sets", item(f"row {written}", **more), sets=str(len(doses)))


def test_a_ladder_takes_as_long_as_its_sets_one_by_one() -> None:
    # 3 s a repetition (tempo 2-0-1-0), 60 s between sets: 30 repetitions and two rests.
    time = block_time(details(), LIBRARY, straight("12", "10", "8"))
    assert time.work == Span(90, 90)
    assert time.rest == Span(120, 120)


@pytest.mark.parametrize(
    "doses",
    [("12", "10", "8"), ("8 each side", "6 each side"), ("30 s", "20 s", "10 s", "40 s"), ("8-12", "6-8")],
)
def test_the_whole_is_the_sum_of_single_sets(doses: tuple[str, ...]) -> None:
    together = block_time(details(), LIBRARY, straight(*doses))
    apart = [block_time(details(), LIBRARY, straight(dose)) for dose in doses]
    assert together.work.low == pytest.approx(sum(one.work.low for one in apart))
    assert together.work.high == pytest.approx(sum(one.work.high for one in apart))


def test_progression_adds_up_the_sets() -> None:
    [(_, point)] = points_of(details(), LIBRARY, episode(1, straight("12", "10", "8")))
    assert (point.sets, point.amount, point.unit) == (Span(3, 3), Span(30, 30), "reps")


def test_volume_counts_every_set() -> None:
    [one] = counted_items(details(), LIBRARY, episode(1, straight("12", "10", "8")))
    assert one.sets == Span(3, 3)


def test_the_hardest_set_decides_whether_it_is_hard() -> None:
    kinds = {"12, 4 in reserve, then 8, 1 in reserve": True, "12, 5 in reserve, then 8, 4 in reserve": False}
    for written, hard in kinds.items():
        [one] = counted_items(
            details(), LIBRARY, episode(1, block("straight sets", item(f"row {written}"), sets="2"))
        )
        assert is_hard(one) is hard


HEAVY = Load.parse("5 kg + 3 kg")


@pytest.mark.parametrize(
    "doses", [list(amounts) for n in (2, 3, 4) for amounts in product((4, 7, 10), repeat=n)], ids=str
)
def test_unequal_loads_are_shared_out_as_evenly_as_can_be(doses: list[int]) -> None:
    """Brute force over hands, with one set that may be cut anywhere: nothing comes nearer to even."""
    plan = rotation([Dose(kind="count", low=n, high=n) for n in doses], HEAVY)
    assert plan is not None
    done = {"left": 0.0, "right": 0.0}
    for one in plan.sets:
        for stretch in one.stretches:
            done[stretch.hand] += stretch.amount.low if stretch.amount else 0
    assert sum(done.values()) == sum(doses)
    assert done["left"] - done["right"] == plan.over
    best = min(
        abs(sum(signs[i] * n for i, n in enumerate(doses) if i != cut) + 2 * k - doses[cut])
        for signs in product((1, -1), repeat=len(doses))
        for cut in range(len(doses))
        for k in range(doses[cut] + 1)
    )
    assert abs(plan.over) == best


def test_sets_of_different_ranges_are_each_shared_in_themselves() -> None:
    [plan] = rotations(
        straight("8-12", "6-8", load="5 kg + 3 kg"),
        item("row 8-12, then 6-8", load="5 kg + 3 kg"),
        Span(2, 2),
    )
    assert [one.equal for one in plan.sets] == [True, True]
    assert all(len(one.stretches) == 2 for one in plan.sets)


def test_a_variant_changes_every_set() -> None:
    ladder = Dose.parse("12, then 10, then 8")
    assert str(DoseChange.parse("half").apply(ladder)) == "6, then 5, then 4"
    assert str(DoseChange.parse("-2").apply(ladder)) == "10, then 8, then 6"


@pytest.mark.parametrize("doses", [["8", "30 s"], ["8 each side", "8"], ["20 m", "20 steps"]])
def test_sets_that_measure_different_things_are_refused(doses: list[str]) -> None:
    with pytest.raises(NotationError, match="measure different things"):
        Dose.of_sets([Dose.parse(dose) for dose in doses])


def test_a_superset_counts_rounds() -> None:
    pair = block("superset", item("row 12, then 10"), item("press 8, then 6"), sets="2")
    assert item_sets(details(), LIBRARY, pair) == (Span(2, 2), Span(2, 2))
