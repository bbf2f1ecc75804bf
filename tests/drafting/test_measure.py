"""Floors under the measured figures, with the weights that are shipped.

These weights have seen the recordings; what strangers' recordings get is told by
``python -m tests.bench captions``, which leaves each hand out of the learning.
"""

from collections.abc import Iterator

import pytest

from sitegen.drafting.learned_tables import learned
from tests.bench_captions import measured
from tests.captions.corpus import OWN, Recording, hands, recordings_of, unseen_hands, unseen_recordings_of
from tests.captions.errors import spoil
from tests.captions.make import FILES, SUFFIX, cues_of, truth_of, written
from tests.captions.script import all_scripts
from tests.captions.speech import speak


@pytest.fixture(
    scope="module",
    params=[
        pytest.param(slice(1, None, 3), id="one in three"),
        pytest.param(slice(None), id="all", marks=pytest.mark.thorough),
    ],
)
def own_rates(request: pytest.FixtureRequest) -> dict[str, float]:
    return measured(list(recordings_of(OWN))[request.param], learned()).rates()


def test_the_own_recordings_stay_as_good_as_they_were(own_rates: dict[str, float]) -> None:
    assert min(own_rates["recall 60 s"], own_rates["precision 60 s"]) >= 0.93
    assert own_rates["start s"] <= 4.0


def test_few_doses_are_wrong_without_a_question(own_rates: dict[str, float]) -> None:
    assert own_rates["dose wrong"] <= 0.04


@pytest.mark.parametrize("script", all_scripts(), ids=lambda script: script.name)
def test_the_caption_files_are_those_of_the_scripts(script) -> None:
    """Captions and truth are made from hand-written scripts; nobody has changed one without the other."""
    import yaml

    words, marks = speak(script)
    form = script.header["form"]
    path = FILES / f"{script.name}{SUFFIX[form]}"
    assert path.read_text(encoding="utf-8") == written(cues_of(script, words), form)
    truth = yaml.safe_load(path.with_suffix(".truth.yaml").read_text(encoding="utf-8"))
    assert truth == truth_of(script, marks, words)


@pytest.mark.parametrize("hand", [hand for hand in hands() if hand != OWN])
def test_every_recording_can_be_read(hand: str) -> None:
    _read(recordings_of(hand))


# Recordings do not change: those that came last are read in the thorough run only.
@pytest.mark.parametrize(
    "hand",
    [pytest.param(hand, marks=[pytest.mark.thorough] if hand >= "K" else []) for hand in unseen_hands()],
)
def test_every_unseen_recording_can_be_read(hand: str) -> None:
    _read(unseen_recordings_of(hand))


def _read(recordings: Iterator[Recording]) -> None:
    for recording in recordings:
        assert recording.captions.cues, recording.name
        assert recording.truth["blocks"], recording.name
        known = {i["exercise"] for b in recording.truth["blocks"] for i in b["items"]} - {None}
        assert known <= set(recording.series.exercises), recording.name


def test_errors_are_the_same_every_time_and_change_about_a_tenth_of_the_words() -> None:
    cues = next(iter(recordings_of(OWN))).captions.cues
    once, again = (spoil(cues, "seed") for _ in range(2))
    assert once == again
    before = " ".join(cue.text for cue in spoil(cues, "seed", rate=0.0)).split()
    after = " ".join(cue.text for cue in once).split()
    same = len(set(before) & set(after)) / len(set(before))
    assert 0.75 < same < 0.97
