"""What is ruled out, named in passing, only described or taken back is never written without a question."""

from dataclasses import replace

import pytest

from sitegen.drafting import Draft, FoundBlock, FoundItem, draft
from sitegen.drafting.structure.session import DOSE_BOUND
from sitegen.drafting.writing.draft_text import DraftWriter
from sitegen.model import Series
from tests.captions.library import series_of
from tests.drafting.talk import say

ROW = "Ten reps. Hold the jugs, lean forward, pull to the hip."
RULED_OUT = [
    (
        "burpee",
        "Last week we did the burpees on the grass, and we are not doing those today, it is wet. Jump up.",
    ),
    ("burpee", "Next Saturday it is burpees, hands down and jump back, so bring your shoes."),
    ("burpee", "The burpees? We will leave those for another day."),
    ("burpee", "I was going to show you burpees, feet back and jump, but my knee says no."),
    ("burpee", "On Thursday you get burpees, twelve of them."),
    ("jumping-jack", "I'll show you star jumps another day, arms and legs out and in."),
    (
        "burpee",
        "Remember the burpees from Monday? They'll come back, feet back and jump, when the floor is dry.",
    ),
    ("burpee", "The burpees can wait until the summer, hands down, feet back and jump."),
    ("burpee", "My sister would do burpees at this point, hands down, feet back, jump, I won't."),
]
OTHER_FORMS = [
    (
        "push-up",
        "Nearer to the wall is easier, and the push up on the floor is harder, chest down and push away.",
    ),
    ("march", "If that is too much, do the march on the spot, knees up."),
    ("bridge", "If your back complains, do the bridge instead, on your back, hips up."),
    ("mountain-climber", "Some of you can work up to the mountain climber, knee to chest, quick."),
    ("bridge", "Easier would be the bridge, feet flat, hips up, ten of them."),
    ("mountain-climber", "A tougher one would be the mountain climber, knee to chest."),
]


def session(of_row: str = ROW, behind: str = "", recap: str = "") -> Draft:
    """A row and a plank, with talk behind the plank and before the handing over."""
    talk = (
        "Hello. You need the jugs. First superset, three rounds.",
        f"First exercise, the bent over row. {of_row}",
        9.0,
        "The second exercise is the plank. On your elbows and toes, and hold it, back flat, thirty seconds.",
        4.0,
        behind,
        4.0,
        f"{recap} Rest a minute between rounds. Pause the video now and do your three rounds.",
        5.0,
        "Welcome back. Thank you for training with me.",
    )
    return draft(say(*talk), series_of("plain"), number=1, slug="session")


@pytest.mark.parametrize(("exercise", "said"), [*RULED_OUT, *OTHER_FORMS])
def test_what_is_named_in_passing_is_no_item_without_a_question(exercise: str, said: str) -> None:
    found = session(behind=said)
    written = f"- exercise: {exercise} " in found.yaml_text
    assert written is any(f"is {exercise} shown here?" in question.text for question in found.questions)


def test_what_is_ruled_out_is_listed_as_heard() -> None:
    assert "burpee" in [one.text for one in session(behind=RULED_OUT[1][1]).unplaced]


@pytest.mark.parametrize(
    ("of_row", "recap", "dose"),
    [
        (f"{ROW} Did I say ten? Make that twelve.", "", "12"),
        (f"{ROW} Ten, no, sorry, eight.", "", "8"),
        (f"{ROW} It isn't ten today, it's six.", "", "6"),
        (f"{ROW} Forget ten, give me fifteen.", "", "15"),
        (ROW, "So ten rows. Actually fourteen rows, you are fresh.", "14"),
    ],
)
def test_a_dose_that_is_taken_back_is_the_later_one_and_asked(of_row: str, recap: str, dose: str) -> None:
    row = session(of_row, recap=recap).findings[0].items[0]
    assert (str(row.dose), row.dose_confidence < DOSE_BOUND) == (dose, True)


def item(exercise: str, **also: object) -> FoundItem:
    told = FoundItem(exercise=exercise, heard=exercise, start=10, named_at=10, confidence=0.95, plain=True)
    return replace(told, **also)


def series() -> Series:
    plain = series_of("plain")
    jumps = {key: replace(plain.exercises[key], demands=("jumping",)) for key in ("burpee", "jumping-jack")}
    return replace(plain, exercises={**plain.exercises, **jumps})


@pytest.mark.parametrize(
    ("first", "second", "asked"),
    [
        (item("squat"), item("burpee", plain=False), "nothing else in this block asks for jumping"),
        (item("jumping-jack"), item("burpee", plain=False), ""),
        (item("squat"), item("burpee"), "nothing else in this session asks for jumping"),
        (item("squat"), item("burpee", dose_confidence=0.95), ""),
        (item("squat"), item("row", plain=False), ""),
        (item("squat"), item("row", heard="", plain=False), "it is described, not named"),
        (item("squat"), item("row", ruled_out="no row today"), "she says “… no row today …”"),
    ],
)
def test_what_can_hurt_is_asked_however_likely(first: FoundItem, second: FoundItem, asked: str) -> None:
    block = FoundBlock(name="", kind="strength", format="superset", start=5, items=[first, second])
    writer = DraftWriter(series(), [block])
    writer.text(title="T", number=1, head=())
    questions = [one.text for one in writer.questions if f"is {second.exercise} shown here?" in one.text]
    assert questions == ([f"is {second.exercise} shown here? {asked[0].upper()}{asked[1:]}"] if asked else [])
