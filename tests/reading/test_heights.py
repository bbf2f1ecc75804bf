"""How high the things of a series are: what is refused, and what follows for drawings, demands and loads."""

from pathlib import Path

import pytest

from sitegen.model import Series
from sitegen.pages.drawings.picture import pictures
from sitegen.reading.reader import read_series
from sitegen.study.body.derived import derived_demands
from sitegen.study.body.moments import hardest
from sitegen.study.body.movement import Movement, movement_of
from sitegen.study.forms import FormKey, forms_of
from tests.folders import SeriesFolder

SQUAT = "exercises/chair-squat.yaml"
POSES = "poses:\n  start: {}\n  finish: {base: seated, lean: 20}\nvariants:\n"


@pytest.fixture
def series(tmp_path: Path) -> SeriesFolder:
    return SeriesFolder(tmp_path)


SLIPS = {
    # id: (heights with ¦ where the place must point, part of the message, of the advice)
    "no chair is so high": ("{chair: ¦90 cm}", "90 cm is not the height of a chair", "write 30 to 60 cm"),
    "no height": ("{counter: ¦2 kg}", "'2 kg' is not a height", "90 cm"),
    "no thing of the poses": ("{¦stool: 40 cm}", "'stool'", "chair"),
    "no unit": ("{step: ¦20}", "'20' is not a height", "17.8 cm"),
}


@pytest.mark.parametrize(("text", "message", "advice"), SLIPS.values(), ids=SLIPS)
def test_a_slip_is_told_with_its_place(series: SeriesFolder, text: str, message: str, advice: str) -> None:
    place = series.spoil("series.yaml", "kit:\n", f"heights: {text}\nkit:\n")

    (problem,) = series.problems()

    assert (problem.file, problem.line, problem.column) == ("series.yaml", *place)
    assert message in problem.message
    assert advice in problem.advice


def squat(series: SeriesFolder, heights: str = "", variant: str | None = None) -> Movement:
    """The squat to a chair, in a home with these heights."""
    if heights:
        series.edit("series.yaml", "kit:\n", f"heights: {heights}\nkit:\n")
    read: Series = read_series(series.root)
    movement = movement_of(forms_of(read.exercises)[FormKey("chair-squat", variant)].poses)
    assert movement is not None
    return movement


def test_a_higher_chair_is_drawn_asks_less_and_no_deep_bend(series: SeriesFolder) -> None:
    """Moments of rising fall as the seat rises: Yoshioka et al. 2014, BioMed Eng OnLine 13:27."""
    series.edit(SQUAT, "variants:\n", POSES)
    usual = squat(series)
    high = squat(series, "{chair: 20 in}")

    assert high.finish.pelvis[1] - usual.finish.pelvis[1] == pytest.approx(20 * 2.54 - 43)
    assert hardest(high).moments["knees"] < 0.95 * hardest(usual).moments["knees"]
    assert "deep knee bend" in derived_demands(usual)
    assert "deep knee bend" not in derived_demands(high)
    seats = [[s.path for s in pictures(m)[1].shapes if s.kind == "thing"] for m in (usual, high)]
    assert seats[0] != seats[1]


def test_what_stands_on_a_thing_rises_with_it_and_variants_are_in_the_same_home(series: SeriesFolder) -> None:
    series.edit(SQUAT, "variants:\n", POSES)
    series.edit(
        SQUAT,
        "    change: regression\n",
        "    change: regression\n    poses: {finish: {seat: raised chair}}\n",
    )
    variant = read_series(series.root).exercise("chair-squat").variants[0].id
    raised = squat(series, "{chair: 40 cm, step: 15 cm}", variant).finish.pose

    heights = {
        thing: raised.height_of(thing) for thing in ("raised chair", "chair back", "second step", "bed")
    }
    assert heights == {"raised chair": 48.0, "chair back": 85.0, "second step": 30.0, "bed": 50.0}


def test_a_hand_that_no_longer_reaches_is_told(series: SeriesFolder) -> None:
    series.edit(SQUAT, "variants:\n", "poses: {hold: {hands: counter, distance: 46, lean: 20}}\nvariants:\n")
    assert series.problems() == []
    series.edit("series.yaml", "kit:\n", "heights: {counter: 66 cm}\nkit:\n")

    assert [problem.check for problem in series.problems()] == ["out-of-reach"]
