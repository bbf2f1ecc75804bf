"""What a movement is about, told from its poses alone."""

import pytest

from sitegen.model import Series
from sitegen.study.body.movement import movement_of
from sitegen.study.body.subject import subject_of
from sitegen.study.forms import FormKey, forms_of
from tests.study.body.posing import moved

SUBJECTS = {
    "high-knee-march": ("knee lifts", "turn"),
    "high-knee-march/chair-held-high-knees": ("knee lifts", "turn"),
    "march-in-place/hand-on-counter-march": ("foot lifts", "turn"),
    "side-plank": ("side hips lift", "both"),
    "backpack-row": ("elbow draws back", "both"),
    "bent-over-row": ("elbow draws back", "one"),
    "sumo-squat": ("knees bend", "both"),
    "carrier-deadlift": ("rises from the hips", "both"),
    "broom-hinge": ("hinges", "both"),
    "single-leg-deadlift": ("tips over one leg", "one"),
    "glute-bridge/single-leg-bridge": ("hips lift", "one"),
    "towel-row/one-arm-towel-row": ("pulls the chest in", "one"),
    "bird-dog": ("arm and leg reach", "one"),
    "standing-cat-camel": ("back rounds", "both"),
    "towel-pulldown": ("elbow pulls down", "both"),
    "tin-press": ("hand presses up", "both"),
    "tin-lateral-raise": ("arm lifts aside", "both"),
    "calf-raise": ("heels lift", "both"),
    "reverse-lunge": ("lunges back", "one"),
    "lateral-lunge": ("lunges aside", "one"),
    "step-up": ("rises onto the step", "one"),
    "chair-squat": ("sits down", "both"),
    "counter-push-up": ("chest comes close", "both"),
    "broom-rotation": ("chest turns", "one"),
    "suitcase-carry": ("walk", "turn"),
    "side-lying-leg-raise": ("upper leg lifts", "one"),
}


@pytest.mark.parametrize("name", SUBJECTS)
def test_the_subject_of_a_named_movement(name: str, demo_series: Series):
    exercise, _, variant = name.partition("/")
    movement = movement_of(forms_of(demo_series.exercises)[FormKey(exercise, variant or None)].poses)

    assert movement is not None
    assert subject_of(movement) == SUBJECTS[name]


@pytest.mark.parametrize(
    "poses",
    [
        pytest.param("start: {}\nfinish: {lift: 10}", id="a jump, whose way two ends do not tell"),
        pytest.param("start: {}\nthrough: [{knees: 90}]\nfinish: {}", id="what happens on the way"),
        pytest.param("start: {}\nfinish: {shoulders: {right: 90, left: -40}}", id="arms that do two things"),
        pytest.param("start: {turn: -30, shoulders: 150}\nfinish: {turn: 30, shoulders: 20}", id="a chop"),
        pytest.param(
            "start: {}\nfinish: {out: {right: 60}, shoulders_out: 150}", id="a step with both arms thrown up"
        ),
        pytest.param(
            "start: {base: seated, hands: thighs}\n"
            "finish: {hands: {right: thighs}, presses: {right hand: down}, shoulders: {left: 40}}",
            id="a hand that presses",
        ),
    ],
)
def test_what_is_not_certain_has_no_subject(poses: str):
    assert subject_of(moved(poses)) is None


def test_a_hand_that_holds_on_is_no_subject():
    """It moves against the trunk that tips, and the trunk is what moves."""
    hinge = "start: {hands: {right: counter}}\nfinish: {lean: 50, knees: 15, hands: {right: counter}}"

    assert subject_of(moved(hinge)) == ("hinges", "both")
