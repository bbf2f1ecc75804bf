"""Warnings about steps for which the stepping equation does not hold."""

import pytest

from tests.checks.library_folder import LibraryFolder, said

RANGE = "12 to 30 a minute"


@pytest.mark.parametrize(
    ("stepping", "told"),
    [
        ("{height: 20 cm, per_minute: 20}", None),
        ("{height: 40 cm, per_minute: 30}", None),
        ("{height: 4 cm, per_minute: 12}", None),
        ("{height: 41 cm, per_minute: 20}", "20 steps a minute of 41 cm"),
        ("{height: 16 in, per_minute: 20}", "20 steps a minute of 16 in"),
        ("{height: 1 m, per_minute: 60}", "60 steps a minute of 1 m"),
        ("{height: 20 cm, per_minute: 11}", "11 steps a minute of 20 cm"),
    ],
)
def test_a_step_outside_the_range(library: LibraryFolder, stepping: str, told: str | None) -> None:
    file = library.exercise("climb", f"stepping: {stepping}")
    message = f"'Climb': {told}; the stepping equation holds for {RANGE} and 4 to 40 cm"

    expected = [(file, library.line_of(file, "stepping:"), message)] if told else []
    assert said(library.warnings("stepping-range")) == expected


@pytest.mark.parametrize(
    ("tempo", "rate"),
    [("1-0-1-0", None), ("2-0-2-1", None), ("3-0-3-0", "10"), ("1-0-0-0", "60"), ("1-0-x-0", "40")],
)
def test_a_tempo_that_leaves_the_range(library: LibraryFolder, tempo: str, rate: str | None) -> None:
    library.exercise("climb", "stepping: {height: 20 cm, per_minute: 20}")
    library.use("climb", dose=f"8, tempo: {tempo}")
    line = library.line_of("episodes/02-more.yaml", "exercise: climb")
    message = f"'Climb' at {tempo} is {rate} steps a minute; the equation holds for {RANGE}"

    expected = [("episodes/02-more.yaml", line, message)] if rate else []
    assert said(library.warnings("stepping-range")) == expected
