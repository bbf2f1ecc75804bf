"""Demand words of a series' own that no exercise declares."""

import pytest

from tests.checks.library_folder import LibraryFolder, said

WORD = "demands: {cold water: A foot or a hand is in water below 15 degrees.}\n"
NEED = "  warm-feet: {{name: Warm feet, {uses}}}\n"


def own_word(library: LibraryFolder, uses: str) -> None:
    """Add the word and a need that uses it."""
    text = (library.root / "series.yaml").read_text()
    library.write("series.yaml", text.replace("\nneeds:\n", f"\n{WORD}needs:\n{NEED.format(uses=uses)}"))


@pytest.mark.parametrize(
    ("uses", "column_words"),
    [
        ("avoids: [cold water]", "cold water]"),
        ("avoids: [jumping, cold water]", "cold water]"),
        ("avoids: [jumping], rather_without: [cold water]", "cold water]"),
    ],
)
def test_a_need_that_avoids_what_nobody_declares(library: LibraryFolder, uses: str, column_words: str):
    own_word(library, uses)

    [problem] = library.warnings("demand-never-declared")
    line = library.line_of("series.yaml", column_words)
    assert said([problem]) == [
        ("series.yaml", line, "no exercise declares 'cold water', so 'Warm feet' is spared nothing")
    ]
    assert (
        problem.column
        == (library.root / "series.yaml").read_text().splitlines()[line - 1].index(column_words) + 1
    )


@pytest.mark.parametrize(
    "exercise",
    [
        "demands: [cold water]",
        "demands: []\nvariants:\n  - {id: in, name: In, change: progression, demands: [cold water]}",
    ],
    ids=["an exercise", "a variant only"],
)
def test_one_form_that_declares_it_is_enough(library: LibraryFolder, exercise: str):
    own_word(library, "avoids: [cold water]")
    library.exercise("wade", exercise)

    assert library.warnings("demand-never-declared") == []


def test_a_caution_that_is_shown_nowhere(library: LibraryFolder):
    own_word(library, "avoids: [jumping]")
    text = (library.root / "series.yaml").read_text()
    caution = "cautions:\n  - {text: Dry your feet., about: [cold water]}\n"
    library.write("series.yaml", text.replace("\ncautions:\n", f"\n{caution}"))

    assert [problem.message for problem in library.warnings("demand-never-declared")] == [
        "no exercise declares 'cold water', so this caution is shown beside nothing"
    ]


def test_a_word_of_the_program_may_be_asked_for_by_none(library: LibraryFolder):
    own_word(library, "avoids: [head low, jumping, kneeling]")

    assert library.warnings("demand-never-declared") == []


@pytest.mark.parametrize(
    ("avoids", "told"),
    [
        ("kneeling", "'kneeling'"),
        ("kneeling, head low", "'kneeling', 'head low'"),
        ("kneeling, jumping", None),
    ],
)
def test_a_need_that_changes_nothing_at_all(library: LibraryFolder, avoids: str, told: str | None):
    own_word(library, f"avoids: [{avoids}]")

    assert [problem.message for problem in library.warnings("demand-never-declared")] == (
        [f"no exercise is marked with {told}: avoiding it changes nothing for 'Warm feet'"] if told else []
    )


def test_the_starter_spares_somebody_something(library: LibraryFolder):
    assert library.warnings("demand-never-declared") == []
