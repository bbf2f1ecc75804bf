"""A site that was built after each of many edits is byte for byte what a build from scratch makes."""

from pathlib import Path

from tests.building.edits import EDITS, begin, wrong_after


def test_after_random_edits_the_site_is_as_from_scratch(tmp_path: Path) -> None:
    """A sample that is always the same; ``python -m tests.bench edits`` tries a thousand."""
    series = begin(tmp_path, seed=20260914, episodes=2)
    names = sorted(EDITS)
    series.chance.shuffle(names)
    for name in names[::6]:
        assert wrong_after(series, name) in ([], None), series.log
