"""What the limits of a need make of a dose, an effort, a tempo and a load, worked by hand."""

import itertools
from dataclasses import replace

import pytest

from sitegen.model import Kit, Limits
from sitegen.notation import Dose, Effort, Load, LoadPart, Quantity, Tempo
from sitegen.study.load import load_mass, part_mass
from sitegen.study.need_limits import UnlimitedForm, lighter, merge, prescribe

KIT = {
    "bag": Kit(id="bag", name="Bag", holds=Quantity(15, "kg")),
    "tin": Kit(id="tin", name="Tin", weighs=(Quantity(400, "g"), Quantity(800, "g"))),
    "carrier": Kit(id="carrier", name="Carrier", holds=Quantity(5, "l")),
}


def asked(
    dose,
    *,
    kind="strength",
    pattern="squat",
    tempo=None,
    effort=None,
    load=None,
    own_load=False,
    usual="2-0-1-0",
):
    held = Load.parse(load) if load else None
    return UnlimitedForm(
        kind=kind,
        pattern=pattern,
        dose=Dose.parse(dose),
        tempo=Tempo.parse(tempo) if tempo else None,
        usual_tempo=Tempo.parse(usual),
        effort=Effort.parse(effort) if effort else None,
        load=held,
        own_load=own_load,
        filmed_kg=load_mass(held).high if held else None,
    )


# dose, effort as filmed; most RPE; dose and effort then
EFFORT = {
    "within the limit": ("8", "4 in reserve", 6, "8", "4 in reserve"),
    "as many fewer as are to be left": ("10", "2 in reserve", 6, "8", "4 in reserve"),
    "the lower end of a range is what it may come to": ("8", "1-2 in reserve", 6, "5", "4 in reserve"),
    "a range that reaches over the limit": ("8", "3-5 in reserve", 6, "7", "4-5 in reserve"),
    "both ends of a dose": ("8-12", "2 in reserve", 6, "6-10", "4 in reserve"),
    "never to less than half": ("3", "0 in reserve", 5, "2", "5 in reserve"),
    "a split becomes its first part": ("8 + 5", "1 in reserve", 6, "5", "4 in reserve"),
    "exertion is the same scale": ("10", "RPE 8", 6, "8", "RPE 6"),
    "exertion as a range": ("30 s", "RPE 6-8", 7, "30 s", "RPE 6-7"),
    "a timed set is not cut, only done with less": ("30 s", "RPE 8", 6, "30 s", "RPE 6"),
    "where nothing is said the limit is": ("10", None, 6, "10", "4 in reserve"),
    "and for what is not counted in repetitions as exertion": ("20 steps", None, 6, "20 steps", "RPE 6"),
    "as many as can be done, less the reserve": ("max, 2 in reserve", None, 6, "max, 4 in reserve", None),
    "as many as can be done, without a word": ("max", None, 6, "max, 4 in reserve", None),
    "each set by itself": ("12, then 10, then 8", "2 in reserve", 6, "10, then 8, then 6", "4 in reserve"),
    "a reserve that the dose names": ("10, 2 in reserve", None, 6, "8, 4 in reserve", None),
}


@pytest.mark.parametrize(("dose", "effort", "most", "left", "easier"), EFFORT.values(), ids=EFFORT)
def test_effort(dose, effort, most, left, easier):
    found = prescribe(asked(dose, effort=effort), Limits(effort=most), KIT)

    assert (str(found.dose), found.effort and str(found.effort)) == (left, easier)
    assert ("fewer" in found.changes) == (left.split(",")[0] != dose.split(",")[0])


def test_rounds_of_conditioning_stay_as_many():
    found = prescribe(asked("20", kind="conditioning", effort="RPE 8"), Limits(effort=6), KIT)
    assert (str(found.dose), str(found.effort)) == ("20", "RPE 6")


def test_a_stretch_without_a_word_of_effort_gets_none():
    found = prescribe(asked("30 s", kind="cool-down", pattern="mobility"), Limits(effort=4), KIT)
    assert (found.effort, found.changes) == (None, ())


