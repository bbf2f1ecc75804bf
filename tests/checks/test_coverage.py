"""Needs that a session does not serve."""

from tests.checks.library_folder import LibraryFolder, said

HOP = "demands: [jumping, standing]\npattern: locomotion\nmuscles: {prime: [calves]}\n"


def test_a_gap_names_the_need_and_what_might_fill_it(library: LibraryFolder):
    library.exercise(
        "hop", HOP + "variants:\n  - {id: step, name: Step, change: regression, demands: [standing]}"
    )
    library.use("hop")

    [problem] = library.warnings("gap")
    assert said([problem]) == [
        (
            "episodes/02-more.yaml",
            library.line_of("episodes/02-more.yaml", "hop"),
            "no form of 'Hop' suits 'Seated'",
        )
    ]
    assert problem.advice == "write a variant that does without jumping, standing"


def test_advice_names_another_exercise_whose_kit_is_at_hand(library: LibraryFolder):
    library.exercise("hop", HOP)
    library.use("hop", "chair-squat")  # which brings the chair that the seated jack needs

    [problem] = library.warnings("gap")
    assert problem.message == "no form of 'Hop' suits 'No jumping', 'Seated'"
    assert problem.advice.endswith("or one that is another exercise, such as 'jumping-jack'")


def test_a_variant_without_its_kit_is_no_help(library: LibraryFolder):
    seated = (
        "variants:\n  - {id: seated, name: Seated hop, change: regression, kit: [sturdy-chair], demands: []}"
    )
    library.exercise("hop", HOP + seated)
    library.use("hop")
    gaps = library.warnings("gap")
    library.use("hop", "chair-squat")

    assert [problem.message for problem in gaps] == ["no form of 'Hop' suits 'No jumping', 'Seated'"]
    assert library.warnings("gap") == []


def test_a_gap_of_a_routine_is_said_once_and_in_its_file(library: LibraryFolder):
    library.exercise("hop", HOP)
    library.edit("routines/short-warm-up.yaml", "items:", "items:\n  - {exercise: hop, dose: 30 s}")
    library.write(
        "episodes/02-more.yaml",
        "title: More\nnumber: 2\nblocks:\n  - {routine: short-warm-up, at: 0:10}\n",
    )

    assert [(problem.file, problem.line) for problem in library.warnings("gap")] == [
        ("routines/short-warm-up.yaml", 5)
    ]


def test_a_choice_whose_kit_is_not_at_hand(library: LibraryFolder):
    library.exercise(
        "hop",
        HOP + "variants:\n"
        "  - {id: step, name: Step, change: regression, demands: []}\n"
        "  - {id: worn, name: Step with a pack, change: regression, kit: [backpack], demands: []}",
    )
    library.use("hop")
    library.edit("episodes/02-more.yaml", "dose: 8}", "dose: 8, versions: {no-jumping: worn}}")

    [problem] = library.warnings("choice-kit")
    assert problem.file == "episodes/02-more.yaml"
    assert problem.message == "'Step with a pack' needs backpack, which nothing else in the session does"


def test_the_demo_serves_every_need(demo_warnings):
    assert [str(problem) for problem in demo_warnings if problem.check in ("gap", "choice-kit")] == []
