"""What the demo's needs promise in their advice, against every form that they are offered.

The two words that the demo declares for it are judged here: ``facing the floor`` by the drawn body, and
``sitting unsupported`` by what the cues say.
"""

import re

import pytest

from sitegen.model import Series
from sitegen.study.body.figure import Figure
from sitegen.study.body.movement import movement_of
from sitegen.study.forms import Form, forms_of

FACING = "facing the floor"
TIPPED = 0.707
"""Height of a unit vector along a trunk that is tipped by 45 degrees, as the series' sentence says."""
ON_THE_BACK_OR_SIDE = ("lying", "bridge", "side lying", "side plank")
FEET_OR_FREE_TRUNK = re.compile(
    r"\b(foot|feet|toes?|heels?|legs?|knees?|stand\w*|front (half|edge|of the seat)|free of the back)\b",
    re.I,
)


def offered(series: Series, need: str) -> list[Form]:
    """Forms that ask for nothing the need avoids."""
    avoided = series.details.needs[need].avoids
    return [form for form in forms_of(series.exercises).values() if not set(avoided) & set(form.demands)]


def faces_the_floor(figure: Figure) -> bool:
    base = figure.pose.base
    if base in ON_THE_BACK_OR_SIDE:
        return False
    return base in ("lying face down", "all fours") or figure.chest_frame.up[1] < TIPPED


def test_a_form_faces_the_floor_where_its_drawing_does(demo_series: Series) -> None:
    wrong = []
    for form in forms_of(demo_series.exercises).values():
        movement = movement_of(form.poses)
        if movement is None or movement.start.pose.base == "hanging back" or form.link:
            continue
        drawn = any(map(faces_the_floor, movement.figures))
        if drawn != (FACING in form.demands):
            wrong.append((form.key, drawn))

    assert wrong == []


def test_nobody_who_must_not_strain_is_tipped_over(demo_series: Series) -> None:
    for form in offered(demo_series, "no-straining"):
        movement = movement_of(form.poses)
        assert movement is None or not any(map(faces_the_floor, movement.figures)), form.key


def test_no_cue_for_a_wheelchair_speaks_of_feet_or_a_free_trunk(demo_series: Series) -> None:
    told = [(form.key, cue) for form in offered(demo_series, "wheelchair") for cue in form.cues]

    assert [(key, cue) for key, cue in told if FEET_OR_FREE_TRUNK.search(cue)] == []


@pytest.mark.parametrize("word", ["sitting unsupported", FACING])
def test_the_words_are_those_of_the_demo(demo_series: Series, word: str) -> None:
    assert word in demo_series.details.demand_sentences
