"""Amounts as they are said: what the grammar finds, whichever of them is the dose."""

import pytest

from sitegen.drafting.amounts import spoken
from sitegen.drafting.amounts.candidates import BlockAmounts, dose_in
from sitegen.drafting.amounts.grammar import amounts_in
from sitegen.drafting.amounts.spoken import SpokenAmount
from sitegen.drafting.heard import hear
from sitegen.drafting.structure.outline import OutlineBlock, OutlineItem
from sitegen.drafting.transcript.words import stream_of
from sitegen.notation import Dose
from tests.captions.library import series_of
from tests.drafting.talk import say


def amounts(text: str, *, punctuated: bool = True) -> list[SpokenAmount]:
    return amounts_in(stream_of(say(text, punctuated=punctuated).cues).tokens)


def told(amount: SpokenAmount) -> str:
    """An amount in words: the kind where it is no dose, and what it gives."""
    value = amount.text or str(amount.dose or amount.length or amount.count or "")
    sets = f"{amount.count} x " if amount.count is not None and amount.dose is not None else ""
    return sets + value if amount.kind == spoken.DOSE else f"{amount.kind} {value}"


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("half a dozen", ["6"]),
        ("one minute thirty", ["90 s"]),
        ("three quarters of a minute", ["45 s"]),
        ("a quarter of a minute", ["15 s"]),
        ("a minute and a half", ["90 s"]),
        ("one and a half minutes", ["90 s"]),
        ("1:30", ["90 s"]),
        ("30 secs", ["30 s"]),
        ("hold it for thirty", ["30 s"]),
        ("three times ten", ["3 x 10"]),
        ("three by ten", ["3 x 10"]),
        ("3x10", ["3 x 10"]),
        ("four lots of eight", ["4 x 8"]),
        ("one set of twelve", ["1 x 12"]),
        ("between eight and twelve", ["8-12"]),
        ("eight up to twelve", ["8-12"]),
        ("make that six to eight", ["6-8"]),
        ("12 reps, two in reserve", ["12, 2 in reserve"]),
        ("ten with two left in the tank", ["10, 2 in reserve"]),
        ("eight plus seven", ["8 + 7"]),
        ("ten eight six", ["6-10"]),
        ("ten circles each way", ["10 each side"]),
        ("eight left, eight right", ["8 each side"]),
        ("ten on this side and ten on the other", ["10 each side"]),
        ("five this way, five that way", ["5 each side"]),
        ("ten for each one", ["10 each side"]),
        ("ten of each one", ["10", "1"]),
        ("twelve wraps each sighed", ["12 each side"]),
        ("twenty strides", ["20 steps"]),
        ("five breaths each side", ["5 breaths each side"]),
        ("as many as you can", ["max"]),
        ("ten metres and back", ["distance 10 m"]),
        ("toes out thirty degrees", ["other "]),
        ("two exercises, ten reps", ["other ", "10"]),
        ("two shoes five metres apart", ["2", "other "]),
        ("three seconds down", ["other "]),
        ("hold for thirty seconds", ["30 s"]),
        ("ten calories", ["distance 10 calories"]),
        ("45 on 15 off", ["work 45 s", "rest 15 s"]),
        ("forty seconds on and twenty seconds off", ["work 40 s", "rest 20 s"]),
        ("rest a minute between rounds", ["rest 60 s"]),
        ("thirty seconds, rest a minute", ["30 s", "rest 60 s"]),
        ("forty seconds, rest twenty seconds", ["40 s", "rest 20 s"]),
        ("do it for thirty seconds, rest for sixty", ["30 s", "rest 60 s"]),
        ("thirty seconds rest a minute", ["30 s", "rest 60 s"]),
        ("a minute, then rest for thirty", ["60 s", "rest 30 s"]),
        ("thirty seconds rest, thirty seconds work", ["rest 30 s", "work 30 s"]),
        ("ten squats, ninety seconds rest", ["10", "rest 90 s"]),
        ("twenty seconds work, ten seconds rest", ["work 20 s", "rest 10 s"]),
        ("one hundred and twenty seconds", ["2 min"]),
        ("a hundred and ten reps", ["110"]),
        ("one twenty seconds", ["other "]),
        ("two fifty metres", ["other "]),
        ("round one twenty seconds", ["1", "20 s"]),
        ("fifteen, one five, each side", ["15 each side"]),
        ("two and a half kilos", ["load 2.5 kg"]),
        ("2 1/2 kilos", ["load 2.5 kg"]),
        ("10.5 kilos", ["load 10.5 kg"]),
        ("1.5 litres", ["load 1.5 l"]),
        ("8½ reps", ["other "]),
        ("ninety seconds between sets", ["rest 90 s"]),
        ("fifteen to change", ["rest 15 s"]),
        ("three times through", ["sets 3"]),
        ("twice round", ["sets 2"]),
        ("two to three sets", ["sets 2-3"]),
        ("ten kilos", ["load 10 kg"]),
        ("seven out of ten", ["effort RPE 7"]),
        ("six to seven out of ten", ["effort RPE 6-7"]),
        ("RPE eight", ["effort RPE 8"]),
        ("rpe 7 to 8", ["effort RPE 7-8"]),
    ],
)
def test_a_phrase_gives_its_amounts(said: str, meant: list[str]) -> None:
    assert [told(amount) for amount in amounts(said)] == meant


