"""Cues that ask for what the exercise does not declare."""

import pytest

from sitegen.reading.reader import read_series
from sitegen.study.demand_words import DEMAND_WORDS, DENIALS, TITLE_WORDS, DemandReader
from sitegen.vocabulary import DEMANDS
from tests.checks.library_folder import LibraryFolder, said

READER = DemandReader(DEMAND_WORDS["en"], DENIALS["en"], TITLE_WORDS["en"])


@pytest.mark.parametrize(
    ("cue", "demands"),
    [
        ("Jump the feet apart", ["jumping"]),
        ("Small hops, quiet landings", ["jumping"]),
        ("Run on the spot", ["jumping"]),
        ("Hold your breath as you go down", ["straining"]),
        ("Swing the arms overhead", ["arms overhead"]),
        ("Raise it above your head", ["arms overhead"]),
        ("Kneel on a cushion", ["kneeling"]),
        ("On all fours, back long", ["kneeling", "getting to the floor"]),
        ("Lie on your back", ["lying flat"]),
        ("Lie down on the floor", ["getting to the floor", "lying flat"]),
        ("Grip the handle", ["grip"]),
        ("Stand tall", ["standing"]),
        ("Stand on one leg", ["balance on one leg"]),
        ("Let the back round: round your back slowly", ["rounding the spine"]),
        ("As fast as you can", ["speed"]),
        ("Go down the stairs with a hand on the rail", ["stairs and steps"]),
        ("Lift the carriers off the floor with a long back", ["lifting from the floor"]),
        ("Let your head hang", ["head low"]),
        ("Lean on your forearms", ["leaning on the arms"]),
        ("Hold one breath", ["straining"]),
        ("Hold a deep breath", ["straining"]),
        ("Fast fists", ["speed"]),
        ("Big and quick", ["speed"]),
        ("Push the floor away quickly", ["speed"]),
        ("Walk with a full jug in one hand", ["balance on one leg"]),
        ("Walk slowly with two bags", ["balance on one leg"]),
    ],
)
def test_words_that_ask_for_a_demand(cue: str, demands: list[str]):
    assert [demand for demand, _ in READER.demands(cue)] == demands


@pytest.mark.parametrize(
    "cue",
    [
        "Step, do not jump",
        "Step instead of jumping",
        "Never round your back",
        "Do not hold your breath",
        "Quiet feet, no hopping",
        "Sit as if you began to stand up",
        "A wide stance, both feet heavy",
        "Hands on your knees",
        "Feet flat on the floor",
        "Press up through the heels",
        "Lift the heels off the floor",
        "Step up and down on the spot",
        "Lean on nothing: the arms hang",
        "Hold for one breath",
        "Never hold a breath",
        "A quick check: both feet flat",
        "Not too fast",
        "Steady, however fast the music is",
        "The chair stands fast",
        "Two fast food tins",
        "Walk with a long back",
        "Walk without a bag",
        "Squat back to the seat",
    ],
)
def test_words_that_do_not(cue: str):
    assert list(READER.demands(cue)) == []


@pytest.mark.parametrize(
    "title", ["Jump squat", "Squat to tiptoes", "One and a half squat", "Rear foot raised squat"]
)
def test_a_squat_in_a_title_is_a_deep_one(title: str):
    assert "deep knee bend" in dict(READER.in_title(title))


@pytest.mark.parametrize(
    "title",
    [
        "Half squat",
        "High squat",
        "Mini squat",
        "Quarter squats",
        "Shallow squat",
        "Squat to two cushions",
        "Squat onto a high seat",
        "Raised-seat squat",
        "Seated squat",
        "Easier than a squat",
        "Practice for the squat",
    ],
)
def test_a_squat_that_says_it_is_not(title: str):
    assert "deep knee bend" not in dict(READER.in_title(title))


@pytest.mark.parametrize(
    ("title", "demands"),
    [
        ("Wall sit", ["straining"]),
        ("Ski sit at the wall", ["straining"]),
        ("Front plank", ["straining", "leaning on the arms", "shoulder load"]),
        ("Lunge hold", ["straining"]),
        ("Hollow body hold", ["straining"]),
        ("Suitcase carry", ["balance on one leg", "grip", "standing"]),
        ("Farmer's walk", ["balance on one leg", "grip", "standing"]),
        ("Bear-hug carry", ["balance on one leg", "standing"]),
        ("Tray carry", ["balance on one leg", "standing"]),
        ("Suitcase carry along the counter", ["grip", "standing"]),
        ("Chair dips", ["straining", "leaning on the arms", "shoulder load", "weight on the wrists"]),
        ("Press-ups on the forearms", ["leaning on the arms", "shoulder load"]),
        ("Curl up", ["rounding the spine", "lying flat"]),
        ("Biceps curl", []),
        ("Hip raise", ["lying flat"]),
        ("Jug windmill", ["twisting under load"]),
        ("Swing the jug from side to side", ["twisting under load"]),
        ("Stair runs", ["jumping", "speed"]),
        ("Slow running", []),
        ("Straighten one knee and keep it there", ["moving the legs"]),
        ("Calf raise", ["moving the legs"]),
        # what says that it is easier, held by something, or seated
        ("High wall sit", []),
        ("Plank from the knees", ["leaning on the arms", "shoulder load"]),
        ("Plank at the counter", ["leaning on the arms", "shoulder load"]),
        ("Side plank at the wall", ["leaning on the arms", "shoulder load"]),
        ("Feet back to a plank, feet in again and up", []),
        ("Seated suitcase carry", ["grip"]),
        ("Seated tray hold", []),
        ("Suitcase hold", []),
    ],
)
def test_holds_and_carries_in_a_title(title: str, demands: list[str]):
    assert [demand for demand, _ in READER.in_title(title)] == demands


