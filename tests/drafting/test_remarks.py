"""Load, tempo and effort as they are said: written where they are plain, asked where they are not."""

import re

import pytest
import yaml

from sitegen.drafting import Draft, draft
from sitegen.drafting.amounts.tempo import tempos_in
from sitegen.drafting.transcript.words import stream_of
from sitegen.notation import Effort, Tempo
from tests.captions.library import series_of
from tests.drafting.talk import say

PLAIN = [
    ("It should feel like seven out of ten.", "effort", "RPE 7"),
    ("That is an effort of six to seven out of ten.", "effort", "RPE 6-7"),
    ("Work at RPE eight.", "effort", "RPE 8"),
    ("The tempo is three one one zero.", "tempo", "3-1-1-0"),
    ("Tempo 3-1-1.", "tempo", "3-1-1-0"),
    ("Keep two left in the tank.", "effort", "2 in reserve"),
]
ASKED = [
    ("Take the big jug, five litres.", "load", "5 litres"),
    ("The cat weighs five kilos.", "load", "5 kilos"),
    ("Eight to ten kilos in the bag.", "load", "8 to 10 kilos"),
    ("It should feel like no more than seven out of ten.", "effort", "7 out of 10"),
    ("If you feel pain of three out of ten, stop.", "effort", "3 out of 10"),
    ("Nine out of ten of you do it with a round back.", "effort", "9 out of 10"),
    ("It should feel like six out of ten. Feels like nine out of ten?", "effort", "9 out of 10"),
    ("Three seconds down, one second up.", "tempo", "3 seconds down 1 second up"),
    ("Three seconds down.", "tempo", "3 seconds down"),
    ("Lower for three seconds.", "tempo", "lower for 3 seconds"),
    ("If you have two left in the tank, stop.", "effort", "2 left in the tank"),
]


def drafted(remark: str) -> Draft:
    """A session of two exercises; the remark is made while the first is shown."""
    talk = (
        "Hello. You need the chair and the jugs. First block, three rounds.",
        f"First exercise, dead lifts. Twelve reps. Hips back, flat back, and stand up tall. {remark}",
        9.0,
        "The second exercise is the bent over row. Ten reps. Hold the jugs, lean forward, pull to the hip.",
        9.0,
        "Pause the video now and do your three rounds.",
    )
    return draft(say(*talk), series_of("plain"), number=1, slug="a")


@pytest.mark.parametrize(("said", "key", "value"), PLAIN)
def test_what_is_plainly_said_is_a_value_with_its_time(said: str, key: str, value: str) -> None:
    result = drafted(said)
    first, second = yaml.safe_load(result.yaml_text)["blocks"][0]["items"]
    assert (first[key], first["dose"]) == (value, "12")
    assert key not in second
    assert re.search(rf" {key}: {value}    # said at \d+:\d\d\n", result.yaml_text)
    assert not [question for question in result.questions if key in question.text]


@pytest.mark.parametrize(("said", "key", "words"), ASKED)
def test_what_may_not_be_meant_for_the_viewer_is_a_question_with_its_words(
    said: str, key: str, words: str
) -> None:
    result = drafted(said)
    items = yaml.safe_load(result.yaml_text)["blocks"][0]["items"]
    assert all(key not in item for item in items)
    (question,) = [q for q in result.questions if q.text.startswith(f"does this give the {key}?")]
    assert words in question.text
    assert f"# QUESTION ({int(question.at) // 60}:{int(question.at) % 60:02d}): {question.text}\n" in (
        result.yaml_text
    )


def test_a_load_said_before_the_exercises_is_listed_as_heard() -> None:
    talk = (
        "Hello. Bring a bag of rice, ten kilos.",
        "First exercise, dead lifts. Twelve reps. Hips back, flat back, and stand up tall.",
        9.0,
    )
    text = draft(say(*talk), series_of("plain"), number=1, slug="a").yaml_text
    assert re.search(r"# Heard but not placed:\n#   \d:\d\d  load “10 kilos”\n", text)


@pytest.mark.parametrize(
    ("said", "tempos"),
    [
        ("Tempo three zero one zero", ["3-0-1-0"]),
        ("the tempo was 3110", ["3-1-1-0"]),
        ("one second up and three seconds down", ["3-0-1-0"]),
        ("the tempo, two up two down", ["2-0-2-0"]),
        ("two steps down and two steps up", []),
        ("ten up and ten down", []),
        ("three seconds down and three seconds down", ["3 seconds down", "3 seconds down"]),
        ("tempo zero zero zero zero", []),
        ("keep the tempo for twelve", []),
    ],
)
def test_tempos(said: str, tempos: list[str]) -> None:
    assert [amount.text for amount in tempos_in(stream_of(say(said).cues).tokens)] == tempos


def test_values_are_in_the_notation_of_an_episode_file() -> None:
    for _, key, value in PLAIN:
        assert str((Effort if key == "effort" else Tempo).parse(value)) == value
