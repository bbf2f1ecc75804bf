"""Exercises that contradict themselves, and exercises that nobody sees."""

import pytest

from tests.checks.library_folder import LibraryFolder, said


@pytest.mark.parametrize(
    ("main", "variant", "message"),
    [
        (
            "demands: [standing]",
            "{id: easy, name: Easy, change: regression, demands: [standing, kneeling]}",
            "the regression 'Easy' asks for more than 'Hinge': also for kneeling",
        ),
        (
            "demands: [standing]",
            "{id: easy, name: Easy, change: regression, demands: [kneeling, grip]}",
            "the regression 'Easy' asks for more than 'Hinge': also for kneeling, grip",
        ),
        (
            "demands: [standing]",
            "{id: easy, name: Easy, change: regression, dose: +2}",
            "the regression 'Easy' has a larger dose than 'Hinge': +2",
        ),
        (
            "demands: [standing]",
            "{id: easy, name: Easy, change: regression, dose: double}",
            "the regression 'Easy' has a larger dose than 'Hinge': double",
        ),
        (
            "demands: [standing]",
            "{id: easy, name: Easy, change: regression, dose: +10 s}",
            "the regression 'Easy' has a larger dose than 'Hinge': +10 s",
        ),
    ],
    ids=["one demand more", "others, and more of them", "more repetitions", "twice the dose", "longer"],
)
def test_a_regression_that_is_harder(library: LibraryFolder, main: str, variant: str, message: str):
    file = library.exercise("hinge", f"{main}\nvariants:\n  - {variant}")

    assert said(library.warnings("harder-regression")) == [(file, library.line_of(file, "id: easy"), message)]


@pytest.mark.parametrize(
    "variant",
    [
        "{id: easy, name: Easy, change: regression, demands: [grip]}",
        "{id: easy, name: Easy, change: regression, demands: []}",
        "{id: easy, name: Easy, change: regression, dose: half}",
        "{id: easy, name: Easy, change: regression, dose: -2}",
        "{id: hard, name: Hard, change: progression, demands: [standing, grip], dose: double}",
        "{id: other, name: Other, change: substitution, demands: [standing, grip]}",
    ],
    ids=["another demand instead", "fewer demands", "half", "fewer", "a progression", "a substitution"],
)
def test_variants_that_are_what_they_say(library: LibraryFolder, variant: str):
    library.exercise("hinge", f"demands: [standing]\nvariants:\n  - {variant}")

    assert library.warnings("harder-regression") == []


def test_a_regression_is_held_against_the_form_it_is_made_from(library: LibraryFolder):
    library.exercise(
        "hinge",
        "demands: [standing, grip]\n"
        "variants:\n"
        "  - {id: low, name: Low, change: regression, demands: [], dose: half}\n"
        "  - {id: lower, name: Lower, change: regression, of: low, demands: [grip], dose: -2}",
    )

    # -2 of 10 is 8, half of 10 is 5.
    assert [problem.message for problem in library.warnings("harder-regression")] == [
        "the regression 'Lower' asks for more than 'Low': also for grip",
        "the regression 'Lower' has a larger dose than 'Low': -2",
    ]


SHALLOW, DEEP = "poses: {finish: {knees: 40, lean: 20}}", "poses: {finish: {knees: 95, lean: 30}}"


@pytest.mark.parametrize(
    ("main", "variant", "check", "message"),
    [
        (
            SHALLOW,
            f"{{id: v, name: V, change: regression, {DEEP}}}",
            "harder-regression",
            "the regression 'V' asks more of the knees than the form it is made from",
        ),
        (
            SHALLOW,
            "{id: v, change: regression, exercise: deep}",
            "harder-regression",
            "the regression 'Deep' asks more of the knees than the form it is made from",
        ),
        (
            f"{DEEP[:-1]}, start: {{shoulders: 70}}}}",
            "{id: v, name: V, change: progression, poses: {start: {shoulders: 0}, finish: {knees: 5}}}",
            "easier-progression",
            "the progression 'V' asks less of every joint than the form it is made from",
        ),
    ],
    ids=["more of a joint", "another exercise", "less everywhere"],
)
def test_the_ladder_is_held_against_what_poses_ask(
    library: LibraryFolder, main: str, variant: str, check: str, message: str
):
    library.exercise("deep", DEEP)
    library.exercise("hinge", f"{main}\nvariants:\n  - {variant}")

    found = [problem.message for problem in library.warnings(check) if "asks" in problem.message]
    assert any(one.startswith(message) for one in found), found