def test_poses_are_asked_before_a_title_where_they_can_show_it():
    assert [demand for demand, _ in READER.in_title("Squat hold", posed=True)] == ["straining"]
    assert [demand for demand, _ in READER.in_title("Stand tall squat", posed=True)] == ["standing"]


@pytest.mark.parametrize(
    ("demands", "muscles", "told"),
    [
        ("[]", "{prime: [quadriceps]}", True),
        ("[sitting up]", "{prime: [abdominals, calves]}", True),
        ("[grip]", "{prime: [own leg muscle]}", True),
        ("[moving the legs]", "{prime: [quadriceps]}", False),
        ("[standing]", "{prime: [quadriceps]}", False),
        ("[getting to the floor, lying flat]", "{prime: [glutes]}", False),
        ("[]", "{prime: [chest], assist: [quadriceps]}", False),
    ],
)
def test_a_muscle_of_the_legs_works_although_nobody_stands(
    library: LibraryFolder, demands: str, muscles: str, told: bool
):
    """Else somebody who cannot use her legs is given leg work in a chair."""
    library.edit(
        "series.yaml",
        "units: metric ",
        "muscles: {own leg muscle: lower}\ndemands: {sitting up: No back rest}\nunits: metric ",
    )
    library.exercise("straighten-knees", f"demands: {demands}\nmuscles: {muscles}")

    found = [one.message for one in library.warnings("undeclared-demand")]

    assert len(found) == told
    assert all("work in 'Straighten knees', but it does not ask for moving the legs" in one for one in found)


def test_a_squat_that_is_not_declared_deep(library: LibraryFolder):
    file = library.exercise(
        "deep-stand",
        "demands: [standing, deep knee bend]\n"
        "variants:\n  - {id: toes, name: Squat to tiptoes, change: regression, demands: [standing]}",
    )

    [problem] = library.warnings("undeclared-demand")
    assert problem.file == file
    assert problem.message == "the name says 'Squat', but 'Squat to tiptoes' does not ask for deep knee bend"


def test_a_denial_reaches_no_further_than_its_clause():
    assert [demand for demand, _ in READER.demands("Don't hurry; jump softly")] == ["jumping"]


def test_a_cue_that_asks_for_more_than_is_declared(library: LibraryFolder):
    file = library.exercise("hinge", "demands: [standing]\ncues:\n  - Back long\n  - Reach overhead")

    [problem] = library.warnings("undeclared-demand")
    assert said([problem]) == [
        (
            file,
            library.line_of(file, "overhead"),
            "the cue says 'overhead', but 'Hinge' does not ask for arms overhead",
        )
    ]
    assert problem.advice == (
        f"add arms overhead to its demands ({DEMANDS['arms overhead']}), word the cue in another way, "
        "or write demands_kept: {arms overhead: why not}"
    )


def test_who_jumps_stands(library: LibraryFolder):
    file = library.exercise("hop", "demands: [jumping]\ncues: [Quiet feet]")

    assert said(library.warnings("undeclared-demand")) == [
        (file, 1, "'Hop' asks for jumping but not for standing, which a jump needs")
    ]


def test_a_variant_that_takes_over_a_cue_it_cannot_mean(library: LibraryFolder):
    file = library.exercise(
        "hop",
        "demands: []\ncues: [Hop lightly]\n"
        "variants:\n  - {id: step, name: Step, change: progression, demands: [grip]}",
    )

    assert (
        file,
        library.line_of(file, "id: step"),
        "'Step' takes over the cue 'Hop lightly', but does not ask for jumping",
    ) in said(library.warnings("undeclared-demand"))


def test_variants_whose_cues_are_left_out_are_told_once(library: LibraryFolder):
    file = library.exercise(
        "wall-sit",
        "demands: [standing, deep knee bend]\ncues: [Thighs level]\n"
        "variants:\n"
        "  - {id: longer, name: Long wall sit, change: progression, dose: +10 s}\n"
        "  - {id: half, name: Half wall sit, change: regression, demands: [standing]}\n"
        "  - {id: short, name: Short half sit, change: regression, of: half, dose: half}\n"
        "  - {id: seated, name: Leg press in a chair, change: regression, demands: []}\n"
        "  - {id: said, name: Said, change: regression, demands: [standing], cues: [A hand above the seat]}",
    )

    problems = library.warnings("cues-left-out")

    assert said(problems) == [
        (
            file,
            library.line_of(file, "id: half"),
            "no cue is shown with 'Half wall sit', 'Leg press in a chair': a demand of the form it is made "
            "from is dropped, and its cues may ask for just that",
        )
    ]


