"""The plan for two unequal loads in words, against plans worked out by hand."""

from pathlib import Path

import pytest

from sitegen.notation import Dose
from sitegen.pages.phrases import Phrases
from sitegen.pages.rotation_words import RotationWords
from sitegen.pages.theme import Theme
from sitegen.resources import themes_folder
from sitegen.study.rotation import RIGHT
from sitegen.study.span import Span
from tests.spaces import spaced
from tests.study.series_parts import block, item

STRINGS = Theme(Path(themes_folder()) / "tidewater", "en").strings
WORDS = RotationWords(STRINGS, Phrases(STRINGS))
UNEVEN = "5 kg + 3 kg"


@pytest.mark.parametrize(
    ("dose", "load", "sets", "words"),
    [
        pytest.param("8", "2 x 5 l water", (3, 3), "", id="equal loads need no plan"),
        pytest.param("8", "5 l water", (3, 3), "", id="one load needs no plan"),
        pytest.param(
            "8", "5 l water + 3 l water", (2, 2), "set 1 left · set 2 right", id="even sets swap each set"
        ),
        pytest.param(
            "8",
            "5 l water + 3 l water",
            (3, 3),
            "set 1 left · set 2 right · set 3 left 4, then right 4",
            id="odd sets swap half way through the last",
        ),
        pytest.param(
            "9",
            UNEVEN,
            (3, 3),
            "set 1 left · set 2 right · set 3 left 5, then right 4 (left does 1 rep more)",
            id="odd repetitions leave one over",
        ),
        pytest.param(
            "8-12",
            UNEVEN,
            (3, 3),
            "set 1 left · set 2 right, as many · set 3 left 4–6, then right as many",
            id="a range holds at both ends",
        ),
        pytest.param(
            "8-12 each side", UNEVEN, (1, 1), "set 1 left 8–12, then right as many", id="a range on each side"
        ),
        pytest.param(
            "8 + 7",
            UNEVEN,
            (1, 1),
            "set 1 left 8, then right 7 (left does 1 rep more)",
            id="a split swaps at its pause",
        ),
        pytest.param(
            "5 + 4 + 3",
            UNEVEN,
            (1, 1),
            "set 1 left 5, then right 7 (right does 2 reps more)",
            id="a split in three at one of its pauses",
        ),
        pytest.param(
            "8 + 7 each side", UNEVEN, (1, 1), "set 1 left 15, then right 15", id="sides before pauses"
        ),
        pytest.param(
            "30 s", UNEVEN, (1, 1), "set 1 left 15 s, then right 15 s", id="seconds are cut in half"
        ),
        pytest.param(
            "30-45 s", UNEVEN, (1, 1), "set 1 left 15–22 s, then right as long", id="a range of seconds"
        ),
        pytest.param("25 m", UNEVEN, (1, 1), "set 1 left 12.5 m, then right 12.5 m", id="metres"),
        pytest.param(
            "20-30 m", UNEVEN, (2, 2), "set 1 left · set 2 right, as far", id="as far as the time before"
        ),
        pytest.param(
            "41 steps",
            UNEVEN,
            (1, 1),
            "set 1 left 21, then right 20 (left does 1 step more)",
            id="a step left over",
        ),
        pytest.param(
            "8 each side",
            UNEVEN,
            (2, 2),
            "set 1 left 8, then right 8 · set 2 right 8, then left 8",
            id="each side has its turn within a set",
        ),
        pytest.param(
            "40 steps",
            UNEVEN,
            (2, 3),
            "2 sets: set 1 left · set 2 right; "
            "3 sets: set 1 left · set 2 right · set 3 left 20, then right 20",
            id="a plan for either number of sets",
        ),
        pytest.param("max", UNEVEN, (2, 2), "set 1 left · set 2 right, as many", id="max in pairs"),
        pytest.param(
            "max, 2 in reserve",
            UNEVEN,
            (3, 3),
            "set 1 left · set 2 right, as many · "
            "set 3 left, change hands every 3 reps (at most 3 reps apart)",
            id="max alone changes hands again and again",
        ),
    ],
)
def test_plans_are_said_set_by_set(dose: str, load: str, sets: tuple[int, int], words: str) -> None:
    one = item(f"carry {dose}", load=load)
    assert spaced(WORDS.plan(block("straight sets", one), one, Span(*sets))) == words


def test_rounds_without_a_number_are_told_as_odd_and_even() -> None:
    one = item("carry 9", load=UNEVEN)
    rounds = block("as many rounds as possible", one, time="8 min")

    assert spaced(WORDS.plan(rounds, one, Span(4, 7))) == (
        "odd rounds left 5, then right 4 · even rounds right 5, then left 4 (left does 1 rep more)"
    )


def test_another_form_is_planned_with_its_own_dose() -> None:
    one = item("carry 8", load=UNEVEN)
    plan = WORDS.plan(block("straight sets", one), one, Span(1, 1), dose=Dose.parse("6"))
    assert plan == "set 1 left 3, then right 3"


def test_the_right_hand_may_begin() -> None:
    one = item("carry 9", load=UNEVEN)
    plan = WORDS.plan(block("straight sets", one), one, Span(1, 1), RIGHT)
    assert spaced(plan) == "set 1 right 5, then left 4 (right does 1 rep more)"
