"""Times of every format, worked by hand, and what must hold for any block.

In these tables: ``row`` takes 3 s a repetition (the series' tempo 2-0-1-0), ``slow`` 5 s (its own
tempo 3-1-1-0); a changeover is 10 s. Each comment shows the arithmetic: work, then rest.
"""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sitegen.notation import Count, Duration
from sitegen.study.span import Span
from sitegen.study.timing import block_time, item_sets, session_time, set_seconds
from sitegen.vocabulary import (
    AMRAP,
    CIRCUIT,
    EMOM,
    FORMATS,
    GIANT_SET,
    INTERVALS,
    STRAIGHT,
    SUPERSET,
    TRI_SET,
)
from tests.study.series_parts import block, details, episode, exercise, forms, item

SERIES = details()
LIBRARY = forms(
    exercise("row"),
    exercise("slow", tempo="3-1-1-0"),
    exercise("plank"),
    exercise("carry"),
    exercise("breath"),
)


def straight(*items, **more):
    return block(STRAIGHT, *items, **more)


def superset(*items, **more):
    return block(SUPERSET, *items, **more)


def tri_set(*items, **more):
    return block(TRI_SET, *items, **more)


def giant_set(*items, **more):
    return block(GIANT_SET, *items, **more)


def circuit(*items, **more):
    return block(CIRCUIT, *items, **more)


def intervals(*items, **more):
    return block(INTERVALS, *items, **more)


def amrap(*items, time, **more):
    return block(AMRAP, *items, time=time, **more)


def emom(*items, time=None, **more):
    return block(EMOM, *items, time=time, **more)


