"""Demands from poses: one pose that has each, and one just short of it."""

import pytest

from sitegen.study.body.derived import RULES, derived_demands
from sitegen.vocabulary import SHOWN_BY_POSES
from tests.study.body.posing import moved

CASES = {
    "jumping": ("start: {}\nfinish: {lift: 5}", "start: {}\nfinish: {heels: 30}"),
    "arms overhead": ("hold: {shoulders: 170}", "hold: {shoulders: 80}"),
    "shoulder load": (
        "hold: {shoulders_out: 80, holds: {tin: each hand}}",
        "hold: {lean: 60, knees: 20, holds: {carrier: each hand}}",
    ),
    "kneeling": ("hold: {base: half kneeling}", "hold: {step: {right: 40, left: -30}}"),
    "getting to the floor": ("hold: {base: lying}", "hold: {base: lying, seat: bed}"),
    "deep knee bend": (
        "start: {}\nfinish: {knees: 95, lean: 40}",
        "start: {}\nfinish: {knees: 60, lean: 30}",
    ),
    "balance on one leg": (
        "hold: {hips: {right: 90}, knees: {right: 90}}",
        "hold: {hips: {right: 45}, knees: {right: 65}}",
    ),
    "rounding the spine": ("hold: {lean: 30, round: 60}", "hold: {lean: 40, round: 10}"),
    "sustained bending": (
        "start: {lean: 60, knees: 20}\nfinish: {hands: belly}",
        "start: {}\nfinish: {lean: 60, knees: 20}",
    ),
    "grip": ("hold: {holds: {carrier: right hand}}", "hold: {hands: chest, holds: {backpack: chest}}"),
    "weight on the wrists": ("hold: {base: plank}", "hold: {base: plank, forearms: floor}"),
    "lying flat": ("hold: {base: side lying}", "hold: {base: all fours}"),
    "standing": ("hold: {base: back to the wall, knees: 90}", "hold: {base: seated}"),
    "stairs and steps": (
        "start: {feet: {right: step}, step: {right: 38}}\nfinish: {feet: step, step: {right: 38, left: 38}}",
        "start: {feet: {left: step}, step: {left: -40, right: 30}}\nfinish: {knees: {right: 80}}",
    ),
    "twisting under load": (
        "start: {hands: chest, holds: {backpack: chest}}\nfinish: {turn: 40}",
        "start: {hands: chest}\nfinish: {turn: 40}",
    ),
    "lifting from the floor": (
        "start: {knees: 58, lean: 60, holds: {carrier: each hand}}\nfinish: {knees: 3, lean: 0}",
        "hold: {holds: {carrier: each hand}}",
    ),
    "head low": ("hold: {base: plank, hips: 78, shoulders: 168}", "hold: {base: lying}"),
    "leaning on the arms": ("hold: {base: plank, hands: wall}", "hold: {hands: counter}"),
}


def test_every_rule_has_a_case_and_is_a_word_of_the_vocabulary():
    assert set(CASES) == set(RULES)
    assert set(RULES) == SHOWN_BY_POSES


@pytest.mark.parametrize("word", CASES)
def test_a_pose_that_asks_for_it_and_one_that_does_not(word):
    has, lacks = CASES[word]

    assert word in derived_demands(moved(has))
    assert word not in derived_demands(moved(lacks))
