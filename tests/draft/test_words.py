"""Words with times, numbers and breaks; errors that neighbours put right."""

import pytest

from sitegen.draft.repair import repaired
from sitegen.draft.stems import likeness, stem
from sitegen.draft.words import Stream, stream_of
from sitegen.reading.captions.cues import Cue


def stream(*cues: tuple[float, float, str]) -> Stream:
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
        ("a hundred and four", "100 and 4"),
        ("30s or 2min", "30 seconds or 2 minutes"),
        ("8-12 reps", "8 to 12 reps"),
        ("3x12", "3x12"),
        ("don't, we're, child’s", "dont were childs"),
    ],
)
def test_words_and_numbers(text: str, words: str) -> None:
    assert stream((0, 10, text)).text == words


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
    ("heard", "meant"),
    [
        ("twelve wraps", "12 reps"),
        ("ate reps", "8 reps"),
        ("for rounds", "4 rounds"),
        ("thirty seconds eachside", "30 seconds each side"),
        ("thirty sec onds", "30 seconds"),
        ("ten reps each lag", "10 reps each leg"),
        ("thirty seconds seconds", "30 seconds"),
        ("twelfth reps", "12 reps"),
        ("legraises", "leg raises"),
        ("hold12", "hold 12"),
        ("stand beside the chair", "stand beside the chair"),
        ("as far as it goes", "as far as it goes"),
        ("the pace is right", "the pace is right"),
        ("welcome everybody to the workout", "welcome everybody to the workout"),
        ("sometimes inside or beside", "sometimes inside or beside"),
        ("nowraise the arm", "now raise the arm"),
    ],
)
def test_errors_are_put_right_where_little_else_can_be_meant(heard: str, meant: str) -> None:
    cue = Cue(start_ms=0, end_ms=5000, text=heard, identifier="")
    names = frozenset(("leg", "raise", "raises", "body"))
    assert stream_of([cue], lambda tokens: repaired(tokens, names)).text == meant


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
