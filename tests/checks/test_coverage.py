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
    assert problem.advice.startswith("write a variant that does without jumping, standing")


def test_advice_names_another_exercise(library: LibraryFolder):
    library.exercise("hop", HOP)
    library.use("hop")

    [problem] = library.warnings("gap")
    assert problem.message == "no form of 'Hop' suits 'No jumping', 'Seated'"
    assert problem.advice.endswith("or one that is another exercise, such as 'jumping-jack'")


def test_kit_that_has_to_be_fetched_leaves_no_gap(library: LibraryFolder):
    seated = (
        "variants:\n  - {id: seated, name: Seated tap, change: regression, kit: [sturdy-chair], demands: []}"
    )
    library.exercise("hop", HOP + seated)
    library.use("hop")

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


SEATED = "avoids: [standing, jumping, balance on one leg, getting to the floor]}"
LIMITED = (
    "avoids: [standing, jumping, balance on one leg, getting to the floor], "
    "limits: {load: none, effort: at least 8 in reserve, hold: 2 s}}"
)


def test_a_choice_that_cannot_keep_a_limit(library: LibraryFolder):
    library.exercise(
        "hop",
        HOP + "variants:\n"
        "  - {id: step, name: Step, change: regression, demands: []}\n"
        "  - {id: worn, name: Step with a pack, change: regression, kit: [backpack], demands: []}",
    )
    library.use("hop")
    library.edit("episodes/02-more.yaml", "dose: 8}", "dose: 8, versions: {seated: worn}}")
    assert library.warnings("choice-limits") == []
    library.edit("series.yaml", SEATED, LIMITED)

    [problem] = library.warnings("choice-limits")
    assert problem.file == "episodes/02-more.yaml"
    assert problem.message == "'worn' cannot keep the limits of 'seated'"


def test_a_limit_far_below_everything_is_told_once(library: LibraryFolder):
    library.edit("series.yaml", SEATED, LIMITED)

    messages = [problem.message for problem in library.warnings("limit-low")]
    assert messages == ["the limit of RPE 2 is far below every effort of the series (least: RPE 6)"]


def test_a_need_that_nothing_suits_is_one_line(library: LibraryFolder):
    nothing = "demands: {moving: One moves.}\nneeds:\n  nothing: {name: Nothing, avoids: [moving]}"
    library.edit("series.yaml", "needs:", nothing)
    for file in sorted(library.root.glob("exercises/*.yaml")):
        text = file.read_text().replace("demands: [", "demands: [moving, ")
        library.write(f"exercises/{file.name}", text.replace(", ]", "]"))

    [problem] = library.warnings("need-unserved")
    assert problem.message == "no exercise of the series suits 'Nothing' in any form"
    assert not any("Nothing" in one.message for one in library.warnings("gap"))


def test_a_block_that_trains_something_else(library: LibraryFolder):
    press = "{id: press, name: Press, change: substitution, muscles: {prime: [chest]}, demands: []}"
    library.exercise("hop", f"{HOP}variants:\n  - {press}")
    library.use("hop")

    [problem] = library.warnings("purpose-lost")
    assert problem.message == (
        "for 'No jumping', 'Seated' nothing in 'All of them' trains the muscles that the block is for"
    )
