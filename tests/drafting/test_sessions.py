"""Whole sessions as camera software and hosts caption them."""

import pytest
import yaml

from sitegen.drafting import draft, fill_plan, read_transcript
from sitegen.drafting.heard import hear
from sitegen.drafting.structure.session import DOSE_BOUND
from sitegen.model import Series
from sitegen.notation import parse_clock
from sitegen.reading.captions.cues import Captions
from tests.captions.score import NEAR

SCROLLING = """\
WEBVTT
Kind: captions
Language: en

00:00:00.560 --> 00:00:03.120 align:start position:0%
\x20
hey<00:00:00.800><c> everybody</c><00:00:01.040><c> welcome</c><00:00:01.500><c> back</c>

00:00:03.120 --> 00:00:03.130 align:start position:0%
hey everybody welcome back
\x20

00:00:03.130 --> 00:00:12.400 align:start position:0%
hey everybody welcome back
it's workout number four gonna start with a try set so first one is dead lifts

00:00:12.410 --> 00:00:20.400 align:start position:0%
it's workout number four gonna start with a try set so first one is dead lifts
I'm using my water jugs you want to do 12 of those

00:00:20.410 --> 00:00:30.400 align:start position:0%
I'm using my water jugs you want to do 12 of those
then you're gonna do step ups on your stairs 10 each leg

00:00:30.410 --> 00:00:50.400 align:start position:0%
then you're gonna do step ups on your stairs 10 each leg
and then push ups again 12 and if your wrists bother you do them on your fists so three rounds

00:00:50.410 --> 00:00:55.400 align:start position:0%
and then push ups again 12 and if your wrists bother you do them on your fists so three rounds
pause the video and come back

00:01:05.410 --> 00:01:12.400 align:start position:0%
okay second try set bent over row with the water jugs 12

00:01:12.410 --> 00:01:20.400 align:start position:0%
then side raises with something light like a soup can fifteen

00:01:20.410 --> 00:01:28.400 align:start position:0%
and last one is the reverse lunge ten on each side so go ahead and do that
"""

LISTED = """\
[0:00] Morning everyone. This is a lower body and core session, so expect goblet squats and some planking.
[0:11] Warm up with me: one minute of marching in place, then hip circles, ten each direction.
[1:40] OK. Block A. We alternate two movements for four rounds. A1 is the goblet squat, ten reps,
[1:52] hug the bag. A2 is the single leg deadlift, eight per side. Keep a hand on the counter.
[2:05] Take ninety seconds between rounds. Over to you, pause the clip.
[2:20] Nice job. Block B is a finisher: glute bridges, side plank and mountain climbers, forty seconds
 each, twenty seconds rest, three times through.
[2:34] On the glute bridge, drive through the heels. On the side plank, stack your feet; knees down is fine.
 Mountain climbers: hands under shoulders.
[2:50] Hit pause and get after it.
[3:05] Cool down. Figure four stretch, forty seconds each side, and finish with five deep breaths.
[3:30] Great work, see you Wednesday for the upper body day.
"""


SESSIONS = {
    "scrolling.vtt": (
        SCROLLING,
        {"step-up": 20, "push-up": 30, "bent-over-row": 65, "reverse-lunge": 81},
        {"12", "10 each side", "15"},
    ),
    "listed.txt": (
        LISTED,
        {"goblet-squat": 105, "single-leg-deadlift": 114, "side-plank": 140, "mountain-climber": 140},
        {"10 each side", "10", "8 each side", "40 s", "40 s each side", "5 breaths", "60 s"},
    ),
}
"""The file, exercises that are named while shown with about when (in seconds), and all doses that are said.
Which of them is found by itself is for the learned tables to say; what is asked of any tables is below.
"""


@pytest.fixture(params=SESSIONS)
def session(request: pytest.FixtureRequest) -> tuple[Captions, dict[str, int], set[str]]:
    text, shown, said = SESSIONS[request.param]
    captions = read_transcript(text.encode(), request.param)
    assert captions.problems == []
    return captions, shown, said


def test_a_session_laid_under_its_plan_is_found_where_it_is_named(session, demo_series: Series) -> None:
    captions, shown, _ = session
    items = "".join(f"      - exercise: {exercise}\n" for exercise in shown)
    plan = f"title: Planned\nblocks:\n  - name: All\n    kind: strength\n    items:\n{items}"
    filled = fill_plan(plan, captions, demo_series)
    found = [item.get("at") for item in yaml.safe_load(filled.text)["blocks"][0]["items"]]
    near = [
        clock is not None and abs(parse_clock(clock) - at) <= NEAR
        for clock, at in zip(found, shown.values(), strict=True)
    ]
    assert sum(near) >= len(shown) - 1


def test_no_exercise_named_in_a_session_is_lost(session, demo_series: Series) -> None:
    """Each is drafted, or listed as heard."""
    captions, shown, _ = session
    text = draft(captions, demo_series, number=1, slug="a").yaml_text
    assert [exercise for exercise in shown if exercise not in text] == []


def test_a_dose_written_without_a_question_is_one_that_is_said(session, demo_series: Series) -> None:
    captions, _, said = session
    found = draft(captions, demo_series, number=1, slug="a").findings
    sure = {str(i.dose) for block in found for i in block.items if i.dose_confidence >= DOSE_BOUND}
    assert sure <= said


def test_scrolling_text_is_heard_once(demo_series: Series) -> None:
    captions = read_transcript(SCROLLING.encode(), "scrolling.vtt")
    words = hear(captions, demo_series).words(0, 200)
    for once in ("workout number 4", "water jugs you want", "pause the video", "reverse lunge"):
        assert words.count(once) == 1
