"""Words with times, numbers and breaks."""

import pytest

from sitegen.drafting.transcript.stems import likeness, stem
from sitegen.drafting.transcript.words import TokenStream, stream_of
from sitegen.reading.captions.cues import Cue


def stream(*cues: tuple[float, float, str]) -> TokenStream:
    return stream_of(
        Cue(start_ms=int(start * 1000), end_ms=int(end * 1000), text=text, identifier="")
        for start, end, text in cues
    )


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Twelve push-ups, please.", "12 push ups please"),
        ("forty-five seconds", "45 seconds"),
        ("twenty one", "21"),
        ("twenty, one, two, three", "20 1 2 3"),
        ("a dozen", "12"),
        ("a hundred and four", "104"),
        ("one hundred and twenty seconds", "120 seconds"),
        ("two hundred fifty metres", "250 metres"),
        ("a hundred, and four each side", "100 and 4 each side"),
        ("a thousand two hundred metres", "1200 metres"),
        ("1,000 steps", "1000 steps"),
        ("8, 100 and 12", "8 100 and 12"),
        ("two dozen", "24"),
        ("a chair and a towel", "a chair and a towel"),
        ("30s or 2min", "30 seconds or 2 minutes"),
        ("8-12 reps", "8 to 12 reps"),
        ("3x12", "3 by 12"),
        ("half a dozen", "6"),
        ("1:30 each side", "90 seconds each side"),
        ("1.5 minutes", "1 and a half minutes"),
        ("don't, we're, child’s", "dont were childs"),
    ],
)
def test_words_and_numbers(text: str, words: str) -> None:
    assert [token.text for token in stream((0, 10, text)).tokens] == words.split()


def test_words_are_placed_inside_their_cue() -> None:
    tokens = stream((10.0, 20.0, "ten letters each and ten letters more")).tokens
    assert tokens[0].start == 10.0
    assert tokens[-1].end == pytest.approx(20.0)
    assert 13.5 < tokens[3].start < 16.0


@pytest.mark.parametrize(
    ("cues", "breaks"),
    [
        pytest.param([(0, 4, "Stand up. Sit, then rest.")], [2, 0, 2, 1, 0], id="marks"),
        pytest.param([(0, 1, "stand up"), (1, 2, "and rest")], [2, 0, 0, 0], id="next-cue"),
        pytest.param([(0, 1, "stand up"), (4, 5, "and rest")], [2, 0, 2, 0], id="silence"),
        pytest.param([(0, 1, "ten on the"), (4, 5, "left")], [2, 0, 0, 0], id="no-sentence-ends-so"),
        pytest.param([(0, 3, "stand up Now rest")], [2, 0, 2, 0], id="capital-where-nothing-else-tells"),
    ],
)
def test_breaks(cues: list[tuple[float, float, str]], breaks: list[int]) -> None:
    assert [token.break_before for token in stream(*cues).tokens] == breaks


@pytest.mark.parametrize(
    "forms",
    [
        "lunge lunges lunging",
        "raise raises raising",
        "row rows rowing",
        "calf calves",
        "press presses pressing",
    ],
)
def test_inflections_have_one_stem(forms: str) -> None:
    assert len({stem(word) for word in forms.split()}) == 1


@pytest.mark.parametrize(
    ("heard", "meant", "alike"),
    [
        ("roe", "row", True),
        ("planck", "plank", True),
        ("squad", "squat", True),
        ("apple", "squat", False),
        ("bed", "row", False),
    ],
)
def test_sound_alikes(heard: str, meant: str, alike: bool) -> None:
    assert (likeness(heard, meant) > 0.5) is alike