# name: (block, work, rest inside, everything with the rest after it), each (low, high) in seconds
BY_HAND = {
    # 3 x 8 x 3; 2 x 60
    "straight, one item": (straight("row 8", sets="3", rest="60 s"), (72, 72), (120, 120), (192, 192)),
    # 3 x 8 x 3 to 3 x 12 x 3; 2 x 60 to 2 x 90
    "straight, ranges": (straight("row 8-12", sets="3", rest="60-90 s"), (72, 108), (120, 180), (192, 288)),
    # 2 x 2 x 24; changing sides 2 x 10, then 45
    "straight, each side": (
        straight("row 8 each side", sets="2", rest="45 s"),
        (96, 96),
        (65, 65),
        (161, 161),
    ),
    # 3 x 30 + 3 x 50; 2 x 60 for either, 90 from one to the other
    "straight, two items": (
        straight("row 10", "slow 10", sets="3", gap="90 s", rest="60 s"),
        (240, 240),
        (330, 330),
        (570, 570),
    ),
    # 2 x 30 + 2 x 50; 60 for either, changeover 10
    "straight, no rest written": (
        straight("row 10", "slow 10", sets="2"),
        (160, 160),
        (130, 130),
        (290, 290),
    ),
    # 2 x 30 to 3 x 30; 1 x 30 to 2 x 30
    "straight, two or three sets": (
        straight("plank 30 s", sets="2-3", rest="30 s"),
        (60, 90),
        (30, 60),
        (90, 150),
    ),
    # 12 x 3; no rest after the only set; 120 after the block
    "straight, a single set": (straight("row 12", after="2 min"), (36, 36), (0, 0), (156, 156)),
    # 2 x 6 x 3 to 2 x 15 x 3; 60
    "straight, max": (straight("row max", sets="2", rest="60 s"), (36, 90), (60, 60), (96, 150)),
    # 2 x 15 x 3; pauses inside 2 x 5 to 2 x 15, then 60
    "straight, split": (straight("row 8 + 7", sets="2", rest="60 s"), (90, 90), (70, 90), (160, 180)),
    # 3 x 40 x 0.6 to 3 x 40 x 1; 2 x 60
    "straight, steps": (straight("carry 40 steps", sets="3", rest="60 s"), (72, 120), (120, 120), (192, 240)),
    # 3 x (30 + 40); 3 x 15 + 2 x 60 to 3 x 15 + 2 x 90
    "superset, rests written": (
        superset("row 10", "slow 8", sets="3", gap="15 s", rest="60-90 s"),
        (210, 210),
        (165, 225),
        (375, 435),
    ),
    # 2 x (30 + 30); 2 x 10 + 60
    "superset, no rest written": (superset("row 10", "row 10", sets="2"), (120, 120), (80, 80), (200, 200)),
    # 3 x (30 + 30); 3 x 10 + 2 x 30
    "superset, conditioning": (
        superset("row 10", "plank 30 s", sets="3", kind="conditioning"),
        (180, 180),
        (90, 90),
        (270, 270),
    ),
    # 2 x 15 + 2 x 5 x 4 to 2 x 15 + 2 x 5 x 6; 2 x 10 + 10
    "superset, mobility with breaths": (
        superset("row 5", "breath 5 breaths", sets="2", kind="mobility"),
        (70, 90),
        (30, 30),
        (100, 120),
    ),
    # 2 x (2 x 24 + 30); changing sides 2 x 10, then 60
    "superset, each side": (
        superset("row 8 each side", "slow 6", sets="2", gap="none", rest="1 min"),
        (156, 156),
        (80, 80),
        (236, 236),
    ),
    # 2 x 48 to 3 x 48; 2 x 10 + 45 to 3 x 20 + 2 x 60
    "superset, two or three sets": (
        superset("row 8", "row 8", sets="2-3", gap="10-20 s", rest="45-60 s"),
        (96, 144),
        (65, 180),
        (161, 324),
    ),
    # 4 x (10 x 2.5 + 6 x 5); 4 x 15 + 3 x 90
    "superset, a fast lift": (
        superset("row 10 @2-0-x-0", "slow 6", sets="4", gap="15 s", rest="90 s"),
        (220, 220),
        (330, 330),
        (550, 550),
    ),
    # 60 + 45; 20; 60 to 90 after
    "superset, one set": (
        superset("row 20", "plank 45 s", gap="20 s", after="60-90 s"),
        (105, 105),
        (20, 20),
        (185, 215),
    ),
    # 3 x (2 x 6 x 4 + 40 + 24); sides 3 x 10, exercises 3 x 2 x 15, sets 2 x 60 to 2 x 90; 120 after
    "tri-set, rests written": (
        tri_set(
            "row 6 each side @3-0-1-0", "slow 8", "row 8", sets="3", gap="15 s", rest="60-90 s", after="2 min"
        ),
        (336, 336),
        (240, 300),
        (696, 756),
    ),
    # 3 x 90; 3 x 2 x 10 + 2 x 60
    "tri-set, no rest written": (
        tri_set("row 10", "row 10", "row 10", sets="3"),
        (270, 270),
        (180, 180),
        (450, 450),
    ),
    # 2 x 60; 2 x 2 x 10 + 30
    "tri-set, conditioning": (
        tri_set("plank 20 s", "plank 20 s", "plank 20 s", sets="2", kind="conditioning"),
        (120, 120),
        (70, 70),
        (190, 190),
    ),
    # 2 x 3 x 24 to 2 x 3 x 30; 90
    "tri-set, no rest inside": (
        tri_set("row 8-10", "row 8-10", "row 8-10", sets="2", gap="none", rest="90 s"),
        (144, 180),
        (90, 90),
        (234, 270),
    ),
    # 2 x (45 + 25 + 30); pauses 2 x 5 to 2 x 15, exercises 2 x 2 x 10, sets 60
    "tri-set, split": (
        tri_set("row 8 + 7", "slow 5", "plank 30 s", sets="2", gap="10 s", rest="60 s"),
        (200, 200),
        (110, 130),
        (310, 330),
    ),
    # 20 + 16 + 60 to 30 + 24 + 60; sides 10, exercises 2 x 10
    "tri-set, cool-down": (
        tri_set("breath 5 breaths", "breath 4 breaths", "plank 30 s each side", kind="cool-down"),
        (96, 114),
        (30, 30),
        (126, 144),
    ),
    # 3 x (18 + 30 + 12) to 3 x (45 + 30 + 20); 3 x 2 x 15 + 2 x 60
    "tri-set, max": (
        tri_set("row max", "plank 30 s", "carry 20 steps", sets="3", gap="15 s", rest="60 s"),
        (180, 285),
        (210, 210),
        (390, 495),
    ),
    # 30 + 50 + 40 to twice that; 2 x 20 to 2 x 2 x 20 + 60
    "tri-set, one or two sets": (
        tri_set("row 10", "slow 10", "plank 40 s", sets="1-2", gap="20 s", rest="60 s"),
        (120, 240),
        (40, 140),
        (160, 380),
    ),
    # 3 x 4 x 30; 3 x 3 x 10 + 2 x 120
    "giant set, rests written": (
        giant_set("row 10", "row 10", "row 10", "row 10", sets="3", gap="10 s", rest="2 min"),
        (360, 360),
        (330, 330),
        (690, 690),
    ),
    # 2 x 4 x 30; 2 x 3 x 10 + 60
    "giant set, no rest written": (
        giant_set("row 10", "row 10", "row 10", "row 10", sets="2"),
        (240, 240),
        (120, 120),
        (360, 360),
    ),
    # 2 x 5 x 30; 2 x 4 x 15 + 60 to 2 x 4 x 15 + 90
    "giant set, five items": (
        giant_set(*["plank 30 s"] * 5, sets="2", gap="15 s", rest="60-90 s"),
        (300, 300),
        (180, 210),
        (480, 510),
    ),
    # 3 x (48 + 40 + 48 + 40); sides 3 x 2 x 10, exercises 3 x 3 x 15, sets 2 x 90
    "giant set, two each side": (
        giant_set(*["row 8 each side", "slow 8"] * 2, sets="3", gap="15 s", rest="90 s"),
        (528, 528),
        (375, 375),
        (903, 903),
    ),
    # 2 x 4 x 36 to 2 x 4 x 45; 2 x 3 x 10 + 30
    "giant set, conditioning": (
        giant_set(*["row 12-15"] * 4, sets="2", kind="conditioning"),
        (288, 360),
        (90, 90),
        (378, 450),
    ),
    # 2 x 80 to 3 x 80; 2 x 3 x 10 + 60 to 3 x 3 x 10 + 2 x 60
    "giant set, two or three sets": (
        giant_set(*["plank 20 s"] * 4, sets="2-3", gap="10 s", rest="60 s"),
        (160, 240),
        (120, 210),
        (280, 450),
    ),
    # 10 x 4 + 10 x 6 + 10 x 0.6 + 30 to the same with 10 x 1; 3 x 10; 90 after
    "giant set, own tempos": (
        giant_set("slow 10 @2-0-2-0", "row 10 @3-0-3-0", "carry 10 steps", "plank 30 s", after="90 s"),
        (136, 140),
        (30, 30),
        (256, 260),
    ),
    # 4 x 6 x 15; 3 x 120
    "giant set, six items without a pause": (
        giant_set(*["row 5"] * 6, sets="4", gap="none", rest="2 min"),
        (360, 360),
        (360, 360),
        (720, 720),
    ),
    # 30 + 20 + 5 x 4 + 2 x 15; sides 10, exercises 3 x 10
    "circuit, warm-up": (
        circuit("plank 30 s", "plank 20 s", "row 5 @2-0-2-0", "plank 15 s each way", kind="warm-up"),
        (100, 100),
        (40, 40),
        (140, 140),
    ),
    # 3 x (2 x 10 x 2 + 30); sides 3 x 10, exercises 3 x 15, rounds 2 x 45; 90 after
    "circuit, conditioning": (
        circuit(
            "row 10 each side @1-0-1-0",
            "plank 30 s",
            kind="conditioning",
            sets="3",
            gap="15 s",
            rest="45 s",
            after="90 s",
        ),
        (210, 210),
        (165, 165),
        (465, 465),
    ),
    # 3 x 4 x 40; 3 x 3 x 10 + 2 x 30
    "circuit, no rest written": (
        circuit(*["plank 40 s"] * 4, kind="conditioning", sets="3"),
        (480, 480),
        (150, 150),
        (630, 630),
    ),
    # 2 x 5 x 40; 2 x 4 x 20 + 60
    "circuit, work time instead of doses": (
        circuit(*["row"] * 5, sets="2", work="40 s", gap="20 s", rest="1 min"),
        (400, 400),
        (220, 220),
        (620, 620),
    ),
    # 2 x 60; 2 x 10 + 10
    "circuit, warm-up in two rounds": (
        circuit("row 10", "row 10", kind="warm-up", sets="2"),
        (120, 120),
        (30, 30),
        (150, 150),
    ),
    # 2 x (24 + 40) to 3 x (36 + 60); 2 x 15 + 60 to 3 x 20 + 2 x 90
    "circuit, ranges": (
        circuit("row 8-12", "slow 8-12", sets="2-3", gap="15-20 s", rest="60-90 s"),
        (128, 288),
        (90, 240),
        (218, 528),
    ),
    # 3 x 45; 2 x 30
    "circuit, one item": (circuit("row 15", sets="3", rest="30 s"), (135, 135), (60, 60), (195, 195)),
    # 2 x (2 x 12 + 12) to 2 x (2 x 20 + 18); sides 2 x 10
    "circuit, steps and breaths": (
        circuit("carry 20 steps each side", "breath 3 breaths", sets="2", gap="none", rest="none"),
        (72, 116),
        (20, 20),
        (92, 136),
    ),
    # 4 x 40; 3 x 20
    "intervals, one round": (
        intervals(*["row"] * 4, work="40 s", gap="20 s"),
        (160, 160),
        (60, 60),
        (220, 220),
    ),
    # 3 x 160; 3 x 60, between rounds again 2 x 20
    "intervals, rounds run on": (
        intervals(*["row"] * 4, work="40 s", gap="20 s", sets="3"),
        (480, 480),
        (220, 220),
        (700, 700),
    ),
    # 3 x 160; 3 x 60 + 2 x 60
    "intervals, rest between rounds": (
        intervals(*["row"] * 4, work="40 s", gap="20 s", rest="60 s", sets="3"),
        (480, 480),
        (300, 300),
        (780, 780),
    ),
    # 4 x 2 x 30, whatever the doses; 4 x 15 + 3 x 15
    "intervals, work time before doses": (
        intervals("row 12", "plank 20 s each side", work="30 s", gap="15 s", sets="4"),
        (240, 240),
        (105, 105),
        (345, 345),
    ),
    # 8 x 20; 7 x 10
    "intervals, no rest written": (
        intervals(*["row"] * 8, work="20 s", kind="conditioning"),
        (160, 160),
        (70, 70),
        (230, 230),
    ),
    # 2 x 3 x 30 to 2 x 3 x 40; 2 x 2 x 20 + 60 to 2 x 2 x 30 + 90
    "intervals, ranges": (
        intervals(*["row"] * 3, work="30-40 s", gap="20-30 s", rest="60-90 s", sets="2"),
        (180, 240),
        (140, 210),
        (320, 450),
    ),
    # 3 x 90; 3 x 15 + 2 x 15
    "intervals, times as doses": (
        intervals("plank 45 s", "plank 45 s", gap="15 s", sets="3"),
        (270, 270),
        (75, 75),
        (345, 345),
    ),
    # 5 x 60; nothing; 120 after
    "intervals, without a pause": (
        intervals(*["row"] * 5, work="1 min", gap="none", after="2 min"),
        (300, 300),
        (0, 0),
        (420, 420),
    ),
    # a round is 30 + 30: all 480 are work
    "as many rounds, without a pause": (
        amrap("row 10", "plank 30 s", time="8 min", gap="none"),
        (480, 480),
        (0, 0),
        (480, 480),
    ),
    # a round is 60 of work and 2 x 10: 360 x 60/80; 360 x 20/80
    "as many rounds, changeovers": (
        amrap("row 10", "row 10", time="6 min"),
        (270, 270),
        (90, 90),
        (360, 360),
    ),
    # a round is 45 and 15: 600 x 3/4; 600 x 1/4
    "as many rounds, rest written": (
        amrap("row 15", time="10 min", gap="15 s"),
        (450, 450),
        (150, 150),
        (600, 600),
    ),
    # a round is 40 and 20: 240 x 2/3; 240 x 1/3; 60 after
    "as many rounds, rest after": (
        amrap("slow 4", "plank 20 s", time="4 min", gap="10 s", after="60 s"),
        (160, 160),
        (80, 80),
        (300, 300),
    ),
    # a round is 30, changing sides 10 and 10 more: 300 x 3/5; 300 x 2/5
    "as many rounds, each side": (
        amrap("row 5 each side", time="5 min", gap="10 s"),
        (180, 180),
        (120, 120),
        (300, 300),
    ),
    # a round is 24 to 36 of nothing but work
    "as many rounds, a range of doses": (
        amrap("row 8-12", time="6 min", gap="none"),
        (360, 360),
        (0, 0),
        (360, 360),
    ),
    # a round is 30 and 10: 360 x 3/4 to 480 x 3/4; 360 x 1/4 to 480 x 1/4
    "as many rounds, a range of times": (
        amrap("row 10", time="6-8 min", gap="10 s"),
        (270, 360),
        (90, 120),
        (360, 480),
    ),
    # a round is 15 and 45: 240 x 1/4; 240 x 3/4
    "as many rounds, more rest than work": (
        amrap("row 5", time="4 min", gap="45 s"),
        (60, 60),
        (180, 180),
        (240, 240),
    ),
    # 10 x 30; the rest of ten minutes
    "every minute, one item": (emom("row 10", time="10 min"), (300, 300), (300, 300), (600, 600)),
    # 5 x 30 + 5 x 40; 600 - 350
    "every minute, two items": (
        emom("row 10", "plank 40 s", time="10 min"),
        (350, 350),
        (250, 250),
        (600, 600),
    ),
    # 4 x 15 + 3 x 30 + 3 x 30; 600 - 240
    "every minute, three items in ten minutes": (
        emom("row 5", "row 10", "plank 30 s", time="10 min"),
        (240, 240),
        (360, 360),
        (600, 600),
    ),
    # 10 x 24 to 10 x 36; 600 - 360 to 600 - 240
    "every minute, a range of doses": (emom("row 8-12", time="10 min"), (240, 360), (240, 360), (600, 600)),
    # 70 s do not fit: 5 x 60
    "every minute, more than fits": (emom("plank 70 s", time="5 min"), (300, 300), (0, 0), (300, 300)),
    # 6 x 36, changing sides in the rest of the minute: 360 - 216
    "every minute, each side": (emom("row 6 each side", time="6 min"), (216, 216), (144, 144), (360, 360)),
    # 4 x 30 + 4 x 15 to 5 x 30 + 5 x 15; 480 - 180 to 600 - 225
    "every minute, a range of times": (
        emom("row 10", "row 5", time="8-10 min"),
        (180, 225),
        (300, 375),
        (480, 600),
    ),
    # 3 x 4 x 20; 720 - 240; 120 after
    "every minute, rest after": (
        emom(*["plank 20 s"] * 4, time="12 min", after="2 min"),
        (240, 240),
        (480, 480),
        (840, 840),
    ),
    # no time written, five rounds of two minutes: 10 x 30; 600 - 300
    "every minute, rounds instead of a time": (
        emom("row 10", "row 10", sets="5"),
        (300, 300),
        (300, 300),
        (600, 600),
    ),
}


