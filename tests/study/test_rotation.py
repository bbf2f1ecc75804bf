"""Two unequal loads: the plan that gives both sides the same work, by hand and against brute force."""

import itertools
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sitegen.notation import Dose, Load
from sitegen.study.rotation import EVERY, LEFT, RIGHT, Rotation, first_hands, rotation, rotations
from sitegen.study.span import Span
from tests.study.series_parts import block, details, episode, exercise, forms, item

TWO_KG_APART = Load.parse("6 kg + 4 kg")


def planned(sets: int, dose: str, **more: object) -> Rotation:
    plan = rotation([Dose.parse(dose)] * sets, TWO_KG_APART, **more)
    assert plan is not None
    return plan


def written(plan: Rotation) -> list[str]:
    """``L8``, ``L4 R4``; ``=`` for as many as before, ``/3`` for a change every three."""
    found = []
    for one in plan.sets:
        parts = []
        for stretch in one.stretches:
            span = stretch.amount
            amount = (
                "" if span is None else f"{span.low:g}" + (f"-{span.high:g}" if span.high > span.low else "")
            )
            parts.append(stretch.hand[0].upper() + amount)
        found.append(" ".join(parts) + ("=" if one.equal else "") + (f"/{one.every}" if one.every else ""))
    return found


# sets, dose, sets as planned, what the left does more
PLANS = {
    "two sets": (2, "8", ["L8", "R8"], 0),
    "four sets": (4, "8", ["L8", "R8", "L8", "R8"], 0),
    "three sets": (3, "8", ["L8", "R8", "L4 R4"], 0),
    "one set": (1, "10", ["L5 R5"], 0),
    "five sets": (5, "6", ["L6", "R6", "L6", "R6", "L3 R3"], 0),
    # the fifth repetition of the last set stays with the left
    "three sets of odd repetitions": (3, "9", ["L9", "R9", "L5 R4"], 1),
    "one set of one repetition": (1, "1", ["L1"], 1),
    "two sets of odd repetitions": (2, "9", ["L9", "R9"], 0),
    "a range: pairs of the same length": (2, "8-12", ["L8-12", "R8-12="], 0),
    "a range: the last in equal halves": (3, "8-12", ["L8-12", "R8-12=", "L4-6 R4-6="], 0),
    "a narrow range has one even number": (1, "7-8", ["L4 R4="], 0),
    "a range with odd ends": (1, "7-11", ["L4-5 R4-5="], 0),
    "steps": (3, "40 steps", ["L40", "R40", "L20 R20"], 0),
    "odd steps": (1, "41 steps", ["L21 R20"], 1),
    "seconds can be halved": (3, "35 s", ["L35", "R35", "L17.5 R17.5"], 0),
    "a range of seconds": (1, "30-45 s", ["L15-22 R15-22="], 0),
    "metres": (1, "25 m", ["L12.5 R12.5"], 0),
    "each side: swap with the side": (2, "8 each side", ["L8 R8", "R8 L8"], 0),
    "each side, odd": (3, "7 each side", ["L7 R7", "R7 L7", "L7 R7"], 0),
    "each side, a range": (1, "8-12 each side", ["L8-12 R8-12="], 0),
    "each side, a split": (1, "8 + 7 each side", ["L15 R15"], 0),
    "each side, max": (1, "max each side", ["L R="], 0),
    "a split: whole sets": (2, "8 + 7", ["L15", "R15"], 0),
    "a split: swap at the pause": (1, "8 + 7", ["L8 R7"], 1),
    "a split in three": (1, "5 + 4 + 3", ["L5 R7"], -2),
    "a split, odd sets": (3, "8 + 5", ["L13", "R13", "L8 R5"], 3),
    "max": (2, "max, 2 in reserve", ["L", "R="], 0),
    "max, odd sets": (3, "max", ["L", "R=", f"L/{EVERY}"], EVERY),
}


