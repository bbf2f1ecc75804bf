"""Times go into the trainer's own file; everything else stays as it was written, and differences are told."""

import re

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from sitegen.drafting import FilledPlan, fill_plan
from sitegen.drafting.writing.whole_seconds import settled
from sitegen.reading.textfile import BadFile
from tests.captions.library import series_of
from tests.drafting.talk import say

PLAN = """\
# Session 13, planned on the ferry
title: Full cargo      # working title
number: 13
blocks:
  - name: First tri-set
    kind: strength
    format: tri-set
    sets: 3            # not more
    items:
      # legs first
      - exercise: dead-lift
        dose: 12
      - {exercise: row, dose: 10, note: "slow, please"}   # the blue band?
      - exercise: plank
        at:
        dose: 30 s
  - name: Finish
    kind: strength
    format: superset
    sets: 2
    items:
      - exercise: curl
        dose: 15
      - exercise: crunch
        dose: 20
"""

RECORDING = (
    "Hello. Here is the first tri-set, three rounds.",
    "First exercise, dead lifts. Twelve reps.",
    9.0,
    "Second exercise, bent over rows. Twelve reps.",
    9.0,
    "Third exercise, the plank. Thirty seconds.",
    9.0,
    "Pause the video now and do your three rounds.",
    5.0,
    "Welcome back. Second block, just two sets. First exercise, biceps curls. Fifteen.",
    9.0,
    "Second, crunches. Twenty of them.",
    9.0,
    "Now pause the video.",
    5.0,
    "That's it, thank you for watching.",
)


def filled(*parts: str | float, plan: str = PLAN) -> FilledPlan:
    return fill_plan(plan, say(*parts), series_of("plain"))


def without_times(text: str) -> str:
    return re.sub(r'(?m)^ +(at|your_turn):.*\n| at: "[\d:]+",', "", text)


def test_times_are_set_and_nothing_else_changes() -> None:
    result = filled(*RECORDING)
    assert without_times(result.text) == without_times(PLAN)
    assert (result.found, result.planned, result.related) == (5, 5, True)


def test_every_exercise_begins_where_it_is_announced_within_its_block() -> None:
    """Where a block opens and is handed over is learned; that it lies around its exercises is not."""
    first, second = yaml.safe_load(filled(*RECORDING).text)["blocks"]
    assert [item["at"] for item in first["items"]] == ["0:05", "0:18", "0:31"]
    assert [item["at"] for item in second["items"]] == ["0:56", "1:09"]
    assert "0:01" <= first["at"] <= "0:05"
    assert "0:31" < first.get("your_turn", "0:47") <= second["at"] <= "0:56"
    assert second.get("your_turn", "1:23") > "1:09"


def test_a_dose_said_otherwise_is_a_difference_and_stays_as_planned() -> None:
    result = filled(*RECORDING)
    assert result.differences == ("row: planned 10, said 12 at 0:20",)
    assert "dose: 10" in result.text


def test_sets_said_otherwise_are_a_difference() -> None:
    said = [p.replace("three rounds", "four rounds") if isinstance(p, str) else p for p in RECORDING]
    assert "First tri-set: planned 3 sets, said 4 at 0:04" in filled(*said).differences


def test_an_exercise_left_out_is_asked_for_in_the_file() -> None:
    said = [p for p in RECORDING if not (isinstance(p, str) and "crunches" in p)]
    result = filled(*said)
    assert "crunch: planned, but not found in the recording" in result.differences
    assert "- exercise: crunch    # QUESTION: crunch was not found; when is it shown?" in result.text


def test_an_exercise_that_was_not_planned_is_told() -> None:
    more = "And one more, the push up. Hands on the floor, lower your chest, and push up. Eight push ups."
    said = [*RECORDING[:6], more, 9.0, *RECORDING[6:]]
    assert any(
        d.startswith("push-up: shown at ") and d.endswith("but not planned")
        for d in filled(*said).differences
    )


def test_exercises_in_another_order_are_told() -> None:
    swapped = [*RECORDING[:1], *RECORDING[5:7], *RECORDING[3:5], *RECORDING[1:3], *RECORDING[7:]]
    assert any("in another order than planned" in difference for difference in filled(*swapped).differences)


def test_a_plan_that_has_nothing_to_do_with_the_recording_is_left_alone() -> None:
    result = filled(
        "Hello. First exercise, lunges. Ten each leg.", 20.0, "Second exercise, dips. Eight.", 20.0
    )
    assert not result.related
    assert result.text == PLAN
    assert result.differences == (
        "the plan has little to do with the recording: 0 of its 5 exercises are heard in it",
    )


def test_a_plan_without_exercises_is_told() -> None:
    assert filled(*RECORDING, plan="title: Empty\n").differences == (
        "the plan has no exercises; was the right file given?",
    )


def test_a_name_that_was_not_understood_is_placed_by_what_else_is_said() -> None:
    said = [p.replace("bent over rows", "band oafer roads") if isinstance(p, str) else p for p in RECORDING]
    result = filled(*said)
    assert result.found == 5
    assert 'at: "0:18"' in result.text


def test_times_of_an_earlier_recording_are_replaced() -> None:
    again = filled(*RECORDING, plan=filled(*RECORDING).text)
    assert again.text == filled(*RECORDING).text


def test_a_plan_that_is_no_yaml_is_an_error_with_its_line() -> None:
    with pytest.raises(BadFile, match="plan:2"):
        filled(*RECORDING, plan="title: [a\nnumber: {")


starts = st.one_of(st.none(), st.floats(0, 3000))
found_blocks = st.lists(st.tuples(starts, st.lists(starts, max_size=4), starts), max_size=6)


@given(found_blocks)
def test_settled_times_ascend_as_an_episode_needs(found) -> None:
    latest_block, latest_end = -1, -1
    for times in settled(found):
        if times.at is not None:
            assert times.at > latest_block
            assert times.at >= latest_end
            latest_block = times.at
        latest = times.at if times.at is not None else 0
        for at in times.items:
            if at is not None:
                assert at >= latest
                latest = at
        if times.your_turn is not None:
            assert times.your_turn > latest
            latest_end = times.your_turn
