"""One thing under two names."""

from itertools import combinations

import pytest

from sitegen.checks.names import name_key, spelt_alike
from sitegen.vocabulary import MUSCLE_REGIONS
from tests.checks.library_folder import LibraryFolder, said


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Wall push-ups", "Push-up on the wall"),
        ("Überkopfdrücken", "uberkopfdrucken"),
        ("Step ups", "Step-up"),
        ("Crunches", "crunch"),
        ("Row with a towel", "Towel row"),
    ],
)
def test_names_that_mean_the_same(one: str, other: str):
    assert name_key(one) == name_key(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [("Towel row", "Towel pull"), ("Side step", "Step"), ("Bow", "Bows and arrows"), ("The", "A")],
)
def test_names_that_do_not(one: str, other: str):
    assert name_key(one) != name_key(other)


def test_the_same_exercise_in_two_files(library: LibraryFolder):
    library.exercise("door-row", "name: Towel row")
    second = library.exercise(
        "towel-row", "name: Inverted row\nalso: [row with a towel]\npattern: pull horizontal"
    )

    [problem] = library.warnings("same-exercise")
    assert (problem.file, problem.line) == (second, library.line_of(second, "also:"))
    assert problem.message == "'row with a towel' is also the exercise 'door-row' ('Towel row')"
    assert problem.advice == "join the two exercises, or give one another name"


def test_a_variant_that_is_an_exercise_of_the_library(library: LibraryFolder):
    library.exercise("bow", "name: Bow")
    file = library.exercise("hinge", "variants:\n  - {id: low, name: The bow, change: regression}")

    [problem] = library.warnings("same-exercise")
    assert said([problem]) == [
        (file, library.line_of(file, "id: low"), "'The bow' is also the exercise 'bow' ('Bow')")
    ]
    assert problem.advice == "write exercise: bow in this variant, or give one another name"


def test_a_variant_that_says_so_is_no_double(library: LibraryFolder):
    library.exercise("bow", "name: Bow")
    library.exercise("hinge", "variants:\n  - {id: to-bow, change: regression, exercise: bow}")

    assert library.warnings("same-exercise") == []


def test_two_exercises_that_look_like_one(library: LibraryFolder):
    facts = "kit: [backpack]\ndemands: [standing]\ncues: [Push the floor away]"
    library.exercise("front-squat", facts)
    library.exercise("hug-squat", facts.replace("away", "away."))

    [problem] = library.warnings("same-exercise")
    assert said([problem]) == [
        (
            "exercises/hug-squat.yaml",
            1,
            "'Hug squat' and 'Front squat' look like one exercise; both say 'Push the floor away.'",
        )
    ]


def test_the_same_cue_in_other_circumstances_is_no_double(library: LibraryFolder):
    library.exercise("half-squat", "demands: [standing]\ncues: [Push the floor away]")
    library.exercise("deep-squat", "demands: [standing, deep knee bend]\ncues: [Push the floor away]")

    assert library.warnings("same-exercise") == []


@pytest.mark.parametrize(
    ("word", "known"),
    [("quadricep", "quadriceps"), ("Ham strings", "hamstrings"), ("hip flexor", "hip flexors")],
)
def test_a_muscle_in_two_spellings(library: LibraryFolder, word: str, known: str):
    library.edit("series.yaml", "schedule:", f"muscles: {{{word}: lower}}\nschedule:")

    [problem] = library.warnings("two-spellings")
    assert said([problem]) == [
        (
            "series.yaml",
            library.line_of("series.yaml", "muscles:"),
            f"the muscle {word!r} looks like {known!r} in another spelling",
        )
    ]


def test_kit_in_two_spellings(library: LibraryFolder):
    library.edit("series.yaml", "  backpack:", "  rucksack: {name: Back-pack with book}\n  backpack:")

    assert [problem.message for problem in library.warnings("two-spellings")] == [
        "the kit 'Backpack with books' looks like 'Back-pack with book' in another spelling"
    ]


def test_the_known_muscles_are_not_taken_for_one_another():
    assert [pair for pair in combinations(MUSCLE_REGIONS, 2) if spelt_alike(*pair)] == []


@pytest.mark.parametrize("name", ["Подъём на носки", "腕立て伏せ", "ü", "—"])
def test_names_without_latin_letters_are_names(library: LibraryFolder, name: str):
    """They have no words that the checks compare, but break none of them off."""
    squat = library.root / "exercises/chair-squat.yaml"
    squat.write_text(squat.read_text().replace("name: Chair squat", f"name: {name}"))
    assert library.problems() == []