@pytest.mark.parametrize(
    "said", ["Three, two, one, go.", "One, two, three, four, five.", "And down. Six. And down. Seven. Eight."]
)
def test_counting_aloud_is_told_apart(said: str) -> None:
    assert all(amount.counted for amount in amounts(said))


@pytest.mark.parametrize("said", ["Eight to ten.", "Ten, then rest.", "Twelve reps. Thirteen is unlucky."])
def test_a_dose_is_not_taken_for_counting(said: str) -> None:
    assert not amounts(said)[0].counted


def test_an_amount_does_not_reach_into_the_next_sentence() -> None:
    assert [told(amount) for amount in amounts("Do ten. Each leg gets tired.")] == ["10"]


SENTENCES = [
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
@pytest.mark.parametrize(("said", "dose"), SENTENCES, ids=[said for said, _ in SENTENCES])
def test_the_dose_is_among_the_amounts_of_a_sentence(said: str, dose: str, punctuated: bool) -> None:
    """Without its side, which may be said elsewhere: "then swap legs"."""
    wanted = Dose.parse(dose)
    found = [amount.dose for amount in amounts(said, punctuated=punctuated) if amount.dose]
    assert (wanted.kind, wanted.low, wanted.high) in [(d.kind, d.low, d.high) for d in found]


def candidates(text: str, name: str) -> dict[str, set[str]]:
    """The doses that may be meant of the one exercise of a talk, each with what is seen of it."""
    heard = hear(say(text), series_of("plain"))
    end = len(heard.tokens)
    item = OutlineItem(exercise=name, first=0, end=end, told=end)
    block = OutlineBlock(first=0, end=end, items=[item])
    seen: dict[str, set[str]] = {}
    for one in BlockAmounts(heard, [block], block).candidates(item):
        seen.setdefault(str(dose_in(one.amount)), set()).update(name for name, value in one.features if value)
    return seen


def test_a_number_alone_may_be_seconds_and_beside_breathing_breaths() -> None:
    assert set(candidates("Now the plank. Stay there, twenty.", "plank")) == {"20", "20 s"}
    assert "6 breaths" in candidates("Now the plank. Breathe into the floor. Six of those.", "plank")


def test_a_dose_beside_the_name_and_said_again_is_told_apart() -> None:
    seen = candidates("Now the squat. My knees are forty. Twelve of them. So squats twelve.", "squat")
    assert "said again with its name" in seen["12"]
    assert "said again with its name" not in seen["40"]
