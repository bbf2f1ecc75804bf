"""What trainers write by habit: what it is understood as, and what is asked about."""

from typing import Any

import pytest

from sitegen.notation import Count, Dose, DoseChange, Duration, Effort, Load, NotationError, Quantity, Tempo
from sitegen.notation.habits import HABITS

KINDS: dict[str, Any] = {
    "count": Count,
    "dose": Dose,
    "dose change": DoseChange,
    "duration": Duration,
    "effort": Effort,
    "load": Load,
    "quantity": Quantity,
    "rest": Duration,
    "tempo": Tempo,
}

UNDERSTOOD = {
    "dose": {
        "10each": "10 each", "10 ea": "10 each", "10ea.": "10 each", "10 L/R": "10 each side",
        "10 e/s": "10 each side", "10/leg": "10 each side", "10 reps/side": "10 each side", "8 to 12 each": "8-12 each",
        "30 s ea": "30 s each", "30s/side": "30 s each side", "45 secs each leg": "45 s each side", "10 every side": "10 each side",
        "8 to 12": "8-12", "8 to 12 reps": "8-12", "x10": "10", "10 r": "10", "10 times": "10",
        "45 secs": "45 s", '30"': "30 s", "30''": "30 s", "30 s hold": "30 s", "hold 30 s": "30 s", "hold for 30 seconds": "30 s",
        "30secs": "30 s", "1'30\"": "1 min 30 s", "1'": "1 min", "2 mins": "2 min", "1m30s": "1 min 30 s",
        "AMRAP": "max", "as many as possible": "max", "max reps": "max", "max (2 RIR)": "max, 2 in reserve",
        "20 paces": "20 steps", "20 strides": "20 steps",
        "3*10": "10, then 10, then 10", "3 * 8-12": "8-12, then 8-12, then 8-12", "3 by 10": "10, then 10, then 10",
        "10R/10L": "10 each side", "10 l + 10 r": "10 each side", "10 left, 10 right": "10 each side", "L10/R10": "10 each side",
        "30s R/30s L": "30 s each side", "10 R/L": "10 each side", "10 left and right": "10 each side",
        "3x10": "10, then 10, then 10", "3 x 8-12": "8-12, then 8-12, then 8-12", "3 sets of 10": "10, then 10, then 10",
        "2×30 s": "30 s, then 30 s", "2 x 10 each": "10 each, then 10 each",
        "12/10/8": "12, then 10, then 8", "12, 10, 8": "12, then 10, then 8", "12,10,8": "12, then 10, then 8",
        "2 x 30s each": "30 s each, then 30 s each", "3 x AMRAP": "max, then max, then max", "1x60s": "60 s",
    },
    "dose change": {
        "20 secs": "20 s", "8ea": "8 each", "8 to 12": "8-12", "hold 20 s": "20 s", "amrap": "max",
        "half the reps": "half", "half the time": "half", "50%": "half", "1/2": "half", "x0.5": "half", "half as many": "half",
        "twice": "double", "x2": "double", "2x": "double", "200 %": "double",
        "2 fewer": "-2", "2 less": "-2", "minus 2": "-2", "2 reps less": "-2 reps", "5 more": "+5", "add 5": "+5",
        "10 secs more": "+10 s", "10 sec less": "-10 s", "plus 10 seconds": "+10 s",
        "no change": "same", "unchanged": "same", "as filmed": "same", "the same": "same", "both legs together": "both sides",
    },
    "effort": {
        "RPE8": "RPE 8", "rpe: 8": "RPE 8", "RPE 8/10": "RPE 8", "RPE 8.5": "RPE 8-9", "RPE 7 to 8": "RPE 7-8", "@8": "RPE 8",
        "8/10": "RPE 8", "8 out of 10": "RPE 8", "7-8/10": "RPE 7-8",
        "2 RIR": "2 in reserve", "2RIR": "2 in reserve", "RIR 2": "2 in reserve", "1-2 RIR": "1-2 in reserve",
        "2 left": "2 in reserve", "2 reps left": "2 in reserve", "2 in the tank": "2 in reserve",
    },
    "tempo": {
        "3010": "3-0-1-0", "30X0": "3-0-x-0", "3/1/1/0": "3-1-1-0", "3:1:1:0": "3-1-1-0", "3 1 1 0": "3-1-1-0",
        "3-1-1": "3-1-1-0", "311": "3-1-1-0", "tempo 3110": "3-1-1-0", "3,1,x,0": "3-1-x-0",
    },
    "load": {
        "5 kg each hand": "2 x 5 kg", "5 kg per hand": "2 x 5 kg", "5 kg each": "2 x 5 kg", "5kg/hand": "2 x 5 kg", "2 x 5 kg each": "2 x 5 kg",
        "5 kg x 2": "2 x 5 kg", "12 kgs": "12 kg", "12 kilos": "12 kg", "12,5 kg": "12.5 kg", "25 pounds": "25 lb",
        "5 l of water": "5 l water", "5 litres of water": "5 l water", "2,5 l water": "2.5 l water", "8 kg sand": "8 kg", "8 kg of sand": "8 kg",
        "5 l of water and 3 l of water": "5 l water + 3 l water", "5 l of water each hand": "2 x 5 l water", "500 grams": "500 g",
    },
    "rest": {"90": "90 s", "60-90": "60-90 s", "60 to 90 secs": "60-90 s", "45 secs": "45 s", '30"': "30 s", "2 mins": "2 min", "no rest": "none"},
    "duration": {"45 secs": "45 s", "35 to 40 mins": "35-40 min", "8 mins": "8 min"},
    "count": {"3 sets": "3", "3x": "3", "2 to 3": "2-3", "x3": "3", "4 rounds": "4"},
    "quantity": {"12,5 kg": "12.5 kg", "20 cms": "20 cm", "70 kilos": "70 kg"},
}  # fmt: skip

