"""A draft is a valid episode file that builds as it is, and says how sure it is."""

import re
from pathlib import Path

import pytest
import yaml

from sitegen.drafting import Draft, FoundBlock, FoundItem, draft
from sitegen.drafting.heard import hear
from sitegen.drafting.learned_tables import LearnedModel, learned
from sitegen.drafting.names.unknown import name_in
from sitegen.drafting.structure.acts import SHOWN
from sitegen.drafting.structure.session import ITEM_BOUND, TURN_BOUND
from sitegen.drafting.structure.unplaced import unplaced_in
from sitegen.drafting.writing.draft_text import DraftWriter, stubs_of
from sitegen.model import Series
from sitegen.reading.captions.cues import Captions
from sitegen.reading.reader import read_series
from tests.captions.corpus import Recording, hands, recordings_of
from tests.captions.library import series_of
from tests.demo_copy import copy_demo
from tests.drafting.talk import say

TRI_SET = (
    "Hello. You need the chair and the jugs. First tri-set, three rounds.",
    "First exercise, dead lifts. Twelve reps. Hips back, flat back, and stand up tall. Hips back, and up.",
    9.0,
    "The second exercise is the bent over row. Ten reps. Hold the jugs, lean forward, pull to the hip.",
    9.0,
    "Third exercise, the plank. Breathe. On your elbows and toes, and hold it there, back flat.",
    9.0,
    "Rest a minute between rounds. Pause the video now and do your three rounds.",
    5.0,
    "Welcome back. Thank you for training with me. Next week we do burpees.",
)


def drafted(*parts: str | float, library: str = "plain") -> Draft:
    return draft(say(*parts), series_of(library), number=13, slug="full-cargo", video_length=480)


@pytest.fixture(scope="module")
def tri_set() -> Draft:
    return drafted(*TRI_SET)


def test_the_draft_reads_as_an_episode_file(tri_set: Draft) -> None:
    data = yaml.safe_load(tri_set.yaml_text)
    assert (data["title"], data["number"]) == ("Full cargo", 13)
    (block,) = data["blocks"]
    assert (block["sets"], block["rest"]) == (3, {"between_sets": "60 s"})
    assert [item["exercise"] for item in block["items"]] == ["dead-lift", "row", "plank"]
    assert block["items"][0]["dose"] == "12"


def test_every_finding_says_how_sure_it_is_and_when_it_is_said(tri_set: Draft) -> None:
    for line in tri_set.yaml_text.splitlines():
        if re.match(r" +- exercise:", line):
            assert re.search(r"# 0\.\d\d, (named at \d+:\d\d|described, not named)$", line)
        if re.match(r" +dose:", line):
            assert re.search(r"# ([01]\.\d\d, said at \d+:\d\d|QUESTION)", line)


def test_a_shown_exercise_that_the_library_lacks_is_a_stub_with_its_bare_name() -> None:
    known = FoundItem(exercise="squat", heard="squat", start=10, named_at=10, confidence=0.9)
    new = FoundItem(exercise=None, heard="windmill", start=30, named_at=32, confidence=0.9)
    block = FoundBlock(name="", kind="strength", format="circuit", start=5, items=[known, new])
    text = DraftWriter(series_of("plain"), [block]).text(title="T", number=1, head=())
    assert "# - exercise: windmill\n" in text
    assert "exercises/windmill.yaml" in text
    assert [(stub.id, stub.name) for stub in stubs_of([block])] == [("windmill", "windmill")]


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("The second exercise is called the windmill. Turn and reach down to your foot.", "windmill"),
        ("We call this one the hedge trimmer. Open wide and close, open wide and close.", "hedge trimmer"),
    ],
)
def test_the_name_of_an_unknown_exercise_is_taken_without_the_words_around_it(said: str, name: str) -> None:
    heard = hear(say(said), series_of("plain"))
    assert name_in(heard, 0, len(heard.tokens))[0] == name


def test_what_was_heard_without_a_place_is_listed_with_its_time(tri_set: Draft) -> None:
    assert [one.text for one in tri_set.unplaced] == ["burpee"]
    assert re.search(r"# Heard but not placed:\n#   \d:\d\d  burpee\n", tri_set.yaml_text)


@pytest.mark.parametrize("shown", [True, False])
def test_an_exercise_shown_again_in_a_later_block_is_listed_and_one_only_named_is_not(shown: bool) -> None:
    again = "Second block. Now the plank once more. On your elbows and toes, and hold it, thirty seconds."
    weights = {name: table.weights for name, table in learned().tables.items()}
    model = LearnedModel(weights | {SHOWN: {"bias": 1.0 if shown else -1.0}})
    heard = hear(say(*TRI_SET[:-1], again), series_of("plain"), model)
    blocks = [
        FoundBlock(name="", kind="strength", start=start, items=[item])
        for start, item in (
            (3.0, FoundItem(exercise="plank", heard="plank", start=4, named_at=4, confidence=0.9)),
            (70.0, FoundItem(exercise="squat", heard="", start=71, named_at=71, confidence=0.9)),
        )
    ]
    assert ("plank, again" in [one.text for one in unplaced_in(heard, blocks)]) is shown


