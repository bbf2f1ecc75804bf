"""Whole sessions as camera software and hosts caption them."""

import pytest

from sitegen.drafting import read_transcript
from sitegen.drafting.heard import hear
from sitegen.drafting.structure.session import session_of
from sitegen.model import Series

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


@pytest.mark.parametrize(
    ("file", "text", "found"),
    [
        (
            "scrolling.vtt",
            SCROLLING,
            {"step-up 10 each side", "bent-over-row 12"},
        ),
        ("listed.txt", LISTED, {"goblet-squat 10", "single-leg-deadlift 8 each side"}),
    ],
    ids=["scrolling", "listed"],
)
def test_a_session_with_the_demo_library(demo_series: Series, file: str, text: str, found: set[str]) -> None:
    """What is shown at length is found with its dose; exercises named only in a list may be missed."""
    captions = read_transcript(text.encode(), file)
    assert captions.problems == []
    blocks = session_of(hear(captions, demo_series))
    assert found <= {f"{item.exercise} {item.dose}" for block in blocks for item in block.items}