def test_a_set_to_the_most_becomes_a_number():
    found = prescribe(asked("max, 2 in reserve"), Limits(max_sets=False), KIT)
    assert (str(found.dose), found.changes) == ("6, 2 in reserve", ("counted",))
    found = prescribe(asked("max, 2 in reserve"), Limits(max_sets=False, effort=6), KIT)
    assert (str(found.dose), set(found.changes)) == ("6, 4 in reserve", {"counted", "effort"})


# kind, pattern, dose; dose within 10 s
HOLDS = {
    "a wall sit": ("strength", "squat", "30 s", "10 s"),
    "each side": ("strength", "trunk", "20 s each side", "10 s each side"),
    "a range": ("strength", "squat", "8-20 s", "8-10 s"),
    "short enough": ("strength", "trunk", "10 s", "10 s"),
    "walking is no hold": ("strength", "locomotion", "30 s", "30 s"),
    "a plank between jumps is one": ("conditioning", "trunk", "30 s", "10 s"),
    "squats against the clock are none": ("conditioning", "squat", "30 s", "30 s"),
    "a stretch is none": ("cool-down", "mobility", "30 s", "30 s"),
    "repetitions are none": ("strength", "trunk", "12", "12"),
}


@pytest.mark.parametrize(("kind", "pattern", "dose", "left"), HOLDS.values(), ids=HOLDS)
def test_holds(kind, pattern, dose, left):
    found = prescribe(asked(dose, kind=kind, pattern=pattern), Limits(hold=10), KIT)
    assert str(found.dose) == left
    assert ("shorter" in found.changes) == (left != dose)


@pytest.mark.parametrize(
    ("dose", "tempo", "usual", "left"),
    [
        ("8", "3-0-x-1", "2-0-1-0", "3-0-2-1"),
        ("8", None, "2-0-x-0", "2-0-2-0"),
        ("8", "2-0-1-0", "2-0-x-0", "2-0-1-0"),
        ("8", None, "2-0-1-0", None),
        ("20 s", "2-0-x-0", "2-0-1-0", "2-0-x-0"),
    ],
    ids=["as written", "as usual for the exercise", "what is written counts", "slow anyway", "timed"],
)
def test_an_explosive_lift_takes_two_seconds(dose, tempo, usual, left):
    found = prescribe(asked(dose, tempo=tempo, usual=usual), Limits(speed=False), KIT)
    assert (found.tempo and str(found.tempo)) == left


# piece, load; limit in kg, share of what is filmed; load then, None where it cannot be kept
LOADS = {
    "light enough": ("bag", "5 kg", 5, None, "5 kg"),
    "a bag in half kilograms": ("bag", "8 kg", 5.8, None, "5.5 kg"),
    "half of it": ("bag", "9 kg", None, 0.5, "4.5 kg"),
    "the stricter of two": ("bag", "9 kg", 4, 0.5, "4 kg"),
    "water in half litres": ("carrier", "5 l water", 3.2, None, "3 l water"),
    "sand at its heaviest, 1.6 kg a litre": ("carrier", "4 l sand", 5, None, "3 l sand"),
    "both hands share": ("carrier", "2 x 4 l water", 5, None, "2 x 2.5 l water"),
    "uneven loads come out even": ("carrier", "5 l water + 3 l water", 4, None, "2 x 2 l water"),
    "the lighter of two may stay": ("carrier", "5 l water + 1 l water", 5, None, "2.5 l water + 1 l water"),
    "the tin that is light enough": ("tin", "2 x 800 g", 1, None, "2 x 400 g"),
    "no tin is light enough": ("tin", "2 x 400 g", 0.5, None, None),
    "less than half a kilogram in tenths": ("bag", "2 kg", 0.38, None, "0.3 kg"),
    "next to nothing": ("bag", "2 kg", 0.15, None, None),
    "nothing at all": ("bag", "2 kg", 0, None, None),
    "pounds": ("bag", "20 lb", 5, None, "11 lb"),
}