def test_an_unsure_stub_is_a_question_and_no_exercise() -> None:
    known = FoundItem(exercise="squat", heard="squat", start=10, named_at=10, confidence=0.9)
    new = FoundItem(exercise=None, heard="windmill", start=30, named_at=32, confidence=0.3)
    block = FoundBlock(name="", kind="strength", format="circuit", start=5, items=[known, new])
    writer = DraftWriter(series_of("plain"), [block])
    text = writer.text(title="T", number=1, head=())
    assert [i["exercise"] for b in yaml.safe_load(text)["blocks"] for i in b["items"]] == ["squat"]
    assert any("is an exercise shown here? (0.30) 'windmill'" in one.text for one in writer.questions)


@pytest.mark.parametrize(("sure", "asked"), [(TURN_BOUND - 0.01, True), (TURN_BOUND, False)])
def test_an_unsure_turn_is_a_question(sure: float, asked: bool) -> None:
    item = FoundItem(exercise="squat", heard="squat", start=10, named_at=10, confidence=0.9)
    block = FoundBlock(name="", kind="strength", start=5, your_turn=40.0, turn_confidence=sure, items=[item])
    text = DraftWriter(series_of("plain"), [block]).text(title="T", number=1, head=())
    assert ("does she hand over here?" in text) is asked


def test_kit_spoken_of_is_listed(tri_set: Draft) -> None:
    [line] = [line for line in tri_set.yaml_text.splitlines() if "kit spoken of" in line]
    assert re.findall(r"[a-z]+(?= \()", line) == ["chair", "jug"]


def test_what_is_not_heard_is_asked_not_made_up() -> None:
    result = drafted(
        "Hello. First block. First exercise, squats. Feet apart, sit down, chest up, and stand up.", 20.0
    )
    assert 'dose: "1"    # QUESTION' in result.yaml_text
    assert "no dose was heard; 1 only keeps the place" in [question.text for question in result.questions]


def test_below_the_bound_a_finding_is_a_question() -> None:
    result = drafted(*TRI_SET)
    unsure = [i for b in result.findings for i in b.items if i.exercise and i.confidence < ITEM_BOUND]
    asked = [q.text for q in result.questions if "shown here" in q.text]
    assert asked == [f"is {item.exercise} shown here?" for item in unsure]


def test_a_routine_of_the_series_is_written_as_such(demo_series: Series) -> None:
    routine = next(b for e in demo_series.episodes for b in e.blocks if b.routine)
    names = [demo_series.exercises[item.exercise].name for item in routine.items]
    talk: list[str | float] = ["Hello. Let's warm up."]
    for name in names:
        talk += [f"Next is the {name}. Do the {name} with me, nice and easy.", 15.0]
    (block,) = yaml.safe_load(draft(say(*talk), demo_series, number=99, slug="a").yaml_text)["blocks"]
    assert block["routine"] == routine.routine
    assert "items" not in block


def test_a_recording_without_known_exercises_gives_no_file() -> None:
    assert drafted("Good evening. Tonight we talk about boats and the weather.", 5.0).yaml_text == ""


def test_no_captions_no_draft() -> None:
    assert draft(Captions(cues=(), problems=[]), series_of("plain"), number=1, slug="a").yaml_text == ""


def test_the_same_recording_gives_the_same_draft(tri_set: Draft) -> None:
    assert drafted(*TRI_SET).yaml_text == tri_set.yaml_text


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return copy_demo(tmp_path_factory.mktemp("demo"))


def one_of_every_hand(most: int | None = None) -> list[Recording]:
    return [next(iter(recordings_of(hand))) for hand in hands()[:most]]


@pytest.mark.parametrize("most", [5, pytest.param(None, marks=pytest.mark.thorough)])
def test_every_draft_builds_as_it_is(demo: Path, most: int | None) -> None:
    """Drafted from the demo library, whatever is found: each file is read without a problem."""
    series = read_series(demo)
    written = {}
    for number, recording in enumerate(one_of_every_hand(most), 60):
        text = draft(recording.captions, series, number=number, slug=f"drafted-{number}").yaml_text
        if text:
            written[f"drafted-{number}"] = text
            (demo / "episodes" / f"{number}-drafted-{number}.yaml").write_text(text, encoding="utf-8")
    episodes = {episode.slug: episode for episode in read_series(demo).episodes}
    assert len(written) > 3
    for slug, text in written.items():
        assert len(episodes[slug].blocks) == len(yaml.safe_load(text)["blocks"])