@pytest.mark.parametrize(("done", "work", "rest", "whole"), BY_HAND.values(), ids=BY_HAND)
def test_block_worked_by_hand(done, work, rest, whole):
    time = block_time(SERIES, LIBRARY, done)

    assert (time.work.low, time.work.high) == pytest.approx(work)
    assert (time.rest.low, time.rest.high) == pytest.approx(rest)
    assert (time.seconds.low, time.seconds.high) == pytest.approx(whole)


def test_every_format_is_worked_by_hand_at_least_eight_times():
    formats = [done.format for done, *_ in BY_HAND.values()]

    assert {name: formats.count(name) >= 8 for name in FORMATS} == dict.fromkeys(FORMATS, True)


# video, names of blocks done in the viewer's turn, names of blocks along with it, your turns, total
SESSIONS = {
    # 465 + 696 to 465 + 756
    "circuit and tri-set": (
        506,
        ["circuit, conditioning", "tri-set, rests written"],
        ["circuit, warm-up"],
        (1161, 1221),
        (1667, 1727),
    ),
    # 192 + 156
    "straight sets": (300, ["straight, one item", "straight, a single set"], [], (348, 348), (648, 648)),
    # 375 + 550 to 435 + 550
    "supersets": (
        420,
        ["superset, rests written", "superset, a fast lift"],
        ["tri-set, cool-down"],
        (925, 985),
        (1345, 1405),
    ),
    # 450 + 390 to 450 + 495
    "tri-sets": (400, ["tri-set, no rest written", "tri-set, max"], [], (840, 945), (1240, 1345)),
    # 690 + 280 to 690 + 450
    "giant sets": (
        610,
        ["giant set, rests written", "giant set, two or three sets"],
        ["circuit, warm-up in two rounds"],
        (970, 1140),
        (1580, 1750),
    ),
    # 700 + 420
    "intervals": (
        350,
        ["intervals, rounds run on", "intervals, without a pause"],
        [],
        (1120, 1120),
        (1470, 1470),
    ),
    # 300 + 360 to 300 + 480
    "as many rounds": (
        280,
        ["as many rounds, rest after", "as many rounds, a range of times"],
        [],
        (660, 780),
        (940, 1060),
    ),
    # 840 + 480 to 840 + 600
    "every minute": (
        275,
        ["every minute, rest after", "every minute, a range of times"],
        [],
        (1320, 1440),
        (1595, 1715),
    ),
    # 375 + 360 + 600 + 192 to 435 + 360 + 600 + 288
    "four formats": (
        560,
        [
            "superset, rests written",
            "as many rounds, changeovers",
            "every minute, one item",
            "straight, ranges",
        ],
        ["circuit, warm-up", "tri-set, cool-down"],
        (1527, 1683),
        (2087, 2243),
    ),
    "nothing but the video": (900, [], ["circuit, warm-up"], (0, 0), (900, 900)),
}