def in_piece(load, piece):
    return Load(tuple(LoadPart(part.quantity, part.fill, piece) for part in Load.parse(load).parts))


@pytest.mark.parametrize(("piece", "load", "most", "share", "left"), LOADS.values(), ids=LOADS)
def test_loads(piece, load, most, share, left):
    filmed = in_piece(load, piece)
    one = UnlimitedForm(
        kind="strength",
        pattern="hinge",
        dose=Dose.parse("8"),
        usual_tempo=Tempo.parse("2-0-1-0"),
        load=filmed,
        filmed_kg=load_mass(filmed).high,
    )
    found = prescribe(one, Limits(load=most, load_share=share), KIT)

    assert (found and str(found.load)) == left
    if found is not None:
        allowed = min(
            limit for limit in (most, share and share * load_mass(filmed).high) if limit is not None
        )
        assert load_mass(found.load).high <= allowed + 1e-9
        assert found.changes == (("lighter",) if left != load else ())


def test_a_load_that_nobody_wrote_gets_only_its_limit():
    found = prescribe(asked("8", own_load=True), Limits(load=5), KIT)
    assert (found.load, found.most_kg, found.changes) == (None, 5, ("light",))
    assert prescribe(asked("8", own_load=True), Limits(load=0), KIT) is None
    assert prescribe(asked("8"), Limits(load=0), KIT).changes == ()


@pytest.mark.parametrize(
    ("own_load", "filmed", "most", "kept"),
    [
        (True, None, None, None),
        (True, None, 5, None),
        (True, "8 kg", None, (4, ("light",))),
        (False, None, None, (None, ())),
    ],
    ids=["nobody wrote it", "nor with kilograms besides", "that of the video is written", "no load"],
)
def test_a_share_of_a_load_that_nobody_wrote_cannot_be_kept(own_load, filmed, most, kept):
    one = asked("8", own_load=own_load)
    one = replace(one, filmed_kg=load_mass(Load.parse(filmed)).high if filmed else None)
    found = prescribe(one, Limits(load_share=0.5, load=most), KIT)
    assert (found and (found.most_kg, found.changes)) == kept


def test_no_load_is_ever_more_than_allowed_or_than_it_was():
    units = {
        "kg": (1, 7.3),
        "g": (300, 950),
        "lb": (2, 25),
        "l": (0.7, 5),
        "ml": (400, 4500),
        "US gal": (0.3, 2),
    }
    for (unit, amounts), most in itertools.product(units.items(), (0.05, 0.21, 0.77, 1, 2.49, 5)):
        for amount in amounts:
            fills = (None,) if unit in ("kg", "g", "lb") else ("water", "sand", "rice")
            for fill in fills:
                part = LoadPart(Quantity(amount, unit), fill, "bag")
                left = lighter(part, most, KIT)
                if left is not None:
                    assert part_mass(left).high <= min(most, part_mass(part).high) + 1e-6


ALL = [
    Limits(
        effort=effort, max_sets=max_sets, load=load, load_share=share, speed=speed, hold=hold, session=session
    )
    for effort, max_sets, load, share, speed, hold, session in [
        (None, True, None, None, True, None, None),
        (6, True, None, 0.5, True, 10, 1200),
        (7, False, 5.0, None, False, 20, None),
        (4, True, 8.0, 0.3, True, None, 900),
    ]
]


@pytest.mark.parametrize(("one", "other"), list(itertools.product(ALL, ALL)))
def test_of_two_needs_the_stricter_limit_holds(one, other):
    both = merge([one, other])
    assert both == merge([other, one])
    assert merge([both, one]) == both
    for name in ("effort", "load", "load_share", "hold", "session"):
        set_ = [value for value in (getattr(one, name), getattr(other, name)) if value is not None]
        assert getattr(both, name) == min(set_, default=None)
    assert both.max_sets == (one.max_sets and other.max_sets)
    assert both.speed == (one.speed and other.speed)
