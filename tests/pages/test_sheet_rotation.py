"""The plan for two unequal loads in words, against plans worked out by hand."""

from pathlib import Path

import pytest

from sitegen.notation import Dose, Load
from sitegen.pages.phrases import Phrases
from sitegen.pages.rotation import rotation_words
from sitegen.pages.theme import Theme
from sitegen.resources import themes_folder
from sitegen.study.span import Span
from tests.study.series_parts import item

STRINGS = Theme(Path(themes_folder()) / "tidewater", "en").strings
PHRASES = Phrases(STRINGS, "metric")


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
            "5 kg + 3 kg",
            (3, 3),
            "set 1 left · set 2 right · set 3 left 5, then right 4 (left does 1 rep more)",
            id="odd repetitions leave one over",
        ),
        pytest.param(
            "30 s", "5 kg + 3 kg", (1, 1), "set 1 left 15 s, then right 15 s", id="seconds are cut in half"
        ),
        pytest.param(
            "8 each side",
            "5 kg + 3 kg",
            (2, 2),
            "set 1 left 8, then right 8 · set 2 right 8, then left 8",
            id="each side has its turn within a set",
        ),
        pytest.param(
            "40 steps",
            "5 kg + 3 kg",
            (2, 3),
            "2 sets: set 1 left · set 2 right; "
            "3 sets: set 1 left · set 2 right · set 3 left 20, then right 20",
            id="a plan for either number of sets",
        ),
        pytest.param("max", "5 kg + 3 kg", (3, 3), "", id="nothing to halve where the amount is open"),
    ],
)
def test_plans_are_said_set_by_set(dose: str, load: str, sets: tuple[int, int], words: str) -> None:
    one = item(f"carry {dose}", load=load)
    assert rotation_words(one, one.dose, Span(*sets), STRINGS, PHRASES) == words


def test_another_form_is_planned_with_its_own_dose() -> None:
    one = item("carry 8", load="5 kg + 3 kg")
    assert one.load == Load.parse("5 kg + 3 kg")
    plan = rotation_words(one, Dose.parse("6"), Span(1, 1), STRINGS, PHRASES)
    assert plan == "set 1 left 3, then right 3"
