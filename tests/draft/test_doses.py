"""How doses are said, and which dose the drafted item gets: with and without punctuation."""

import pytest

from sitegen.draft.recording import hear, session_of
from sitegen.notation import Dose
from tests.captions.library import series_of
from tests.draft.talk import say

CASES = [
    ("Now the squat. Twelve reps.", "12"),
    ("Next up is the plank. Hold it for forty-five seconds.", "45 s"),
    ("Then we do lunges, ten on each leg.", "10 each side"),
    ("First one: push-ups. Let's do as many as we can.", "max"),
    ("Next, calf raises. Twenty-five of them, nice and slow.", "25"),
    ("The second one is the side plank, and you hold that for half a minute per side.", "30 s each side"),
    ("Next are bicycle crunches. We go for sixteen in total.", "16"),
    ("Now the bent over row, eight to twelve repetitions.", "8-12"),
    ("Third exercise, dips. Somewhere between eight and ten.", "8-10"),
    ("Now bridges. I want fifteen good ones from you.", "15"),
    ("Next is the curl. Fifteen per arm.", "15 each side"),
    (
        "The next exercise is the one arm row. Twelve pulls with the right arm, and then twelve with the "
        "left.",
        "12 each side",
    ),
    ("And now we hold a plank. One minute. No talking.", "1 min"),
    ("Now the wall, sorry, the squat. Ten. Actually, twelve.", "12"),
    ("Next, reverse lunges. Eight. Each leg, I mean.", "8 each side"),
    ("And then burpees, ten times.", "10"),
    ("Up next, mountain climbers: twenty seconds, as fast as you can.", "20 s"),
    ("Now we do side raises for three sets of fifteen.", "15"),
    ("Next we've got crunches. Do twenty, and if that's too easy do thirty.", "20"),
    ("First we have push ups. Ten of those if you can, five if you can't.", "10"),
    ("Let's do squats. We're looking for a dozen.", "12"),
    ("The first is a dead lift. Six heavy ones.", "6"),
    ("And now supermans. You're going to do ten of these, holding each for two seconds.", "10"),
    ("Then a triceps extension for twelve.", "12"),
    ("Next is the donkey kick, and it's fifteen a side.", "15 each side"),
    ("Let's go into high knees for a minute.", "1 min"),
    ("Now cat cow for about thirty seconds.", "30 s"),
    ("Next comes the quad stretch. Twenty seconds, then swap legs.", "20 s each side"),
    ("Hamstring stretch now. Thirty seconds on the right. And thirty on the left.", "30 s each side"),
    ("And child's pose for six slow breaths.", "6 breaths"),
    ("Next exercise, bear crawl. Ten steps forward and ten steps back.", "10 steps each side"),
    ("Now the leg raise. Not more than ten.", "10"),
    ("Now the overhead press. Ten reps, two seconds up and three seconds down.", "10"),
    ("Next up, upright rows. Last week we did ten, this week it's twelve.", "12"),
    ("Now front raises. Ten to the front.", "10"),
    ("Now hip thrusts. Twenty! Yes, you heard right, twenty.", "20"),
    ("Let's do the chest fly. Lie down on the mat. Two jugs, elbows soft. Ten to twelve reps.", "10-12"),
    ("Russian twists. Thirty of them, fifteen on each side.", "15 each side"),
    ("Next, step ups. Two minutes of them, without stopping.", "2 min"),
    ("Next we have the inchworm. We'll do five or six.", "5-6"),
    ("Now a bird dog. We alternate, and we do twenty in all.", "20"),
    ("The next one's the pullover. You do it ten times.", "10"),
    ("Next is the shrug. Ten, then rest, and ten more.", "10"),
    ("Next, jumping jacks. Fifty!", "50"),
    ("Now curtsy lunges. Ten and ten.", "10 each side"),
    ("Next is the squat jump. Five. Only five, but high.", "5"),
    ("Now butt kicks. Let's make it forty seconds this time.", "40 s"),
    ("Now sumo squats. Fifteen or twenty, up to you.", "15-20"),
    ("Now arm circles. Ten small ones forward, ten big ones back.", "10 each side"),
    ("Now the plank. Three, two, one, go. Thirty seconds.", "30 s"),
    ("Squats. You do fifteen of those and then you rest for thirty seconds.", "15"),
    ("Crunches. Rest thirty seconds first. Then twenty.", "20"),
    ("Next, dead lifts with the jugs. I've got five litres in each. Twelve reps.", "12"),
    ("Now lunges. Step about two feet forward. Eight per side.", "8 each side"),
    ("And push ups, to failure.", "max"),
    ("Push ups next. Stop with two in reserve.", "max, 2 in reserve"),
    ("Biceps curl. We take fourteen.", "14"),
]


@pytest.mark.parametrize("punctuated", [True, False], ids=["punctuated", "bare"])
@pytest.mark.parametrize(("said", "dose"), CASES, ids=[said for said, _ in CASES])
def test_the_dose_that_is_said(said: str, dose: str, punctuated: bool) -> None:
    captions = say("Okay, welcome everybody. Let's get started.", said, "Good.", punctuated=punctuated)
    (item,) = [item for block in session_of(hear(captions, series_of("plain"))) for item in block.items]
    assert str(item.dose) == str(Dose.parse(dose))


def test_no_dose_is_made_up() -> None:
    captions = say(
        "First exercise, the squat. Feet apart, chest up.", 20.0, "Second exercise, the plank. Breathe.", 20.0
    )
    items = [item for block in session_of(hear(captions, series_of("plain"))) for item in block.items]
    assert [(item.exercise, item.dose) for item in items] == [("squat", None), ("plank", None)]


def test_counting_aloud_is_no_dose() -> None:
    captions = say(
        "First exercise, the squat. Here we go. One, two, three, four, five, six, seven, and rest."
    )
    (item,) = [item for block in session_of(hear(captions, series_of("plain"))) for item in block.items]
    assert item.dose is None


def test_numbers_in_a_recap_go_to_the_exercises_they_follow() -> None:
    captions = say(
        "First tri-set. First exercise, squats. Chest up.",
        5.0,
        "Second, push ups. Body straight.",
        5.0,
        "Third, the plank. Hold it.",
        5.0,
        "So squats twelve, push ups ten, and the plank thirty seconds. Three rounds. Pause the video now.",
        5.0,
    )
    (block,) = session_of(hear(captions, series_of("plain")))
    assert [str(item.dose) for item in block.items] == ["12", "10", "30 s"]
    assert str(block.sets) == "3"


def test_a_dose_said_of_everything_goes_to_every_exercise() -> None:
    captions = say(
        "First circuit. Ten repetitions of everything. First exercise, squats. Chest up.",
        5.0,
        "Second exercise, push ups. Body straight.",
        5.0,
        "Pause the video.",
    )
    (block,) = session_of(hear(captions, series_of("plain")))
    assert [str(item.dose) for item in block.items] == ["10", "10"]
