"""Builds, and what follows from the exercises: sets, rests, warm-up and cool-down."""

from collections.abc import Sequence
from dataclasses import replace

import pytest

from sitegen.composing.level import HEAVY, LIGHT, MEDIUM, SessionLevel, may_repeat
from sitegen.composing.preparing import Preparing
from sitegen.composing.session_shape import parse_blocks
from sitegen.composing.sets_and_rests import fitted
from sitegen.composing.skeletons import skeletons
from sitegen.model import Block, Item, Series
from sitegen.notation import Dose, Load
from sitegen.study.forms import FormKey, Forms, forms_of
from sitegen.vocabulary import COOL_DOWN, WARM_UP


@pytest.fixture(scope="module")
def forms(demo_series: Series) -> Forms:
    return forms_of(demo_series.exercises)


def block_of(text: str, names: Sequence[str], load: str = "") -> Block:
    [shape] = parse_blocks(text)
    items = [
        Item(exercise=name, dose=Dose.parse("10"), load=Load.parse(load) if load else None) for name in names
    ]
    return replace(shape.block, items=tuple(items))


@pytest.mark.parametrize(
    ("text", "names", "load", "level", "sets", "rest"),
    [
        ("strength superset", ["carrier-deadlift", "backpack-row"], "6 kg", HEAVY, 4, "75-90 s"),
        ("strength superset", ["carrier-deadlift", "backpack-row"], "6 kg", MEDIUM, 3, "60-90 s"),
        ("strength superset", ["carrier-deadlift", "backpack-row"], "6 kg", LIGHT, 2, "60 s"),
        ("strength straight sets 1", ["carrier-deadlift"], "6 kg", HEAVY, 4, "90-120 s"),
        (
            "strength giant set 4",
            ["carrier-deadlift", "backpack-row", "dead-bug"],
            "6 kg",
            HEAVY,
            3,
            "75-90 s",
        ),
        ("strength superset", ["dead-bug", "calf-raise"], "", HEAVY, 3, "45-60 s"),
        ("strength superset", ["dead-bug", "calf-raise"], "", LIGHT, 2, "45 s"),
        # what the trainer asked for stays
        ("strength superset, 2 sets", ["carrier-deadlift", "backpack-row"], "6 kg", HEAVY, 2, "75-90 s"),
    ],
)
def test_sets_and_rests_follow_from_the_exercises(
    forms: Forms, text: str, names: list[str], load: str, level: SessionLevel, sets: int, rest: str
) -> None:
    [shape] = parse_blocks(text)
    block = fitted(shape, block_of(text, names, load), [forms[FormKey(n)] for n in names], level, last=False)
    assert (block.sets.high, str(block.rest.between_sets)) == (sets, rest)


def test_as_many_as_possible_comes_twice_at_most(forms: Forms) -> None:
    """However heavy the day is; and a clock, which sets no number, never asks for it."""
    [shape] = parse_blocks("strength superset")
    names = ["carrier-deadlift", "chair-dip"]
    first, second = block_of("strength superset", names, "6 kg").items
    items = (first, replace(second, dose=Dose.parse("max, 2 in reserve"), load=None))
    block = replace(shape.block, items=items)
    assert fitted(shape, block, [forms[FormKey(n)] for n in names], HEAVY, last=False).sets.high == 2


@pytest.mark.parametrize(
    ("dose", "block", "may"),
    [
        ("max", "strength superset, 2 sets", True),
        ("max, 2 in reserve", "strength superset, 2-3 sets", False),
        ("max", "conditioning as many rounds as possible 2", False),
        ("10", "strength superset, 4 sets", True),
        ("10", "conditioning as many rounds as possible 2", True),
    ],
)
def test_where_as_many_as_possible_may_stand(dose: str, block: str, *, may: bool) -> None:
    [shape] = parse_blocks(block)
    assert may_repeat(Dose.parse(dose), shape.block) is may


def test_a_build_that_was_used_longest_ago_is_due(demo_series: Series) -> None:
    """Of the formats the series films, as long as its sessions are, and never that of the last sessions."""
    for level in (HEAVY, MEDIUM, LIGHT):
        builds = skeletons(demo_series, level)
        assert len(builds) > 3
        last = [
            [(b.format, len(b.items)) for b in e.blocks if b.kind == "strength"]
            for e in demo_series.sessions[-3:]
        ]
        for build in builds[:3]:
            strength = [
                (one.block.format, one.places) for one in build.blocks if one.block.kind == "strength"
            ]
            assert strength not in last
            assert 5 <= sum(places for _, places in strength) <= 7


@pytest.mark.parametrize(
    ("names", "prepares", "eases"),
    [
        (["carrier-deadlift", "glute-bridge"], {"leg-swings", "hip-circles"}, "figure-four-stretch"),
        (["counter-push-up", "tin-press", "floor-press"], {"arm-circles"}, "doorway-chest-stretch"),
        (["calf-raise", "wall-sit", "fast-feet"], {"ankle-rocks"}, "calf-stretch"),
        # three exercises for the legs, and one that rests on the shoulders
        (
            ["split-squat", "lateral-lunge", "mountain-climber", "single-leg-deadlift"],
            {"arm-circles"},
            "figure-four-stretch",
        ),
    ],
)  # fmt: skip
def test_warm_up_and_cool_down_are_for_what_the_session_does(
    demo_series: Series, forms: Forms, names: list[str], prepares: set[str], eases: str
) -> None:
    work = [block_of("strength tri-set, 3 sets", names)]
    preparing = Preparing(demo_series, forms)
    before = preparing.ranked(WARM_UP, work, lambda block, item: True)[0]
    after = preparing.ranked(COOL_DOWN, work, lambda block, item: True)[0]
    assert prepares & {item.exercise for item in before.block.items}
    assert eases in {item.exercise for item in after.block.items}


def test_what_may_not_be_asked_for_is_in_no_warm_up_of_its_own(demo_series: Series, forms: Forms) -> None:
    work = [block_of("strength superset, 3 sets", ["calf-raise", "wall-sit"])]
    found = Preparing(demo_series, forms).ranked(
        WARM_UP, work, lambda block, item: item.exercise != "ankle-rocks"
    )
    assert "ankle-rocks" not in {item.exercise for item in found[0].block.items}


def test_what_raises_the_pulse_stands_before_what_does_not(demo_series: Series, forms: Forms) -> None:
    """So that a session with no time for the best warm-up is not left with a cold one."""
    work = [block_of("strength superset, 3 sets", ["carrier-deadlift", "counter-push-up"])]
    found = Preparing(demo_series, forms).ranked(WARM_UP, work, lambda block, item: True)
    pulse = ["locomotion" in [forms[FormKey(i.exercise)].pattern for i in one.block.items] for one in found]
    assert pulse == [True, True, False]
