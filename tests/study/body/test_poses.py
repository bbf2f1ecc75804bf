"""What a pose leaves unsaid, what a variant takes over, and where that puts the body."""

import pytest

from sitegen.model import Poses, Sides
from sitegen.study.body.pose import complete, inherited, merged
from sitegen.study.body.soundness import troubles
from tests.study.body.posing import moved

MERGES = {
    "what is left out stays": ({"lean": 20.0}, {"knees": 90.0}, {"lean": 20.0, "knees": 90.0}),
    "one side changes, the other stays": (
        {"knees": 10.0},
        {"knees": Sides(None, 90.0)},
        {"knees": Sides(10.0, 90.0)},
    ),
    "angles of an arm free a hand that rested on the body": (
        {"hands": "hips"},
        {"shoulders": 90.0},
        {"shoulders": 90.0},
    ),
    "angles of one arm free that hand only": (
        {"hands": "hips"},
        {"shoulders": Sides(None, 90.0)},
        {"hands": Sides("hips", None), "shoulders": Sides(None, 90.0)},
    ),
    "a hand on a thing stays there": (
        {"hands": "counter"},
        {"elbows": 90.0},
        {"hands": "counter", "elbows": 90.0},
    ),
    "a new place forgets the angles of the arm": (
        {"shoulders": 90.0, "elbows": 10.0},
        {"hands": "chest"},
        {"hands": "chest"},
    ),
    "a new base keeps arms and load, and forgets the rest": (
        {"base": "standing", "lean": 60.0, "shoulders": 90.0, "holds": {"tin": "each hand"}},
        {"base": "seated"},
        {"base": "seated", "shoulders": 90.0, "holds": {"tin": "each hand"}},
    ),
}


@pytest.mark.parametrize(("before", "after", "together"), MERGES.values(), ids=MERGES)
def test_a_later_pose_says_only_what_changes(before, after, together):
    assert merged(before, after) == together


def test_a_variant_says_only_what_differs_from_its_parent():
    parent = Poses(start={"holds": {"tin": "each hand"}}, finish={"elbows": 130.0})

    variant = inherited(parent, Poses(start={"base": "seated"}))

    assert variant == Poses(start={"base": "seated", "holds": {"tin": "each hand"}}, finish={"elbows": 130.0})


def test_a_variant_may_hold_what_its_parent_moves_through():
    parent = Poses(start={"base": "plank"}, finish={"elbows": 90.0})

    assert inherited(parent, Poses(held=True)) == Poses(start={"base": "plank"}, held=True)


FEET = {
    "an angle of the hip lifts that foot": ({"hips": Sides(None, 90.0)}, ("floor", "lifted")),
    "unless the foot is said to stand": (
        {"hips": Sides(None, 90.0), "feet": Sides(None, "step")},
        ("floor", "step"),
    ),
    "both hips of a plank bend the body": ({"base": "plank", "hips": 80.0}, ("floor", "floor")),
}


@pytest.mark.parametrize(("said", "feet"), FEET.values(), ids=FEET)
def test_which_foot_is_lifted(said, feet):
    assert complete(said).feet == feet


SOUND = {
    # The poses, and a fact about the last figure: which point, which coordinate, between which centimetres.
    "a squat keeps its feet where they were": ("start: {}\nfinish: {knees: 90, lean: 40}", "ankle", 0, -1, 1),
    "hips sink by the bend of the knees": ("start: {}\nfinish: {knees: 90, lean: 40}", "pelvis", 1, 55, 72),
    "a seated figure sits on the seat": ("hold: {base: seated}", "pelvis", 1, 50, 55),
    "a raised seat is higher": ("hold: {base: seated, seat: raised chair}", "pelvis", 1, 58, 63),
    "hands of a push-up stay on the counter": (
        "start: {base: plank, hands: counter}\nfinish: {elbows: 95}",
        "hand",
        1,
        92.5,
        93.5,
    ),
    "a bridge lifts the hips": (
        "start: {base: lying, knees: 95}\nfinish: {base: bridge}",
        "pelvis",
        1,
        24,
        40,
    ),
    "a jump leaves the floor": ("start: {}\nfinish: {lift: 10}", "ankle", 1, 15, 18),
}


@pytest.mark.parametrize(("text", "point", "axis", "least", "most"), SOUND.values(), ids=SOUND)
def test_where_a_pose_puts_the_body(text, point, axis, least, most):
    figure = moved(text).finish
    places = {"ankle": figure.legs[1].ankle, "pelvis": figure.pelvis, "hand": figure.arms[1].hand}

    assert least <= places[point][axis] <= most
    assert troubles(figure) == []


def test_the_hands_stay_where_they_are_while_the_elbows_bend():
    movement = moved("start: {base: plank}\nfinish: {elbows: 95}")

    assert movement.finish.arms[1].hand == pytest.approx(movement.start.arms[1].hand, abs=0.5)
    assert movement.finish.arms[1].bend == pytest.approx(95, abs=2)
    assert movement.finish.chest[1] < movement.start.chest[1] - 15


def test_a_standing_figure_balances_over_its_feet():
    """However far the trunk leans, the hips go back until the weight is over the feet."""
    for lean in range(0, 91, 15):
        assert troubles(moved(f"hold: {{knees: 25, lean: {lean}}}").start) == []


TROUBLES = {
    "a foot that cannot reach": (
        "hold: {step: {right: 110}, knees: {left: 4}, feet: floor, weight: 0}",
        "reach",
    ),
    "a hand that cannot reach": ("hold: {hands: counter, distance: 120}", "reach"),
    "a knee below the floor": ("hold: {base: seated, hips: {right: -30}, knees: {right: 0}}", "ground"),
    "a figure that falls": ("hold: {shift: 40}", "falls"),
    "a carrier in the floor": ("hold: {knees: 110, lean: 40, holds: {carrier: each hand}}", "ground"),
}


@pytest.mark.parametrize(("text", "kind"), TROUBLES.values(), ids=TROUBLES)
def test_what_a_body_cannot_do_is_told(text, kind):
    assert kind in {trouble.kind for trouble in troubles(moved(text).start)}


def test_by_how_much_it_falls():
    """The hips carried 20 cm forward take the weight along; the foot ends 18 cm ahead of the ankle."""
    (trouble,) = troubles(moved("hold: {shift: 20}").start)

    assert (trouble.kind, trouble.what) == ("falls", "forwards")
    assert 2 < trouble.amount < 14
