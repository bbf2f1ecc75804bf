"""The estimate of a session's energy and its minutes by intensity, worked by hand."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sitegen.model import Block, Details, Stepping
from sitegen.notation import Count, Duration, Quantity, Tempo
from sitegen.study.energy import block_kcal, met_of, minutes_by_band, session_kcal
from sitegen.study.forms import FormKey
from sitegen.study.span import Span
from sitegen.study.timing import block_time
from sitegen.vocabulary import AMRAP, CIRCUIT, EMOM, STRAIGHT
from tests.study.series_parts import block, details, episode, exercise, forms, item, kilograms, variant

SERIES = details(body_mass=kilograms(50, 100))
STEP_UP = Stepping(height=Quantity(20, "cm"), per_minute=20)
LIBRARY = forms(
    exercise("row"),
    exercise("four", met=4.0),
    exercise("eight", variant("other-pattern", pattern="hinge"), met=8.0),
    exercise("sitting", met=1.2),
    exercise("squat", pattern="squat"),
    exercise("stepper", variant("slower"), pattern="step", stepping=STEP_UP),
    exercise("stepper-with-met", pattern="step", stepping=STEP_UP, met=6.0),
    exercise("jack", pattern="locomotion", demands=("jumping",)),
    exercise("stretch", pattern="mobility"),
)


def kcal(series: Details, done: Block) -> Span:
    return block_kcal(series, LIBRARY, done, block_time(series, LIBRARY, done))


def test_kilocalories_worked_by_hand():
    # short: 10 min at 4 MET + 1 min still: (40 + 1.5) x 3.5 x 50 / 200 = 36.3125
    # long: 10 min and 2 min of rest, all at 4 MET: 48 x 3.5 x 100 / 200 = 84
    done = block(STRAIGHT, "four 5 min", sets="2", rest="60-120 s")

    found = kcal(SERIES, done)

    assert found.low == pytest.approx(36.3125)
    assert found.high == pytest.approx(84)


def test_rests_count_as_the_work_does_on_average():
    # long: 2 min at 4 and 2 min at 8 MET, 2 min of rest at 6: 36 x 3.5 x 100 / 200
    done = block(CIRCUIT, "four 2 min", "eight 2 min", gap="2 min")

    assert kcal(SERIES, done).high == pytest.approx(63)


def test_rest_is_never_dearer_than_the_work():
    # 2 min at 1.2 MET and 1 min of rest at the same: 3.6 x 3.5 x 50 / 200
    done = block(STRAIGHT, "sitting 1 min", sets="2", rest="60 s")

    assert kcal(SERIES, done).low == pytest.approx(3.15)


def test_session_is_the_sum_of_its_blocks():
    blocks = [block(STRAIGHT, "four 5 min"), block(STRAIGHT, "eight 1 min", along=True)]

    whole = session_kcal(SERIES, LIBRARY, episode(1, *blocks, video=600))

    # 5 x 4 + 8 = 28 MET-minutes
    assert (whole.low, whole.high) == (pytest.approx(28 * 3.5 / 4), pytest.approx(28 * 3.5 / 2))


@pytest.mark.parametrize(
    ("key", "kind", "met"),
    [
        (FormKey("row"), "strength", 3.5),
        (FormKey("row"), "conditioning", 4.3),
        (FormKey("row"), "warm-up", 2.8),
        (FormKey("row"), "mobility", 2.3),
        (FormKey("row"), "cool-down", 2.3),
        (FormKey("squat"), "strength", 5.0),
        (FormKey("squat"), "warm-up", 2.8),
        (FormKey("stretch"), "strength", 2.3),
        (FormKey("jack"), "conditioning", 8.0),
        (FormKey("jack"), "strength", 3.5),
        (FormKey("four"), "cool-down", 4.0),
        # (0.2 x 20 + 1.33 x 1.8 x 0.2 x 20 + 3.5) / 3.5 = 17.076 / 3.5
        (FormKey("stepper"), "strength", 4.8789),
        (FormKey("stepper", "slower"), "strength", 4.8789),
        (FormKey("stepper-with-met"), "strength", 6.0),
        (FormKey("eight", "other-pattern"), "strength", 3.5),
    ],
)
def test_which_met_a_form_has(key, kind, met):
    assert met_of(LIBRARY[key], kind) == pytest.approx(met, abs=1e-4)


@pytest.mark.parametrize(
    ("ages", "low"),
    [(None, 3.5), ("17-59", 3.5), ("17-79", 2.7), ("60", 2.7)],
)
def test_for_older_viewers_the_low_end_has_a_smaller_met(ages: str | None, low: float) -> None:
    """From 60 a MET is 2.7 ml of oxygen (Willis et al. 2024); the high end keeps 3.5."""
    done = block(STRAIGHT, "four 60 s")
    series = details(ages=Count.parse(ages) if ages else None, body_mass=kilograms(70, 70))

    # 1 min at 4 MET, 70 kg
    assert kcal(series, done) == Span(pytest.approx(4 * low * 70 / 200), pytest.approx(4 * 3.5 * 70 / 200))


STEPS = forms(
    exercise("steps", pattern="step", stepping=Stepping(height=Quantity(20, "cm"), per_minute=20)),
    exercise(
        "tempo", pattern="step", tempo="2-0-1-0", stepping=Stepping(height=Quantity(20, "cm"), per_minute=12)
    ),
    exercise("leap", pattern="step", stepping=Stepping(height=Quantity(100, "cm"), per_minute=60)),
)


@pytest.mark.parametrize(
    ("name", "tempo", "met"),
    [
        # (0.2 f + 1.33 x 1.8 x 0.2 f + 3.5) / 3.5
        pytest.param("steps", None, 4.8789, id="the rate of the exercise"),
        pytest.param("steps", "1-0-1-0", 6.8183, id="30 a minute by the tempo"),
        pytest.param("tempo", None, 4.8789, id="20 a minute by the usual tempo"),
        pytest.param("steps", "3-0-3-0", 4.0, id="10 a minute: outside the equation, a step by its movement"),
        pytest.param("steps", "1-0-0-0", 4.0, id="60 a minute: outside"),
        pytest.param("leap", None, 4.0, id="a step of a metre: outside"),
    ],
)
def test_stepping_goes_by_the_tempo_and_keeps_to_the_equation_s_range(
    name: str, tempo: str | None, met: float
) -> None:
    form = STEPS[FormKey(name)]

    assert met_of(form, "strength", Tempo.parse(tempo) if tempo else None) == pytest.approx(met, abs=1e-4)


def test_repetitions_of_a_step_without_a_tempo_take_their_time_by_its_rate() -> None:
    slow = forms(exercise("steps", stepping=Stepping(height=Quantity(20, "cm"), per_minute=12)))

    assert block_time(details(), slow, block(STRAIGHT, "steps 10")).work == Span(50, 50)


def test_minutes_by_intensity_are_minutes_of_work():
    day = episode(
        1,
        block(STRAIGHT, "stretch 2 min", kind="warm-up"),
        block(STRAIGHT, "four 60-90 s", sets="2", rest="1 min"),
        block(CIRCUIT, "eight 30 s", "sitting 2 min", kind="conditioning"),
    )

    assert minutes_by_band(SERIES, LIBRARY, day) == {
        "sedentary": Span(2, 2),
        "light": Span(2, 2),
        "moderate": Span(2, 3),
        "vigorous": Span(0.5, 0.5),
    }


names = st.sampled_from(["four", "eight", "sitting", "squat", "jack"])
amounts = st.tuples(st.integers(1, 90), st.integers(0, 90)).map(lambda a: f"{a[0]}-{sum(a)} s")
done_blocks = st.builds(
    lambda shape, items, gap: replace(
        block(shape, *(item(f"{name} {amount}") for name, amount in items), sets="1-3", time="5-6 min"),
        rest=replace(block(shape).rest, between_exercises=Duration(gap[0], sum(gap))),
    ),
    st.sampled_from([STRAIGHT, CIRCUIT, AMRAP, EMOM]),
    st.lists(st.tuples(names, amounts), min_size=1, max_size=4),
    st.tuples(st.integers(0, 60), st.integers(0, 60)),
)


@settings(deadline=None)
@given(done_blocks, st.integers(40, 120), st.integers(0, 60))
def test_low_is_never_above_high_and_a_heavier_viewer_never_takes_less(done, lightest, more):
    one = kcal(details(body_mass=kilograms(lightest, lightest)), done)
    two = kcal(details(body_mass=kilograms(lightest, lightest + more)), done)

    assert one.low <= one.high
    assert two.low <= two.high
    assert two.high >= one.high or two.high == pytest.approx(one.high)