@pytest.mark.parametrize(("video", "turns", "along", "your_turn", "whole"), SESSIONS.values(), ids=SESSIONS)
def test_session_is_the_video_and_the_your_turns(video, turns, along, your_turn, whole):
    blocks = [BY_HAND[name][0] for name in turns]
    blocks += [replace(BY_HAND[name][0], your_turn=None) for name in along]

    time = session_time(SERIES, LIBRARY, episode(1, *blocks, video=video))

    assert time.your_turn == Span(*your_turn)
    assert time.seconds == Span(*whole)


def test_session_without_a_known_video_length_has_no_total():
    time = session_time(SERIES, LIBRARY, episode(1, straight("row 8")))

    assert time.video is None
    assert time.your_turn == Span(24, 24)
    assert time.seconds is None


def test_a_video_of_no_length_still_counts_as_known():
    time = session_time(SERIES, LIBRARY, episode(1, straight("row 8"), video=0))

    assert time.seconds == Span(24, 24)


@pytest.mark.parametrize(
    ("written", "seconds"),
    [
        ("row 8", (24, 24)),
        ("row 8-12", (24, 36)),
        ("slow 8", (40, 40)),
        ("slow 8 @2-0-2-0", (32, 32)),
        ("row 10 @2-0-x-0", (25, 25)),
        ("row 8 each side", (58, 58)),
        ("plank 30 s", (30, 30)),
        ("plank 20-30 s each side", (50, 70)),
        ("row 8 + 7", (50, 60)),
        ("row 4 + 3 + 3", (40, 60)),
        ("row 4 + 3 each side", (62, 82)),
        ("carry 20 steps", (12, 20)),
        ("breath 5 breaths", (20, 30)),
        ("row max, 2 in reserve", (18, 45)),
        ("row", (18, 45)),
    ],
)
def test_one_set(written, seconds):
    assert set_seconds(SERIES, LIBRARY, straight(), item(written)) == Span(*seconds)


