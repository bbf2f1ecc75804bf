"""Two unequal loads: the plan that gives both sides the same work, worked by hand."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sitegen.notation import Dose, Load
from sitegen.study.rotation import rotation, rotations
from sitegen.study.span import Span
from tests.study.series_parts import item

TWO_KG_APART = Load.parse("6 kg + 4 kg")

# sets, dose, (amount with the heavier load left, right) of each set, residual in kg times the unit
PLANS = {
    "two sets": (2, "8", [(8, 0), (0, 8)], 0),
    "four sets": (4, "8", [(8, 0), (0, 8), (8, 0), (0, 8)], 0),
    "three sets": (3, "8", [(8, 0), (0, 8), (4, 4)], 0),
    "one set": (1, "10", [(5, 5)], 0),
    "five sets": (5, "6", [(6, 0), (0, 6), (6, 0), (0, 6), (3, 3)], 0),
    # the fifth repetition of the last set stays with the left: 1 x 2 kg
    "three sets of odd repetitions": (3, "9", [(9, 0), (0, 9), (5, 4)], 2),
    "one set of one repetition": (1, "1", [(1, 0)], 2),
    "two sets of odd repetitions": (2, "9", [(9, 0), (0, 9)], 0),
    "a range goes by its high end": (3, "8-12", [(12, 0), (0, 12), (6, 6)], 0),
    "steps": (3, "40 steps", [(40, 0), (0, 40), (20, 20)], 0),
    "seconds can be halved": (3, "35 s", [(35, 0), (0, 35), (17.5, 17.5)], 0),
    "each side: swap with the side": (2, "8 each side", [(8, 8), (8, 8)], 0),
    "each side, odd": (3, "7 each side", [(7, 7), (7, 7), (7, 7)], 0),
    "split: swap at the pause, then begin on the other side": (2, "8 + 7", [(8, 7), (7, 8)], 0),
    "split, odd sets": (3, "8 + 5", [(8, 5), (5, 8), (7, 6)], 2),
}


@pytest.mark.parametrize(("sets", "dose", "shares", "residual"), PLANS.values(), ids=PLANS)
def test_plan_worked_by_hand(sets, dose, shares, residual):
    plan = rotation(sets, Dose.parse(dose), TWO_KG_APART)

    assert [(one.left, one.right) for one in plan.sets] == shares
    assert [one.number for one in plan.sets] == list(range(1, sets + 1))
    assert plan.residual == residual


def test_the_heavier_load_begins_on_the_left_and_then_changes_every_set():
    plan = rotation(5, Dose.parse("8"), TWO_KG_APART)

    assert [one.begins for one in plan.sets] == ["left", "right", "left", "right", "left"]


@pytest.mark.parametrize(
    ("dose", "unit"), [("8", "reps"), ("20 steps", "steps"), ("30 s", "seconds"), ("5 breaths", "breaths")]
)
def test_unit_of_the_plan(dose, unit):
    assert rotation(2, Dose.parse(dose), TWO_KG_APART).unit == unit


@pytest.mark.parametrize(
    ("dose", "load"),
    [("8", "2 x 5 kg"), ("8", "5 kg"), ("8", "1 kg + 1000 g"), ("max", "6 kg + 4 kg")],
    ids=["the same load", "a single load", "the same in other units", "no known amount"],
)
def test_no_plan_where_none_is_needed_or_possible(dose, load):
    assert rotation(3, Dose.parse(dose), Load.parse(load)) is None


def test_a_plan_for_each_number_of_sets_allowed():
    plans = rotations(item("carry 8", load="5 l water + 3 l water"), Span(2, 3))

    assert [len(plan.sets) for plan in plans] == [2, 3]


@pytest.mark.parametrize("written", [item("carry 8"), item("carry", load="6 kg + 4 kg")])
def test_no_plans_without_load_or_dose(written):
    assert rotations(written, Span(2, 3)) == ()


@settings(deadline=None)
@given(st.integers(1, 12), st.integers(1, 40), st.booleans())
def test_sides_are_equal_as_far_as_whole_repetitions_allow(sets, reps, per_side):
    plan = rotation(sets, Dose.parse(f"{reps} each side" if per_side else f"{reps}"), TWO_KG_APART)

    amount = sets * reps * (2 if per_side else 1)
    assert plan.left + plan.right == amount
    assert plan.left - plan.right == amount % 2
