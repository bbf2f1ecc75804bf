"""The short forms: what may be written, what it means, and that printing gives it back."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.notation import (
    Count,
    Dose,
    DoseChange,
    Duration,
    Effort,
    Load,
    LoadPart,
    NotationError,
    Quantity,
    Tempo,
    format_clock,
    parse_clock,
)

# --- what is written, and what it is printed as ------------------------------------------------

PRINTED = {
    Dose: {
        "8": "8",
        "8 reps": "8",
        "8-12": "8-12",
        "8 – 12": "8-12",
        "8 each side": "8 each side",
        "8 per side": "8 each side",
        "8/side": "8 each side",
        "10 each leg": "10 each side",
        "30 s": "30 s",
        "30 seconds": "30 s",
        "30 s each side": "30 s each side",
        "1:30": "90 s",
        "2 min": "2 min",
        "8 + 7": "8 + 7",
        "8+7+6": "8 + 7 + 6",
        "20 steps": "20 steps",
        "5 breaths": "5 breaths",
        "max, 2 in reserve": "max, 2 in reserve",
        "8-12, 1-2 reps in reserve": "8-12, 1-2 in reserve",
        "MAX": "max",
    },
    DoseChange: {"half": "half", "both sides": "both sides", "double": "double", "-2": "-2", "+ 10 s": "+10 s", "6-8": "6-8", "20 s each side": "20 s each side"},
    Duration: {
        "15 s": "15 s",
        "60-90 s": "60-90 s",
        "90 s": "90 s",
        "1 min": "60 s",
        "2 min": "2 min",
        "1-2 min": "60-120 s",
        "1:30": "90 s",
        "1:00-1:30": "60-90 s",
        "1 min 30 s": "90 s",
        "none": "none",
    },
    Tempo: {"3-1-1-0": "3-1-1-0", "2 - 0 - X - 0": "2-0-x-0"},
    Effort: {"RPE 7": "RPE 7", "rpe 6–7": "RPE 6-7", "2 in reserve": "2 in reserve", "1-3 reps in reserve": "1-3 in reserve"},
    Load: {
        "12 kg": "12 kg",
        "25 lbs": "25 lb",
        "5 l water": "5 l water",
        "5 litres water": "5 l water",
        "2 x 5 l water": "2 x 5 l water",
        "2×5 l water": "2 x 5 l water",
        "5 l water + 5 l water": "2 x 5 l water",
        "5 l water + 3 l water": "5 l water + 3 l water",
        "1 US gal sand": "1 US gal sand",
        "500 g": "500 g",
    },
    Count: {"3": "3", "2-3": "2-3"},
    Quantity: {"20 cm": "20 cm", "8 inches": "8 in", "2.5 kg": "2.5 kg"},
}  # fmt: skip

FORMS = [(kind, text, printed) for kind, table in PRINTED.items() for text, printed in table.items()]


@pytest.mark.parametrize(("kind", "text", "printed"), FORMS, ids=[f"{k.__name__} {t}" for k, t, _ in FORMS])
def test_a_form_is_read_and_printed(kind: Any, text: str, printed: str) -> None:
    value = kind.parse(text)
    assert str(value) == printed
    assert kind.parse(printed) == value


MEANINGS = {
    "8 each side": Dose(kind="count", low=8, high=8, per_side=True),
    "8-12": Dose(kind="count", low=8, high=12),
    "30-45 s": Dose(kind="time", low=30, high=45),
    "8 + 7": Dose(kind="count", low=15, high=15, parts=(8, 7)),
    "20 steps": Dose(kind="count", low=20, high=20, unit="steps"),
    "30 m": Dose(kind="distance", low=30, high=30, unit="m"),
    "20-30 m each side": Dose(kind="distance", low=20, high=30, unit="m", per_side=True),
    "100 feet": Dose(kind="distance", low=100, high=100, unit="ft"),
    "30yd": Dose(kind="distance", low=30, high=30, unit="yd"),
    "2 min": Dose(kind="time", low=120, high=120),
    "max, 2 in reserve": Dose(kind="max", reserve=(2, 2)),
}


@pytest.mark.parametrize(("text", "dose"), MEANINGS.items(), ids=MEANINGS)
def test_what_a_dose_means(text: str, dose: Dose) -> None:
    assert Dose.parse(text) == dose


MALFORMED = {
    Dose: [
        "",
        "eight",
        "12-8",
        "0",
        "0 s",
        "8 +",
        "8 + 0",
        "-3",
        "8 sides",
        "max 2",
        "8, 2 spare",
        "8.5",
        "100000",
        "8-1000000",
        "1e9x",
        "0 m",
        "30 km",
        "30-20 m",
        "10 m + 10 m",
    ],
    DoseChange: ["", "third", "-", "+x", "-2 km"],
    Duration: ["", "15", "15 h", "1000000 s", "90-60 s", "1:75", "a while", "-5 s", "1:00-1:30-2:00"],
    Tempo: ["", "3-1-1", "3-1-1-0-0", "x-1-1-0", "a-b-c-d", "0-0-0-0", "311 0"],
    Effort: ["", "RPE 11", "RPE", "hard", "3-2 in reserve", "RPE 7.5", "25 in reserve"],
    Load: [
        "",
        "5",
        "5 l",
        "5 kg water",
        "heavy",
        "0 kg",
        "5 l sand + 1 kg + 2 kg",
        "5 cm",
        "5 l milk",
        "1 gal water",
    ],
    Count: ["", "0", "3-2", "two", "3 sets"],
    Quantity: ["", "5", "cm", "5 stone", "1 gallon"],
}
BAD = [(kind, text) for kind, texts in MALFORMED.items() for text in texts]


@pytest.mark.parametrize(("kind", "text"), BAD, ids=[f"{k.__name__} {t or 'nothing'}" for k, t in BAD])
def test_what_is_no_form_is_refused_with_an_example(kind: Any, text: str) -> None:
    with pytest.raises(NotationError) as caught:
        kind.parse(text)
    assert caught.value.what
    assert caught.value.instead


# --- clock times -------------------------------------------------------------------------------

CLOCKS = {
    "0:00": 0,
    "0:05": 5,
    "2:05": 125,
    "59:59": 3599,
    "1:00:00": 3600,
    "1:02:05": 3725,
    "90:00": 5400,
    "10:00:00": 36000,
}


@pytest.mark.parametrize(("text", "seconds"), CLOCKS.items(), ids=CLOCKS)
def test_clock_times(text: str, seconds: int) -> None:
    assert parse_clock(text) == seconds


@pytest.mark.parametrize(
    "text", ["", "5", "125", "2:5", "2:60", "1:60:00", ":30", "2:05.5", "-1:00", "2:05:"]
)
def test_what_is_no_clock_time(text: str) -> None:
    with pytest.raises(NotationError):
        parse_clock(text)


@given(st.integers(0, 99 * 3600))
def test_every_second_is_printed_and_read_back(seconds: int) -> None:
    assert parse_clock(format_clock(seconds)) == seconds


# --- round trip of everything ------------------------------------------------------------------

_ranges = st.tuples(st.integers(1, 200), st.integers(0, 50)).map(lambda pair: (pair[0], pair[0] + pair[1]))
_reserve = st.none() | st.tuples(st.integers(0, 5), st.integers(0, 5)).map(lambda pair: (pair[0], sum(pair)))
_counts = st.builds(
    lambda ends, unit, side, reserve: Dose(kind="count", low=ends[0], high=ends[1], unit=unit, per_side=side, reserve=reserve),
    _ranges,
    st.sampled_from(["reps", "steps", "breaths"]),
    st.booleans(),
    _reserve,
)  # fmt: skip
_distances = st.builds(
    lambda ends, unit, side: Dose(kind="distance", low=ends[0], high=ends[1], unit=unit, per_side=side),
    _ranges,
    st.sampled_from(["m", "ft", "yd"]),
    st.booleans(),
)
_times = st.builds(
    lambda ends, side, reserve: Dose(kind="time", low=ends[0], high=ends[1], per_side=side, reserve=reserve),
    _ranges,
    st.booleans(),
    _reserve,
)
_splits = st.lists(st.integers(1, 30), min_size=2, max_size=4).map(
    lambda parts: Dose(kind="count", low=sum(parts), high=sum(parts), parts=tuple(parts))
)
_doses = st.one_of(
    _counts, _distances, _times, _splits, st.builds(lambda r: Dose(kind="max", reserve=r), _reserve)
)


_set_by_set = st.lists(
    st.one_of(_splits, st.integers(1, 30).map(lambda n: Dose(kind="count", low=n, high=n))),
    min_size=2,
    max_size=6,
).map(Dose.of_sets)


@given(_set_by_set)
def test_every_dose_set_by_set_survives_printing(dose: Dose) -> None:
    assert Dose.parse(str(dose)) == dose
    assert Dose.parse(str(dose)).of_set(1) == dose.of_set(1)


@given(_doses)
def test_every_dose_survives_printing(dose: Dose) -> None:
    assert Dose.parse(str(dose)) == dose


@given(st.integers(0, 7200), st.integers(0, 600))
def test_every_duration_survives_printing(low: int, more: int) -> None:
    duration = Duration(low, low + more)
    assert Duration.parse(str(duration)) == duration


_amounts = st.integers(1, 2000).map(lambda tenths: tenths / 10)
_parts = st.one_of(
    st.builds(lambda a, u: LoadPart(Quantity(a, u)), _amounts, st.sampled_from(["kg", "g", "lb"])),
    st.builds(
        lambda a, u, f: LoadPart(Quantity(a, u), f),
        _amounts,
        st.sampled_from(["l", "ml", "US gal", "imperial gal"]),
        st.sampled_from(["water", "sand", "rice"]),
    ),
)


@given(st.lists(_parts, min_size=1, max_size=2).map(tuple))
def test_every_load_survives_printing(parts: tuple[LoadPart, ...]) -> None:
    assert Load.parse(str(Load(parts))) == Load(parts)


def test_loads_of_named_pieces_are_one_load() -> None:
    load = Load.of_pieces({"bucket": Load.parse("10 l sand"), "can": Load.parse("4 l water")})

    assert [(part.piece, str(part)) for part in load.parts] == [("bucket", "10 l sand"), ("can", "4 l water")]
    assert str(load) == "10 l sand + 4 l water"


@given(st.lists(st.integers(1, 40), min_size=2, max_size=5, unique=True))
def test_every_load_set_by_set_survives_printing(kilograms: list[int]) -> None:
    load = Load.of_sets([Load.parse(f"{kg} kg") for kg in kilograms])
    assert Load.parse(str(load)) == load
    assert str(load.parts[0]) == f"{max(kilograms)} kg"


# --- changes of dose ---------------------------------------------------------------------------

CHANGED = {
    ("both sides", "8 each side"): "8",
    ("both sides", "30 s each way"): "30 s",
    ("half", "8"): "4",
    ("half", "5"): "3",
    ("half", "1"): "1",
    ("half", "8-12 each side"): "4-6 each side",
    ("half", "30 s"): "15 s",
    ("-2", "8-12"): "6-10",
    ("-20", "8"): "1",
    ("-2", "30 s"): "30 s",
    ("-10 s", "30 s"): "20 s",
    ("+10 s", "8"): "8",
    ("double", "8 + 7"): "30",
    ("half", "max, 2 in reserve"): "max, 2 in reserve",
    ("20 s each side", "12"): "20 s each side",
    ("20-30 s", "40 steps"): "20-30 s",
    ("same", "8 + 7"): "8 + 7",
    ("half", "30 m each side"): "15 m each side",
    ("-2", "30 m"): "30 m",
    ("-10 m", "30 m"): "20 m",
    ("-10 m", "40 steps"): "40 steps",
    ("-10 steps", "40 steps"): "30 steps",
    ("-10 steps", "8"): "8",
}


@pytest.mark.parametrize(("pair", "expected"), CHANGED.items(), ids=[" on ".join(pair) for pair in CHANGED])
def test_a_change_of_dose(pair: tuple[str, str], expected: str) -> None:
    change, dose = pair
    assert str(DoseChange.parse(change).apply(Dose.parse(dose))) == expected


# --- units -------------------------------------------------------------------------------------

EXACT = {
    # NIST SP 811 appendix B and 16 CFR 500.19: exact by definition.
    "1 in": 2.54,
    "1 lb": 0.45359237,
    "1 US gal": 3.785411784,
    "1 imperial gal": 4.54609,
    "12 in": 30.48,
    "1 m": 100,
    "1 ft": 30.48,
    "1 yd": 91.44,
    "750 ml": 0.75,
}


@pytest.mark.parametrize(("text", "base"), EXACT.items(), ids=EXACT)
def test_units_have_their_exact_size(text: str, base: float) -> None:
    assert Quantity.parse(text).base == pytest.approx(base, rel=1e-12)


def test_each_way_is_each_side_by_another_word():
    circles, sides = Dose.parse("12 s each way"), Dose.parse("12 s each side")
    assert circles == sides
    assert (str(circles), str(sides)) == ("12 s each way", "12 s each side")
    assert str(DoseChange.parse("half").apply(circles)) == "6 s each way"