def test_tempo_of_the_item_comes_before_that_of_the_exercise_and_that_of_the_series():
    library = forms(exercise("own", tempo="4-0-2-0"), exercise("plain"))
    series = details(tempo=item("any 1 @5-0-5-0").tempo)

    assert set_seconds(series, library, straight(), item("own 1 @1-0-1-0")) == Span(2, 2)
    assert set_seconds(series, library, straight(), item("own 1")) == Span(6, 6)
    assert set_seconds(series, library, straight(), item("plain 1")) == Span(10, 10)


@pytest.mark.parametrize(
    ("done", "sets"),
    [
        (straight("row 8", sets="2-3"), [(2, 3)]),
        (emom("row 8", "row 8", "row 8", time="10 min"), [(4, 4), (3, 3), (3, 3)]),
        (emom("row 8", "row 8", time="8-11 min"), [(4, 6), (4, 5)]),
        # rounds of 60 s in 480 s
        (amrap("row 10", "plank 30 s", time="8 min", gap="none"), [(8, 8), (8, 8)]),
        # rounds of 80 s; the last needs no changeover after it: 370 / 80
        (amrap("row 10", "row 10", time="6 min"), [(4, 4), (4, 4)]),
        # three rounds of 60 s and the changeover before the next: 170 s are just enough
        (amrap("row 10", "slow 2", time="170 s"), [(3, 3), (3, 3)]),
        (amrap("row 10", "slow 2", time="169 s"), [(2, 2), (2, 2)]),
        # rounds of 24 to 36 s in 360 s
        (amrap("row 8-12", time="6 min", gap="none"), [(10, 15)]),
        # a round of 100 s does not fit
        (amrap("plank 100 s", time="60 s"), [(0, 0)]),
    ],
)
def test_how_often_each_item_is_done(done, sets):
    assert list(item_sets(SERIES, LIBRARY, done)) == [Span(*span) for span in sets]


