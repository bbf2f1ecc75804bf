"""Floors under the measured figures, on the development half only.

``python -m tests.bench captions`` tells all. The other half is only measured: a test on it would make it
a development half.
"""

import pytest

from tests.bench_captions import an_hour
from tests.captions.errors import spoil
from tests.captions.make import FILES, SUFFIX, cues_of, truth_of, written
from tests.captions.measure import measured, recordings
from tests.captions.score import Score, share
from tests.captions.script import all_scripts
from tests.captions.speech import speak


@pytest.mark.parametrize(
    ("errors", "plan", "found", "doses", "turns"),
    [
        pytest.param(False, False, 0.97, 0.95, 0.95, id="clean"),
        pytest.param(False, True, 0.98, 0.97, 0.95, id="clean-with-plan"),
        pytest.param(True, False, 0.90, 0.83, 0.85, id="error-ridden"),
        pytest.param(True, True, 0.94, 0.90, 0.85, id="error-ridden-with-plan"),
    ],
)
def test_the_development_half_stays_as_good_as_it_was(
    errors: bool, plan: bool, found: float, doses: float, turns: float
) -> None:
    total: Score = measured("dev", errors=errors, plan=plan, seeds=("a",))
    assert min(total.recall, total.precision) >= found
    assert share(total.doses_right, total.doses) >= doses
    assert share(total.turns_right, total.turns) >= turns
    assert total.start_error(0.5) <= 3.0


def test_an_hour_of_talk_takes_less_than_two_seconds() -> None:
    assert min(an_hour()[0] for _ in range(3)) < 2.0


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


def test_there_are_enough_recordings_of_each_half() -> None:
    assert len(list(recordings("dev"))) >= 15
    assert len(list(recordings("held"))) == 10


def test_errors_are_the_same_every_time_and_change_about_a_tenth_of_the_words() -> None:
    recorded = next(iter(recordings("dev")))
    cues = recorded.captions.cues
    once, again = (spoil(cues, "seed") for _ in range(2))
    assert once == again
    before = " ".join(cue.text for cue in spoil(cues, "seed", rate=0.0)).split()
    after = " ".join(cue.text for cue in once).split()
    same = len(set(before) & set(after)) / len(set(before))
    assert 0.75 < same < 0.97