def test_an_exercise_that_nobody_sees(library: LibraryFolder):
    file = library.exercise("hinge", "")
    library.plans(3)

    assert said(library.warnings("unused")) == [
        (file, 1, "'Hinge' is in no episode, and no variant of an exercise in use is it")
    ]


def test_a_library_that_waits_for_its_episodes_is_left_alone(library: LibraryFolder):
    library.exercise("hinge", "")
    library.plans(2)

    assert library.warnings("unused") == []


def test_an_exercise_that_is_a_variant_of_one_in_use_is_used(library: LibraryFolder):
    library.exercise("hinge", "variants:\n  - {id: to-bow, change: substitution, exercise: bow}")
    library.exercise("bow", "variants:\n  - {id: to-nod, change: regression, exercise: nod}")
    library.exercise("nod", "")
    library.use("hinge")
    library.plans(3)

    assert library.warnings("unused") == []


def test_a_caution_that_no_variant_heeds(library: LibraryFolder):
    library.exercise("hug", "pattern: hinge\ndemands: []")
    file = library.exercise(
        "hinge",
        "pattern: hinge\n"
        "demands: [grip, standing]\n"
        "cautions:\n"
        "  - Look where you put your feet.\n"
        "  - {text: Sore hands rest., about: [grip]}\n"
        "variants:\n"
        "  - {id: light, name: Light, change: regression, demands: [grip]}",
    )

    [problem] = library.warnings("unheeded-caution")
    assert said([problem]) == [
        (file, library.line_of(file, "Sore hands"), "no variant of 'Hinge' heeds the caution about grip")
    ]
    assert problem.advice == "add a variant that does without grip, or one that is another exercise: 'hug'"


@pytest.mark.parametrize(
    "caution",
    [
        "Look where you put your feet.",
        "{text: Sore hands rest., about: [grip]}",
        "{text: Mind your knees., about: [kneeling]}",
    ],
    ids=["about nothing in particular", "a variant heeds it", "about what the exercise never asks for"],
)
def test_cautions_that_are_heeded(library: LibraryFolder, caution: str):
    library.exercise(
        "hinge",
        f"demands: [grip, standing]\ncautions:\n  - {caution}\n"
        "variants:\n  - {id: hug, name: Hug, change: substitution, demands: [standing]}",
    )

    assert library.warnings("unheeded-caution") == []


def test_silence_in_the_file_with_a_reason(library: LibraryFolder):
    library.exercise("hinge", "silence: {unused: Kept for the autumn series}")

    assert library.warnings("unused") == []


def test_a_caution_about_what_no_form_declares(library: LibraryFolder) -> None:
    file = library.exercise(
        "deep-stand",
        "demands: [standing, deep knee bend]\n"
        "cautions:\n"
        "  - {text: High blood pressure? Come up earlier., about: [straining, standing]}\n"
        "variants:\n"
        "  - id: seated\n"
        "    name: Seated\n"
        "    change: regression\n"
        "    demands: []\n"
        "    cautions: [{text: Sound handles only., about: [deep knee bend]}]",
    )

    problems = library.warnings("caution-in-doubt")

    assert said(problems) == [
        (
            file,
            library.line_of(file, said_of),
            f"this caution is about {word}, which no form of 'Deep stand' with this caution declares",
        )
        for said_of, word in (("High blood", "straining"), ("Sound handles", "deep knee bend"))
    ]
    assert problems[0].advice == (
        "add straining to the demands: of each form that asks for it: who avoids it is not given that form; "
        "or leave out about:. Until then it is shown with all of them"
    )


def test_a_caution_where_some_form_may_have_it(library: LibraryFolder) -> None:
    library.exercise("untold", "cautions: [{text: Come up earlier., about: [straining]}]")
    library.exercise(
        "told",
        "demands: []\ncautions: [{text: Come up earlier., about: [straining]}]\n"
        "variants: [{id: hard, name: Hard, change: progression, demands: [straining]}]",
    )

    assert library.warnings("caution-in-doubt") == []