doses = st.sampled_from(
    ["row 8", "slow 8-12", "row 6 each side", "plank 20-40 s", "row 8 + 7", "carry 9 steps", "row max", "row"]
)
ranges = st.tuples(st.integers(0, 90), st.integers(0, 60)).map(lambda ends: Duration(ends[0], sum(ends)))
counts = st.tuples(st.integers(1, 4), st.integers(0, 3)).map(lambda ends: Count(ends[0], sum(ends)))
blocks = st.builds(
    lambda shape, items, kind, sets, gap, rest, after, time: replace(
        block(shape, *items, kind=kind),
        sets=sets,
        rest=replace(block(shape).rest, between_exercises=gap, between_sets=rest, after=after),
        time=time if shape in (AMRAP, EMOM) else None,
        work=time if shape == INTERVALS else None,
    ),
    st.sampled_from(FORMATS),
    st.lists(doses, min_size=1, max_size=5),
    st.sampled_from(["warm-up", "conditioning", "strength"]),
    counts,
    st.none() | ranges,
    st.none() | ranges,
    st.none() | ranges,
    st.tuples(st.integers(60, 600), st.integers(0, 300)).map(lambda ends: Duration(ends[0], sum(ends))),
)


def test_rest_of_a_time_that_is_all_work_is_nothing_and_not_a_little_less():
    done = replace(
        block(AMRAP, "carry 9 steps"),
        rest=replace(block(AMRAP).rest, between_exercises=Duration(0, 0)),
        time=Duration(100, 100),
    )

    assert block_time(SERIES, LIBRARY, done).rest == Span(0, 0)