CASES = [(kind, text, usual) for kind, table in UNDERSTOOD.items() for text, usual in table.items()]


@pytest.mark.parametrize(("kind", "text", "usual"), CASES, ids=[f"{kind} {text}" for kind, text, _ in CASES])
def test_a_habit_is_understood(kind: str, text: str, usual: str) -> None:
    read = KINDS[kind].parse
    try:
        assert str(read(text)) == str(read(usual))  # the form itself allows it
    except NotationError:
        assert HABITS[kind](text) == usual
        assert str(read(str(read(usual)))) == str(read(usual))


ASKED = {
    ("dose", "12-10-8"): ("'12-10-8' can be read in two ways", "write [12, 10, 8] for 3 sets of 12, 10 and 8, or 12 + 10 + 8 for one set in 3 parts"),
    ("dose", "to failure"): ("'to failure' can be read in two ways", "write max for as many as can be done well, or max, 0 in reserve for until no more is possible"),
    ("dose", "10+"): ("'10+' can be read in two ways", "write 10-15 for a range, or max, 2 in reserve for as many as can be done well"),
    ("dose", "AMRAP 10"): ("'AMRAP 10' can be read in several ways", "write max for as many as can be done well, or 10 s for a time; for rounds write in the block format: as many rounds as possible and time: 10 min"),
    ("dose", "3x"): ("'3x' can be read in two ways", "write 3 for 3 repetitions; for 3 sets write sets: 3 in the block and the repetitions here"),
    ("dose change", "12-10-8"): ("'12-10-8' can be read in two ways", "write 12, then 10, then 8 for 3 sets, or 12 + 10 + 8 for one set in 3 parts"),
    ("dose", "10 alternating"): ("'10 alternating' can be read in two ways", "write 5 each side for 10 in all, side by side, or 10 each side for as many on either side"),
    ("effort", "8"): ("'8' can be read in two ways", "write RPE 8 for how hard it feels, or 8 in reserve for repetitions left over"),
    ("rest", "2"): ("'2' can be read in two ways", "write 2 s for seconds, or 2 min for minutes"),
    ("duration", "12"): ("'12' can be read in two ways", "write 12 s for seconds, or 12 min for minutes"),
    ("load", "1,200 g"): ("'1,200' in '1,200 g' can be read in two ways", "write 1200 or 1.2, without a comma"),
    ("load", "bodyweight"): ("'bodyweight' is no load", "leave load: out where nothing is held"),
}  # fmt: skip


@pytest.mark.parametrize(("case", "said"), ASKED.items(), ids=[" ".join(case) for case in ASKED])
def test_what_can_be_read_in_two_ways_is_asked(case: tuple[str, str], said: tuple[str, str]) -> None:
    kind, text = case
    with pytest.raises(NotationError):
        KINDS[kind].parse(text)
    with pytest.raises(NotationError) as caught:
        HABITS[kind](text)
    assert (caught.value.what, caught.value.instead) == said


NO_HABIT = {
    "dose": ["lots", "8 or 12", "-3", "8 sides", "", "30x10", "8.5", "100 km"],
    "dose change": ["a bit less", "30%", "2 more km", ""],
    "effort": ["hard", "", "RPE", "RIR"],
    "tempo": ["slow", "30100", "3-1", ""],
    "load": ["heavy", "", "kg"],
    "rest": ["a while", ""],
    "count": ["some", ""],
}
UNKNOWN = [(kind, text) for kind, texts in NO_HABIT.items() for text in texts]


@pytest.mark.parametrize(
    ("kind", "text"), UNKNOWN, ids=[f"{kind} {text or 'nothing'}" for kind, text in UNKNOWN]
)
def test_what_is_no_habit_stays_refused(kind: str, text: str) -> None:
    with pytest.raises(NotationError):
        KINDS[kind].parse(HABITS[kind](text) or text)