def test_nothing_is_left_out_where_there_is_no_cue(library: LibraryFolder):
    library.exercise(
        "wall-sit",
        "demands: [standing]\nvariants:\n  - {id: half, name: Half, change: regression, demands: []}",
    )

    assert library.warnings("cues-left-out") == []


def test_other_languages_are_not_looked_at(library: LibraryFolder):
    library.edit("series.yaml", "language: en", "language: de")
    library.exercise("hinge", "cues: [Reach overhead]")

    assert library.warnings("undeclared-demand") == []


def test_every_word_list_is_about_known_demands():
    assert {demand for words in DEMAND_WORDS.values() for demand in words} <= set(DEMANDS)
    assert {demand for words in TITLE_WORDS.values() for demand in words} <= set(DEMANDS)
    assert DEMAND_WORDS.keys() == DENIALS.keys() == TITLE_WORDS.keys()


ON_ARMS = ["leaning on the arms", "shoulder load", "weight on the wrists"]
HURRIED = [
    # pattern, kit, what is listed; what is asked about
    ("carry", "jug", "standing", ["balance on one leg", "grip"]),
    ("carry", "jug", "standing, grip, balance on one leg", []),
    ("carry", "jug", "", ["grip"]),  # seated
    ("push vertical", "jug", "standing", ["arms overhead", "grip", "shoulder load"]),
    ("push vertical", "sturdy-chair", "standing", ON_ARMS),
    ("push horizontal", "", "getting to the floor, lying flat", ON_ARMS),
    ("pull vertical", "", "", ["arms overhead"]),
    ("step", "", "standing", ["balance on one leg", "stairs and steps"]),
    ("lunge", "", "standing", ["balance on one leg"]),
    ("squat", "", "standing", ["deep knee bend"]),
    ("hinge", "", "getting to the floor", ["kneeling", "leaning on the arms", "lying flat"]),
    ("trunk", "", "getting to the floor, weight on the wrists", ["leaning on the arms"]),
    ("hinge", "jug", "standing", ["grip"]),
    ("hinge", "backpack", "standing", []),  # worn or hugged
]  # fmt: skip


@pytest.mark.parametrize(("pattern", "kit", "demands", "asked"), HURRIED)
def test_a_list_that_lacks_what_its_pattern_usually_asks_for(
    library: LibraryFolder, pattern: str, kit: str, demands: str, asked: list[str]
):
    library.edit("series.yaml", "kit:", "kit:\n  jug: {name: Jug, holds: 5 l water}")
    library.exercise(
        "moved",
        f"pattern: {pattern}\nkit: [{kit}]\ndemands: [{demands}]\n"
        f"variants:\n  - {{id: less, name: Less, change: regression, demands: [{demands}]}}",
    )

    exercise = read_series(library.root).exercise("moved")

    assert sorted(exercise.said) == asked
    assert sorted(exercise.variant("less").said) == asked
    assert bool(library.warnings("undeclared-demand")) == bool(asked)


def test_a_variant_with_more_kit_is_asked_about_what_that_asks_for(library: LibraryFolder):
    library.edit("series.yaml", "kit:", "kit:\n  jug: {name: Jug, holds: 5 l water}")
    library.exercise(
        "moved",
        "pattern: squat\ndemands: [standing, deep knee bend]\nvariants:\n"
        "  - {id: heavy, name: Heavy, change: progression, kit: [jug]}\n"
        "  - {id: walked, name: Walked, change: progression, of: heavy, pattern: carry}",
    )
    moved = read_series(library.root).exercise("moved")

    assert [variant.said for variant in moved.variants] == [("grip",), ("grip", "balance on one leg")]
    assert [one.message for one in library.warnings("undeclared-demand")] == [
        "the pattern squat usually asks for grip, which 'Heavy' does not list",
        "the pattern carry usually asks for grip and balance on one leg, which 'Walked' does not list",
    ]


def test_what_the_main_form_lists_a_variant_does_without_on_purpose(library: LibraryFolder):
    library.exercise(
        "moved",
        "pattern: squat\ndemands: [standing, deep knee bend]\n"
        "variants: [{id: half, name: Half, change: regression, demands: [standing]}]",
    )

    assert library.warnings("undeclared-demand") == []


@pytest.mark.parametrize(
    "key", ["demands: [standing, deep knee bend]", "demands_kept: {deep knee bend: A small one}"]
)
def test_what_is_in_doubt_is_settled_by_the_list_or_by_a_reason(library: LibraryFolder, key: str):
    listed = key if key.startswith("demands:") else f"demands: [standing]\n{key}"
    library.exercise("moved", f"pattern: squat\n{listed}")

    assert library.warnings("undeclared-demand", "needless-reason") == []
    assert read_series(library.root).exercise("moved").said == ()