@settings(deadline=None)
@given(blocks)
def test_low_is_never_above_high(done):
    time = block_time(SERIES, LIBRARY, done)

    for span in (time.seconds, time.work, time.rest, time.after, *item_sets(SERIES, LIBRARY, done)):
        assert 0 <= span.low <= span.high


@settings(deadline=None)
@given(blocks)
def test_parts_add_up_to_the_whole(done):
    time = block_time(SERIES, LIBRARY, done)

    for end in (time.short, time.long):
        assert sum(end.work) + end.rest + end.after == pytest.approx(end.whole)
    if done.format in (AMRAP, EMOM):
        cap = done.time
        assert time.seconds.low - time.after.low == pytest.approx(cap.low)
        assert time.seconds.high - time.after.high == pytest.approx(cap.high)


@settings(deadline=None)
@given(blocks, st.integers(1, 3))
def test_more_sets_never_take_less_time(done, more):
    longer = replace(done, sets=Count(done.sets.low + more, done.sets.high + more))

    before, after = (block_time(SERIES, LIBRARY, one).seconds for one in (done, longer))

    assert before.low <= after.low
    assert before.high <= after.high


@settings(deadline=None)
@given(blocks, st.integers(1, 60))
def test_more_rest_never_takes_less_time(done, seconds):
    gap = done.rest.between_exercises or SERIES.changeover
    longer = replace(
        done, rest=replace(done.rest, between_exercises=Duration(gap.low + seconds, gap.high + seconds))
    )

    before, after = (block_time(SERIES, LIBRARY, one).seconds for one in (done, longer))

    assert before.low <= after.low
    assert before.high <= after.high


@settings(deadline=None)
@given(st.lists(blocks, max_size=4), st.integers(0, 3600))
def test_session_is_the_sum_of_its_parts(done, video):
    time = session_time(SERIES, LIBRARY, episode(1, *done, video=video))

    assert time.seconds.low == pytest.approx(video + sum(one.seconds.low for one in time.blocks))
    assert time.seconds.high == pytest.approx(video + sum(one.seconds.high for one in time.blocks))