@pytest.mark.parametrize(("sets", "dose", "shares", "over"), PLANS.values(), ids=PLANS)
def test_plan_worked_by_hand(sets: int, dose: str, shares: list[str], over: float) -> None:
    plan = planned(sets, dose)

    assert written(plan) == shares
    assert [one.number for one in plan.sets] == list(range(1, sets + 1))
    assert abs(plan.over) == abs(over)
    assert plan.residual == plan.over * 2


def test_the_other_hand_first_is_the_same_plan_in_a_mirror() -> None:
    plan = planned(3, "9", first=RIGHT)

    assert written(plan) == ["R9", "L9", "R5 L4"]
    assert plan.over == -1


def test_rounds_without_a_number_are_shared_one_by_one() -> None:
    """However many rounds are done, no more is left over than in one of them."""
    plan = planned(7, "9", open_end=True)

    assert plan.repeats
    assert written(plan) == ["L5 R4", "R5 L4"]


def test_doses_may_differ_from_set_to_set() -> None:
    doses = [Dose.parse(dose) for dose in ("12", "10", "8")]
    plan = rotation(doses, TWO_KG_APART)

    assert plan is not None
    assert (written(plan), plan.over) == (["L12", "R10", "R5 L3"], 0)


@pytest.mark.parametrize(
    ("dose", "measure"),
    [("8", "reps"), ("20 steps", "steps"), ("30 s", "seconds"), ("5 breaths", "breaths"), ("30 m", "m")],
)
def test_measure_of_the_plan(dose: str, measure: str) -> None:
    assert planned(2, dose).measure == measure


@pytest.mark.parametrize(
    "load",
    ["2 x 5 kg", "5 kg", "1 kg + 1000 g", "5 l water + 5 kg"],
    ids=["the same load", "a single load", "the same in other units", "9 grams apart"],
)
def test_no_plan_where_none_is_needed(load: str) -> None:
    assert rotation([Dose.parse("8")] * 3, Load.parse(load)) is None


def test_a_plan_for_each_number_of_sets_allowed() -> None:
    one = item("carry 8", load="5 l water + 3 l water")

    assert [len(plan.sets) for plan in rotations(block("straight sets", one), one, Span(2, 3))] == [2, 3]


def test_intervals_are_planned_by_their_work_time() -> None:
    one = item("carry", load="6 kg + 4 kg")
    [plan] = rotations(block("intervals", one, work="40 s"), one, Span(1, 1))

    assert (written(plan), plan.measure) == (["L20 R20"], "seconds")


# --- against brute force -------------------------------------------------------------------------


def done(plan: Rotation, reps: list[int]) -> float:
    """Left minus right for somebody who does so many in each set, following the plan to the letter."""
    sides = {LEFT: 0.0, RIGHT: 0.0}
    for one, count in zip(plan.sets, reps, strict=True):
        if one.every:
            hands = itertools.cycle(
                [one.begins] * one.every + [RIGHT if one.begins == LEFT else LEFT] * one.every
            )
            for hand in itertools.islice(hands, count):
                sides[hand] += 1
        elif len(one.stretches) == 1:
            sides[one.begins] += count
        else:
            first, second = one.stretches
            sides[first.hand] += count / 2
            sides[second.hand] += count / 2
    return sides[LEFT] - sides[RIGHT]


