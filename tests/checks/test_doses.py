"""Doses that do not fit a form: fewer by accident, and steps for somebody who sits."""

import pytest

from tests.checks.library_folder import LibraryFolder, said

LADDER = """demands: [standing]
pattern: carry
variants:
  - {{id: first, name: First, change: {first}, dose: {dose}}}
  - {{id: second, name: Second, change: {second}, of: first{more}}}
"""


@pytest.mark.parametrize(
    ("first", "second", "dose", "more", "warned"),
    [
        ("regression", "regression", "-2", "", True),
        ("progression", "regression", "half", "", True),
        ("regression", "regression", "-10 s", "", True),
        ("regression", "regression", "-2", ", dose: -2", False),
        ("regression", "regression", "-2", ", dose: same", False),
        ("progression", "progression", "-2", "", False),
        ("progression", "regression", "+2", "", False),
        ("regression", "regression", "20-30 s", "", False),
        ("regression", "regression", "same", "", False),
    ],
)
def test_an_easier_form_that_takes_over_a_smaller_dose(
    library: LibraryFolder, first: str, second: str, dose: str, more: str, warned: bool
) -> None:
    text = LADDER.format(first=first, second=second, dose=dose, more=more)
    file = library.exercise("hinge", text)
    line = library.line_of(file, "id: second")
    message = f"'Second' is easier than 'First' and takes over its change of dose: {dose}"

    assert said(library.warnings("inherited-dose")) == ([(file, line, message)] if warned else [])


@pytest.mark.parametrize(
    ("filmed", "change", "dose", "left"),
    [
        ("4", "regression", "-2", "2"),
        ("5", "regression", "-2", None),
        ("3 each side", "regression", "-2", "1 each side"),
        ("20 s", "regression", "-10 s", "10 s"),
        ("30 m", "regression", "-15 m", "15 m"),
        ("4", "regression", "half", None),  # said in so many words
        ("4", "progression", "-2", None),
        ("max", "regression", "-2", None),  # nothing is known of how many that is
    ],
)
def test_a_fixed_number_fewer_that_leaves_hardly_any(
    library: LibraryFolder, filmed: str, change: str, dose: str, left: str | None
) -> None:
    variant = f"{{id: other, name: Other, change: {change}, dose: {dose}}}"
    file = library.exercise("hinge", f"demands: [standing]\nvariants:\n  - {variant}")
    library.use("hinge", dose=filmed)
    message = f"'Other' is left with {left} of the {filmed} that episode 2 films"

    expected = [(file, library.line_of(file, "id: other"), message)] if left else []
    assert said(library.warnings("dwindling-dose")) == expected


@pytest.mark.parametrize(
    ("filmed", "dose", "told"),
    [
        ("8", "12", "12, more than the 8"),
        ("8", "6 each side", "6 each side, more than the 8"),
        ("8-12", "12", None),
        ("8", "20-30 s", None),  # does not compare
        ("max", "12", None),
    ],
)
def test_an_easier_form_with_a_larger_dose_of_its_own(
    library: LibraryFolder, filmed: str, dose: str, told: str | None
) -> None:
    variant = f"{{id: other, name: Other, change: regression, dose: {dose}}}"
    file = library.exercise("hinge", f"demands: [standing]\nvariants:\n  - {variant}")
    library.use("hinge", dose=filmed)
    message = f"the regression 'Other' has {told} of episode 2"

    expected = [(file, library.line_of(file, "id: other"), message)] if told else []
    assert said(library.warnings("harder-regression")) == expected


def test_an_easier_form_of_an_exercise_that_another_leads_to(library: LibraryFolder) -> None:
    easier = "{id: other, name: Other, change: regression, dose: 12}"
    file = library.exercise("lift", f"demands: [standing]\nvariants:\n  - {easier}")
    library.exercise("hinge", "variants:\n  - {id: lift-instead, change: substitution, exercise: lift}")
    library.use("hinge", dose="8")

    message = "the regression 'Other' has 12, more than the 8 of episode 2"
    expected = [(file, library.line_of(file, "id: other"), message)]
    assert said(library.warnings("harder-regression")) == expected


@pytest.mark.parametrize(
    ("pattern", "filmed", "variant", "would_get"),
    [
        pytest.param("carry", "40 steps", "demands: []", "40 steps", id="a seated hold in steps"),
        pytest.param("carry", "40 steps", "demands: [grip], dose: half", "20 steps", id="half of it"),
        pytest.param("carry", "30 m", "demands: []", "30 m", id="metres from a chair"),
        pytest.param("locomotion", "30 m", "demands: []", "30 m", id="metres on the spot"),
        pytest.param("carry", "40 steps", "demands: [], dose: 20-30 s", None, id="in seconds"),
        pytest.param("carry", "40 steps", "note: Slowly", None, id="a walk"),
        pytest.param("locomotion", "20 steps", "demands: []", None, id="a march in the chair has steps"),
        pytest.param("carry", "8", "demands: []", None, id="repetitions"),
    ],
)
def test_a_form_that_stays_in_its_place_takes_no_steps(
    library: LibraryFolder, pattern: str, filmed: str, variant: str, would_get: str | None
) -> None:
    text = f"pattern: {pattern}\ndemands: [standing]\nvariants:\n"
    file = library.exercise("hinge", f"{text}  - {{id: sat, name: Sat, change: regression, {variant}}}")
    library.use("hinge", dose=filmed)
    message = f"'Sat' does not walk, but would get {would_get} (episode 2)"

    expected = [(file, library.line_of(file, "id: sat"), message)] if would_get else []
    assert said(library.warnings("walking-dose")) == expected


@pytest.mark.parametrize(
    ("finish", "dose", "warned"),
    [
        ("{knees: 60}", "", True),
        ("{knees: {right: 60}}", "", False),
        ("{knees: 60, turn: 20}", "", False),
        ("{knees: 60}", "dose: both sides, ", False),
        ("{knees: 60}", "dose: 6 each side, ", False),
    ],
)
def test_a_form_drawn_alike_on_both_sides_with_a_dose_for_each(
    library: LibraryFolder, finish: str, dose: str, warned: bool
) -> None:
    drawn = f"poses: {{start: {{lean: 0}}, finish: {finish}}}"
    file = library.exercise(
        "hinge",
        "demands: [standing]\nposes: {start: {lean: 0}, finish: {knees: {right: 40}}}\nvariants:\n"
        f"  - {{id: other, name: Other, change: substitution, {dose}{drawn}}}",
    )
    library.use("hinge", dose="8 each side")
    message = "'Other' works both sides at once, but would get 8 each side (episode 2)"

    expected = [(file, library.line_of(file, "id: other"), message)] if warned else []
    assert said(library.warnings("two-sided-dose")) == expected
