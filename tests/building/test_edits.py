"""A site that was built after each of many edits is byte for byte what a build from scratch makes."""

from pathlib import Path

import pytest

from tests.building.edits import begin, wrong_after
from tests.building.put_back import FAULTS

SAMPLE = (
    "an exercise's name",
    "a dose",
    "a need",
    "captions",
    "an episode more",
    "a template",
    "a file of the site",
)
ONE_OF_EACH_SORT = (
    "an exercise's name",  # stands on pages of every kind
    "a pose",
    "a dose",
    "a need",
    "captions",
    "other media",
    "an episode more",
    "a routine",
    "the day",
    "a template",
    "a library",
    "a file of the site",
)
"""Each goes its own way from the folder to the pages, and none of them makes a problem of this series."""


@pytest.mark.parametrize(
    "edits",
    [
        pytest.param(SAMPLE, id="a sample"),
        pytest.param(ONE_OF_EACH_SORT, id="one of each sort", marks=pytest.mark.thorough),
    ],
)
def test_after_random_edits_the_site_is_as_from_scratch(tmp_path: Path, edits: tuple[str, ...]) -> None:
    """A sample that is always the same; ``python -m tests.bench edits`` tries a thousand of all sorts."""
    series = begin(tmp_path, seed=20260914, episodes=2, short=True)
    for name in edits:
        assert wrong_after(series, name) == [], series.log  # neither untouched nor taken back


def test_the_comparison_finds_a_name_that_is_not_noted(tmp_path: Path) -> None:
    """What finds nothing proves nothing: ``python -m tests.bench faults`` puts back two dozen faults."""
    series = begin(tmp_path, seed=1, episodes=1, short=True)
    with FAULTS["words of an exercise not noted"].put_back():
        assert wrong_after(series, "a comment") == []
        assert wrong_after(series, "a cue")
