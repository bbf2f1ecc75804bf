"""Exercises of which nothing tells what they ask of a body, and names and summaries that say it."""

import pytest

from tests.checks.library_folder import LibraryFolder, said

SOFT = "{id: soft, name: Soft swing, change: regression"


@pytest.mark.parametrize(
    ("text", "at", "who", "example"),
    [
        ("kit: [backpack]", "name: Swing", "'Swing'", "for example demands: [standing, grip]"),
        (f"variants:\n  - {SOFT}}}", "name: Swing", "'Swing' (nor 'Soft swing')", "for example"),
        (f"variants:\n  - {SOFT}, demands: []}}", "name: Swing", "'Swing'", "for example"),
        (
            f"variants:\n  - {SOFT}, poses: {{hold: {{base: seated}}}}}}",
            "name: Swing",
            "'Swing'",
            "for example",
        ),
        (
            "summary: Press two tins overhead while standing.",
            "name: Swing",
            "'Swing'",
            "by its own words at least demands: [arms overhead, standing]",
        ),
        (
            "cues: [Hop onto the box]",
            "name: Swing",
            "'Swing'",
            "by its own words at least demands: [jumping, stairs and steps]",
        ),
    ],
    ids=["nothing", "a variant takes it over", "told variant", "posed variant", "summary", "cue"],
)
def test_an_exercise_that_nothing_is_told_of(
    library: LibraryFolder, text: str, at: str, who: str, example: str
) -> None:
    file = library.exercise("swing", text)

    [problem] = library.warnings("untold-demands", "undeclared-demand")
    message = f"nothing says what {who} asks of a body, so nobody with a need is given it"
    assert said([problem]) == [(file, library.line_of(file, at), message)]
    assert example in problem.advice
    assert "demands: [] if it truly asks nothing" in problem.advice


@pytest.mark.parametrize(
    "text",
    ["demands: []", "demands: [standing]", "poses: {start: {}, finish: {knees: 60}}"],
    ids=["truly nothing", "a list", "poses"],
)
def test_one_that_something_is_told_of(library: LibraryFolder, text: str) -> None:
    library.exercise("swing", text)

    assert library.warnings("untold-demands") == []


def test_languages_without_a_list_of_words_are_warned_too(library: LibraryFolder) -> None:
    library.edit("series.yaml", "language: en", "language: de")
    library.exercise("swing", "summary: Reach overhead.")

    [problem] = library.warnings("untold-demands")
    assert "for example demands: [standing, grip]" in problem.advice


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("name: Box hop", "the name says 'hop', but 'Box hop' does not ask for jumping"),
        (
            "summary: Press two tins overhead while standing.",
            "the summary says 'overhead', but 'Swing' does not ask for arms overhead",
        ),
        (
            "summary: Lift a full bucket from the floor and stand.",
            "the summary says 'Lift a full bucket from the floor', "
            "but 'Swing' does not ask for lifting from the floor",
        ),
        (
            "variants:\n  - {id: kneel, name: Kneeling swing, change: regression}",
            "the name says 'Kneeling', but 'Kneeling swing' does not ask for kneeling",
        ),
    ],
)
def test_a_name_or_summary_that_asks_for_more_than_is_declared(
    library: LibraryFolder, text: str, message: str
) -> None:
    library.exercise("swing", f"demands: [standing]\n{text}")

    assert [problem.message for problem in library.warnings("undeclared-demand")] == [message]


@pytest.mark.parametrize(
    "text",
    [
        "summary: A step instead of a jump.",
        "summary: Lift your hips off the floor.",
        "name: Lift one hand from the floor",
        "name: Half a squat without jumping",
    ],
)
def test_a_name_or_summary_that_does_not(library: LibraryFolder, text: str) -> None:
    library.exercise("swing", f"demands: []\n{text}")

    assert library.warnings("undeclared-demand") == []


def test_a_form_made_for_a_need_of_which_nothing_is_told(library: LibraryFolder) -> None:
    library.exercise("swing", f"variants:\n  - {SOFT}, for: [seated]}}")

    assert [problem.message for problem in library.warnings("meant-unfit")] == [
        "'Soft swing' is for 'seated', but asks for demands that are not written down, which it avoids"
    ]


def test_a_change_of_what_is_not_told_is_no_change_for_the_harder(library: LibraryFolder) -> None:
    library.exercise("swing", f"variants:\n  - {SOFT}, demands: [standing, grip]}}")

    assert library.warnings("harder-regression") == []


def test_a_gap_asks_for_the_demands_before_a_variant(library: LibraryFolder) -> None:
    library.exercise("swing", "kit: [backpack]")
    library.use("swing")

    advice = [problem.advice for problem in library.warnings("gap")]
    assert advice
    assert set(advice) == {"write the demands of swing in its file first (demands: [] if it asks nothing)"}


def test_the_starter_tells_of_all_its_forms(library: LibraryFolder) -> None:
    assert library.warnings("untold-demands", "undeclared-demand") == []


STRAINING_SWING = (
    "poses: {start: {}, finish: {knees: 100}}\n"
    "variants:\n"
    f"  - {SOFT}, poses: {{finish: {{knees: 40}}}}}}\n"
    "  - {id: same, name: Same swing, change: substitution, of: soft}\n"
    "  - {id: told, name: Told swing, change: substitution, demands: [standing]}"
)


def avoid_straining(library: LibraryFolder) -> None:
    library.edit(
        "series.yaml", "  no-jumping:", "  calm: {name: No straining, avoids: [straining]}\n  no-jumping:"
    )


def test_an_exercise_told_by_its_poses_alone_where_a_need_avoids_what_they_cannot_show(
    library: LibraryFolder,
) -> None:
    avoid_straining(library)
    file = library.exercise("swing", STRAINING_SWING)

    [problem] = library.warnings("untold-demands", "unshown-demands")
    message = (
        "the poses of 'Swing' (nor those of 'Soft swing', 'Same swing') cannot show straining, speed "
        "or moving the legs, so nobody is given it with: No straining"
    )
    assert said([problem]) == [(file, library.line_of(file, "name: Swing"), message)]
    assert problem.advice == (
        "write demands: [deep knee bend, standing] in 'Swing', demands: [standing] in 'Soft swing': "
        "what the poses show or leave open; add straining, speed or moving the legs where it applies"
    )


@pytest.mark.parametrize("text", ["demands: [deep knee bend, standing]\n" + STRAINING_SWING])
def test_an_exercise_with_poses_that_has_a_list(library: LibraryFolder, text: str) -> None:
    avoid_straining(library)
    library.exercise("swing", text)

    assert library.warnings("unshown-demands") == []


def test_poses_alone_where_no_need_avoids_what_they_cannot_show(library: LibraryFolder) -> None:
    library.exercise("swing", STRAINING_SWING)

    assert library.warnings("unshown-demands") == []


def test_a_need_whose_word_no_list_names_but_poses_may_hide_is_not_said_to_change_nothing(
    library: LibraryFolder,
) -> None:
    avoid_straining(library)
    assert [problem.message for problem in library.warnings("demand-never-declared")] != []

    library.exercise("swing", STRAINING_SWING)
    assert library.warnings("demand-never-declared") == []