@given(st.integers(1, 7), st.integers(1, 20), st.integers(1, 10), st.data())
def test_a_range_holds_wherever_in_it_one_stops(sets: int, low: int, more: int, data: st.DataObject) -> None:
    """In pairs as many as before, and in the set that is shared any even number in the range."""
    plan = planned(sets, f"{low}-{low + more}")
    pairs = [data.draw(st.integers(low, low + more)) for _ in range(sets // 2)]
    reps = [count for count in pairs for _ in range(2)]
    if sets % 2:
        half = plan.sets[-1].stretches[0].amount
        assert half is not None
        assert low <= 2 * half.low <= 2 * half.high <= low + more
        reps.append(2 * data.draw(st.integers(int(half.low), int(half.high))))

    assert done(plan, reps) == 0


@given(st.integers(1, 7), st.data())
def test_max_is_never_further_apart_than_it_says(sets: int, data: st.DataObject) -> None:
    plan = planned(sets, "max")
    pairs = [data.draw(st.integers(1, 40)) for _ in range(sets // 2)]
    reps = [count for count in pairs for _ in range(2)] + [data.draw(st.integers(1, 40))] * (sets % 2)

    assert abs(done(plan, reps)) <= abs(plan.over)


def every_way(parts: list[int]) -> Iterator[int]:
    """Left minus right for every choice of hands."""
    return (
        sum(sign * part for sign, part in zip(signs, parts, strict=True))
        for signs in itertools.product((1, -1), repeat=len(parts))
    )


def left_minus_right(plan: Rotation) -> float:
    return sum(
        (1 if stretch.hand == LEFT else -1) * stretch.amount.low
        for one in plan.sets
        for stretch in one.stretches
        if stretch.amount is not None
    )


@settings(deadline=None)
@given(st.integers(1, 4), st.lists(st.integers(1, 12), min_size=2, max_size=3))
def test_no_choice_of_hands_at_the_pauses_leaves_less_over(sets: int, parts: list[int]) -> None:
    plan = planned(sets, " + ".join(map(str, parts)))

    assert left_minus_right(plan) == plan.over
    assert abs(plan.over) == min(map(abs, every_way(parts * sets)))
    for one in plan.sets:
        # every change of hands is at a pause
        amounts = [stretch.amount.low for stretch in one.stretches if stretch.amount]
        pauses = list(itertools.accumulate(parts))
        assert set(itertools.accumulate(amounts)) <= set(pauses)


@settings(deadline=None)
@given(st.lists(st.integers(1, 30), min_size=1, max_size=8))
def test_with_one_set_shared_only_an_odd_repetition_is_left_over(reps: list[int]) -> None:
    """No plan does better: whole repetitions of an odd sum cannot come out even."""
    doses = [Dose.parse(str(count)) for count in reps]
    plan = rotation(doses, TWO_KG_APART)

    assert plan is not None
    assert left_minus_right(plan) == plan.over
    assert abs(plan.over) == sum(reps) % 2
    assert sum(len(one.stretches) - 1 for one in plan.sets) <= 1
    for one, count in zip(plan.sets, reps, strict=True):
        assert sum(s.amount.low for s in one.stretches if s.amount) == count


@given(st.integers(1, 12), st.integers(1, 40), st.booleans())
def test_sides_are_equal_as_far_as_whole_repetitions_allow(sets: int, reps: int, per_side: bool) -> None:
    plan = planned(sets, f"{reps} each side" if per_side else f"{reps}")

    assert left_minus_right(plan) == plan.over == (0 if per_side else sets * reps % 2)


# --- over a session ------------------------------------------------------------------------------

SHOWN = forms(exercise("carry"), exercise("lift"))


@settings(deadline=None)
@given(st.lists(st.tuples(st.integers(1, 5), st.integers(5, 12)), min_size=1, max_size=6))
def test_what_is_left_over_does_not_add_up(work: list[tuple[int, int]]) -> None:
    """However many exercises leave one repetition over, the session ends with one at most."""
    blocks = [
        block("straight sets", item(f"carry {reps}", load="6 kg + 4 kg"), sets=str(sets))
        for sets, reps in work
    ]
    one = episode(1, *blocks)
    hands = first_hands(details(), SHOWN, one)
    over = 0.0
    for place, (sets, _) in enumerate(work):
        [plan] = rotations(blocks[place], blocks[place].items[0], Span(sets, sets), hands[place, 0])
        over += plan.over

    assert abs(over) <= 1


def test_repetitions_and_seconds_are_weighed_apart() -> None:
    blocks = [
        block("straight sets", item("carry 9", load="6 kg + 4 kg")),
        block("straight sets", item("lift 8 + 5", load="6 kg + 4 kg"), item("carry 7", load="6 kg + 4 kg")),
        block("straight sets", item("carry 9", load="2 x 5 kg")),
    ]

    assert first_hands(details(), SHOWN, episode(1, *blocks)) == {(0, 0): LEFT, (1, 0): RIGHT, (1, 1): LEFT}
