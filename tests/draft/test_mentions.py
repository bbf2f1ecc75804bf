"""Which exercises that are named are taken to be shown."""

import pytest

from sitegen.draft.found import FoundBlock
from sitegen.draft.recording import hear, session_of
from tests.captions.library import series_of
from tests.draft.talk import say


def session(*parts: str | float, library: str = "plain", punctuated: bool = True) -> list[FoundBlock]:
    return session_of(hear(say(*parts, punctuated=punctuated), series_of(library)))


def shown(*parts: str | float, library: str = "plain", punctuated: bool = True) -> list[str]:
    blocks = session(*parts, library=library, punctuated=punctuated)
    return [item.exercise or f"? {item.heard}" for block in blocks for item in block.items]


OPENING = "Hello, welcome. Here is the first circuit."


@pytest.mark.parametrize("punctuated", [True, False], ids=["punctuated", "bare"])
@pytest.mark.parametrize(
    ("said", "exercises"),
    [
        pytest.param("First exercise, dead lifts. Twelve reps.", ["dead-lift"], id="name"),
        pytest.param("First exercise, deadlifts. Twelve reps.", ["dead-lift"], id="written-in-one"),
        pytest.param("First exercise is lateral raises. Twelve.", ["side-raise"], id="other-name"),
        pytest.param("Next, star jumps. Thirty of those.", ["jumping-jack"], id="name-of-the-trade"),
        pytest.param("Next up, rowing, bent over. Ten reps.", ["row"], id="inflection-and-order"),
        pytest.param("First exercise, dead left. Twelve reps.", ["dead-lift"], id="misheard-dead-lift"),
        pytest.param("First exercise is the planck. Thirty seconds.", ["plank"], id="misheard-plank"),
        pytest.param("Second exercise, bird dock. Eight each side.", ["bird-dog"], id="misheard-bird-dog"),
        pytest.param(
            "First exercise, squats. Not like the lunge last week. Ten reps.", ["squat"], id="comparison"
        ),
        pytest.param(
            "First exercise, push ups. If that's too hard, do the plank. Ten reps.",
            ["push-up"],
            id="alternative",
        ),
        pytest.param(
            "First exercise, squats. My uncle did lunges every morning. Ten reps.", ["squat"], id="anecdote"
        ),
        pytest.param("First exercise, squats. Ten reps. Next time we do burpees.", ["squat"], id="next-time"),
        pytest.param(
            "First exercise, squats. Feel your glutes and your hamstrings. Ten reps.", ["squat"], id="muscles"
        ),
    ],
)
def test_what_is_shown(said: str, exercises: list[str], punctuated: bool) -> None:
    assert shown(OPENING, said, 9.0, punctuated=punctuated) == exercises


def test_a_name_taken_back_at_once_is_not_shown() -> None:
    said = "We start with the lunge. No, sorry, that comes later. We start with the squat. Ten reps."
    assert shown(OPENING, said, 9.0) == ["squat"]


def test_a_list_at_the_beginning_is_no_session() -> None:
    assert shown(
        "Hello. Today we've got squats, push ups and the plank.",
        3.0,
        "Let's begin. First circuit.",
        "First exercise, squats. Ten.",
        9.0,
        "Second, push ups. Eight.",
        9.0,
        "And third, the plank. Thirty seconds.",
        9.0,
    ) == ["squat", "push-up", "plank"]


def test_rounds_done_on_camera_are_one_block() -> None:
    blocks = session(
        "First circuit, two rounds. First exercise, squats. Ten reps. Go.",
        20.0,
        "Next, push ups. Eight reps.",
        20.0,
        "Round two. Squats.",
        20.0,
        "Push ups.",
        20.0,
        "Second circuit, three rounds. First exercise, lunges. Ten each leg.",
        20.0,
        "Next, the plank. Thirty seconds.",
        20.0,
    )
    assert [[item.exercise for item in block.items] for block in blocks] == [
        ["squat", "push-up"],
        ["lunge", "plank"],
    ]
    assert [str(block.sets) for block in blocks] == ["2", "3"]


def test_an_exercise_that_the_library_lacks_keeps_its_name() -> None:
    assert shown(
        OPENING,
        "First exercise, squats. Ten.",
        9.0,
        "The second exercise is called the windmill. Six each side.",
        9.0,
    ) == ["squat", "? windmill"]


def test_a_form_that_only_another_library_has_is_not_forced_onto_a_near_one() -> None:
    """The library of the galley has goblet and chair squats, but no sumo squat."""
    assert shown(OPENING, "First exercise, the sumo squat. Ten reps.", 9.0, library="galley") == [
        "? sumo squat"
    ]


def test_kit_tells_which_of_several_rows_is_meant() -> None:
    said = "First exercise, the row. Take your two water carriers, bend over and pull. Ten reps."
    (block,) = session(OPENING, said, 9.0, library="galley")
    (item,) = block.items
    assert item.exercise == "bent-over-row"


@pytest.mark.parametrize(
    "phrase",
    [
        "Pause the video now and do your three rounds.",
        "So pause me here and get going.",
        "Hit pause, and come back when you are done.",
        "Now it's your turn. Stop the video.",
        "Off you go. Pause it here.",
    ],
)
def test_your_turn(phrase: str) -> None:
    blocks = session(
        OPENING,
        "First exercise, squats. Ten.",
        9.0,
        phrase,
        4.0,
        "Welcome back. Second circuit.",
        "First exercise, lunges. Ten each leg.",
        9.0,
    )
    assert [block.your_turn is not None for block in blocks] == [True, False]
    first, second = blocks
    assert first.items[-1].start < (first.your_turn or 0) <= second.start


def test_a_pause_at_the_top_of_a_movement_is_no_turn() -> None:
    (block,) = session(OPENING, "First exercise, calf raises. All the way up, pause, and down. Twenty.", 9.0)
    assert block.your_turn is None


@pytest.mark.parametrize(
    ("said", "form"),
    [
        ("This is a try set.", "tri-set"),
        ("The first superset.", "superset"),
        ("It's a giant set.", "giant set"),
        ("A circuit, three rounds.", "circuit"),
        ("Every minute on the minute for ten minutes.", "every minute on the minute"),
        ("As many rounds as you can in eight minutes.", "as many rounds as possible"),
    ],
)
def test_formats(said: str, form: str) -> None:
    (block,) = session(
        "Hello.",
        said,
        "First exercise, squats. Ten.",
        9.0,
        "Second, push ups. Eight.",
        9.0,
        "Third, the plank. Thirty seconds.",
    )
    assert block.format == form


def test_starts_are_placed_inside_a_long_cue() -> None:
    """The name is said half a minute into the cue."""
    filler = "and so on and so forth we go along " * 9
    (block,) = session("Hello. First circuit. " + filler + ". The first exercise is the squat. Ten reps.")
    captions = say("Hello. First circuit. " + filler + ". The first exercise is the squat. Ten reps.")
    spoken = next(cue for cue in captions.cues if "squat" in cue.text)
    assert abs(block.items[0].start * 1000 - spoken.start_ms) < 4000
