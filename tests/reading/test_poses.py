"""Poses in exercise files: what a trainer sees for a slip, and what follows where demands are left out."""

from pathlib import Path

import pytest

from sitegen.reading.reader import read_series
from sitegen.vocabulary import UNSHOWN
from tests.folders import SeriesFolder

SQUAT = "exercises/chair-squat.yaml"
END = "variants:\n"


@pytest.fixture
def series(tmp_path: Path) -> SeriesFolder:
    return SeriesFolder(tmp_path)


SLIPS = {
    # id: (poses with ¦ where the place must point, check, part of the message, of the advice)
    "an angle no knee has": (
        "start: {knees: ¦170}",
        "malformed",
        "170 degrees is more than a knee can do",
        "0 to 160",
    ),
    "a word for a number": (
        "start: {lean: ¦far}",
        "malformed",
        "'far' is not a number",
        "write a number from -95",
    ),
    "a key that nearly is one": ("start: {¦kness: 90}", "unknown-key", "'kness'", "did you mean 'knees'"),
    "a base that nearly is one": (
        "start: {base: ¦standng}",
        "malformed",
        "'standng' is not a base",
        "'standing'",
    ),
    "a third side": ("start: {knees: {¦both: 90}}", "unknown-key", "'both'", "left, right"),
    "a hold with a finish": (
        "hold: ¦{lean: 20}\n  finish: {lean: 0}",
        "malformed",
        "no start or finish",
        "hold: alone",
    ),
    "a hand that cannot reach": (
        "start: {hands: ¦counter, distance: 120}",
        "out-of-reach",
        "misses the counter by",
        "distance:",
    ),
    "a foot in the floor": (
        "hold: {base: seated, hips: {right: -30}, knees: ¦{right: 0}}",
        "below-floor",
        "below the floor",
        "change knees:",
    ),
}


@pytest.mark.parametrize(("text", "check", "message", "advice"), SLIPS.values(), ids=SLIPS)
def test_a_slip_is_told_with_its_place(series, text, check, message, advice):
    place = series.spoil(SQUAT, END, f"poses:\n  {text}\n{END}")

    (problem,) = series.problems()

    assert (problem.file, problem.line, problem.column) == (SQUAT, *place)
    assert problem.check == check
    assert message in problem.message
    assert advice in problem.advice


def test_a_figure_that_would_fall_is_a_warning_with_centimetres(series):
    series.edit(SQUAT, END, f"poses:\n  hold: {{shift: 30}}\n{END}")

    falls = [p for p in series.problems("warning") if p.check == "would-fall"]

    assert len(falls) == 1
    assert "would fall forwards" in falls[0].message
    assert "cm outside its support" in falls[0].message


def test_demands_that_are_left_out_are_those_of_the_poses(series):
    series.edit(
        SQUAT,
        "demands: [standing, deep knee bend]\n",
        "poses:\n  start: {}\n  finish: {knees: 100, lean: 40}\n",
    )

    squat = read_series(series.root).exercise("chair-squat")

    assert squat.demands == ("deep knee bend", "standing", UNSHOWN)


def test_declared_demands_are_compared_with_the_poses_both_ways(series):
    series.edit(SQUAT, "demands: [standing, deep knee bend]\n", "demands: [standing, kneeling]\n")
    series.edit(SQUAT, END, f"poses:\n  start: {{}}\n  finish: {{knees: 100, lean: 40}}\n{END}")

    found = {(p.check, p.message) for p in series.problems("warning")}

    name = "'Chair squat'"
    message = f"the poses of {name} ask for deep knee bend, which it does not declare"
    assert ("undeclared-demand", message) in found
    message = f"{name} declares kneeling, but its poses do not ask for it"
    assert ("needless-demand", message) in found


def test_a_difference_is_kept_with_a_reason(series):
    series.edit(
        SQUAT,
        "demands: [standing, deep knee bend]\n",
        "demands: [standing, kneeling]\n"
        "demands_kept: {kneeling: One knee may rest, deep knee bend: Shallow}\n",
    )
    series.edit(SQUAT, END, f"poses:\n  start: {{}}\n  finish: {{knees: 100, lean: 40}}\n{END}")

    main = [p for p in series.problems("warning") if "demand" in p.check and p.line and p.line < 12]

    assert main == []


def test_a_reason_without_a_difference_is_told(series):
    kept = "demands: [standing]\ndemands_kept: {kneeling: One knee may rest}\n"
    series.edit(SQUAT, "demands: [standing, deep knee bend]\n", kept)
    series.edit(SQUAT, END, f"poses:\n  start: {{}}\n  finish: {{knees: 70, lean: 40}}\n{END}")

    [found] = [p for p in series.problems("warning") if p.check == "needless-reason"]

    assert (found.line, found.message) == (
        8,
        "kneeling is kept in 'Chair squat' although demands and poses agree about it",
    )


def test_a_reason_holds_for_no_other_poses_and_no_other_list(series):
    kept = "demands: [standing]\ndemands_kept: {deep knee bend: Shallow}\n"
    series.edit(SQUAT, "demands: [standing, deep knee bend]\n", kept)
    series.edit(SQUAT, "deep knee bend, leaning", "leaning")
    series.edit(SQUAT, END, f"poses:\n  start: {{}}\n  finish: {{knees: 100, lean: 40}}\n{END}")
    series.edit(
        SQUAT, "    change: regression\n", "    change: regression\n    poses: {finish: {knees: 110}}\n"
    )

    found = [p.message for p in series.problems("warning") if "deep knee bend" in p.message]

    # One has poses of its own, the other a list of its own; the main form has the reason.
    assert found == [
        f"the poses of {name!r} ask for deep knee bend, which it does not declare"
        for name in ("Chair squat with hands on the seat", "Seated knee press")
    ]
