"""Random pose files end in drawings or in a clear problem; the bench tries 2,000 of them."""

import math
import random

import pytest

from sitegen.pages.drawings.picture import pictures
from sitegen.pages.drawings.shapes import Disc
from sitegen.study.body.derived import derived_demands
from sitegen.study.body.moments import JOINTS, hardest
from sitegen.study.body.movement import movement_of
from sitegen.study.body.soundness import troubles
from tests.study.body.posing import random_file, read_poses


def try_out(seed: int) -> str:
    """``drawn`` or ``problem``; an AssertionError where it is neither."""
    text = random_file(random.Random(seed))
    poses, problems = read_poses(text)
    if poses is None:
        assert problems, text
        for problem in problems:
            assert problem.line, (text, problem)
            assert problem.message, (text, problem)
        return "problem"
    movement = movement_of(poses)
    assert movement is not None
    for picture in pictures(movement):
        assert min(picture.wide, picture.tall) >= 90, (text, picture.box)
        assert max(picture.wide, picture.tall) <= 700, (text, picture.box)
        for shape in picture.shapes:
            written = f"{shape.x} {shape.y}" if isinstance(shape, Disc) else shape.path
            assert not {"nan", "inf"} & set(written.split()), text
    for figure in movement.figures:
        assert all(math.isfinite(trouble.amount) for trouble in troubles(figure))
    asks = hardest(movement)
    assert all(math.isfinite(asks.moments[joint]) for joint in JOINTS), text
    derived_demands(movement)
    return "drawn"


@pytest.mark.parametrize("first", range(0, 150, 50), ids=lambda first: f"seeds {first} to {first + 49}")
def test_random_files_end_in_a_drawing_or_a_clear_problem(first):
    ends = [try_out(seed) for seed in range(first, first + 50)]

    assert {"drawn", "problem"} == set(ends)
