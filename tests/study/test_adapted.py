"""A session as somebody with needs does it: what is done, without the clock, and in how many sittings."""

from dataclasses import replace

import pytest

from sitegen.model import Limits
from sitegen.notation import Count, Duration
from sitegen.study.adapted import adapted, at_own_pace, block_lengths, split_to_fit
from sitegen.study.suitability import Suitability
from sitegen.study.timing import block_time, session_time
from sitegen.vocabulary import AMRAP, CIRCUIT, EMOM, INTERVALS, STRAIGHT
from tests.study.series_parts import block, details, episode, exercise, forms, item, need, variant

LIBRARY = forms(
    exercise("squat", variant("sit", dose="half", demands=()), demands=("standing",), prime=["glutes"]),
    exercise("jump", demands=("standing", "jumping"), prime=["calves"]),
    exercise("plank", demands=(), pattern="trunk", prime=["abdominals"]),
)
NEEDS = {
    "seated": need("seated", "standing"),
    "calm": replace(need("calm"), limits=Limits(speed=False)),
    "gentle": replace(need("gentle"), limits=Limits(hold=10, effort=6)),
}
SERIES = details(needs=NEEDS)
SUITABILITY = Suitability(SERIES, LIBRARY)


def done(day, *needs):
    return adapted(SERIES, LIBRARY, SUITABILITY, day, needs)


def test_items_become_their_versions_and_gaps_are_left_out():
    day = episode(1, block(STRAIGHT, "squat 10", "jump 8"), block(STRAIGHT, "jump 8"))

    [left] = done(day, "seated").blocks

    assert [(one.exercise, one.variant, str(one.dose)) for one in left.items] == [("squat", "sit", "5")]
    assert done(day) == day


def test_time_follows_the_dose_of_the_version():
    day = episode(1, block(STRAIGHT, "squat 10", "plank 40 s", sets="2"), video=100)
    filmed, seated, gentle = (
        session_time(SERIES, LIBRARY, one).seconds for one in (day, done(day, "seated"), done(day, "gentle"))
    )

    # 3 s a repetition: five fewer in each of two sets; and 30 s less of each plank
    assert (filmed.high - seated.high, filmed.high - gentle.high) == (30, 60)


@pytest.mark.parametrize(
    ("driven", "sets", "doses"),
    [
        (block(AMRAP, "squat 10", "plank 30 s", time="8 min", gap="10 s"), Count(6, 6), ["10", "30 s"]),
        (block(EMOM, "squat 10", "plank 30 s", time="8 min"), Count(4, 4), ["10", "30 s"]),
        (block(INTERVALS, "squat", "plank 20 s", work="40 s", sets="3"), Count(3, 3), ["40 s", "20 s"]),
        (block(AMRAP, "squat 100", time="2 min"), Count(1, 1), ["100"]),
    ],
    ids=["as many rounds as possible", "every minute", "intervals", "one round at least"],
)
def test_without_the_clock_it_is_done_in_rounds(driven, sets, doses):
    calm = at_own_pace(SERIES, LIBRARY, driven)

    assert (calm.format, calm.sets, calm.time, calm.work) == (CIRCUIT, sets, None, None)
    assert [str(one.dose) for one in calm.items] == doses
    assert block_time(SERIES, LIBRARY, calm).seconds.high > 0
    assert done(episode(1, driven), "calm").blocks == (calm,)


def test_what_is_not_driven_by_the_clock_stays():
    day = episode(1, block(STRAIGHT, "squat 10"))
    assert done(day, "calm") == day


def test_rests_may_be_twice_as_long():
    calm = at_own_pace(SERIES, LIBRARY, block(INTERVALS, "squat", work="40 s", gap="20 s", rest="30-60 s"))
    assert (calm.rest.between_exercises, calm.rest.between_sets) == (Duration(20, 40), Duration(30, 120))


def timed(*seconds, video):
    """A block of so many seconds of planks for each, in a video in which each is shown for a minute."""
    blocks = [
        replace(block(STRAIGHT, f"plank {one} s"), at=60 * number) for number, one in enumerate(seconds)
    ]
    return episode(1, *blocks, video=video)


@pytest.mark.parametrize(
    ("longest", "shared"),
    [
        (1000, [[0, 1, 2]]),
        (540, [[0, 1, 2]]),
        (539, [[0, 1], [2]]),
        (200, [[0], [1], [2]]),
        (100, [[0], [1], [2]]),
    ],
    ids=["it fits", "just", "the last another day", "each by itself", "each is too long by itself"],
)
def test_a_long_session_is_shared_out_over_sittings(longest, shared):
    day = timed(120, 120, 120, video=180)
    assert block_lengths(SERIES, LIBRARY, day) == [180, 180, 180]
    assert split_to_fit(SERIES, LIBRARY, day, longest) == shared


def test_a_plan_without_video_is_as_long_as_its_turns():
    day = episode(1, replace(block(STRAIGHT, "plank 120 s"), at=None))
    assert block_lengths(SERIES, LIBRARY, day) == [120]


def test_the_items_of_a_routine_are_left_as_they_are():
    shown = item("squat 10", versions={"seated": "sit"})
    [left] = done(episode(1, block(STRAIGHT, shown)), "seated").blocks
    assert left.items[0].versions == {}
