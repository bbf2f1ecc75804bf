"""How hard sessions are meant to be, and what efforts that makes."""

import pytest

from sitegen.composing.level import HEAVY, LIGHT, MEDIUM, SessionLevel, asked_for, level_at
from sitegen.model import Item
from sitegen.notation import Dose, Effort, Load


@pytest.mark.parametrize(
    ("per_week", "levels"),
    [
        (1, ["medium", "medium"]),
        (2, ["heavy", "light", "heavy"]),
        (3, ["heavy", "light", "medium", "heavy"]),
        (4, ["heavy", "light", "medium", "light", "heavy"]),
    ],
)
def test_levels_take_turns_over_the_week(per_week: int, levels: list[str]) -> None:
    assert [level_at(place, per_week, after_week_off=False).name for place in range(len(levels))] == levels


def test_nothing_is_heavy_at_once_after_a_week_off() -> None:
    assert [level_at(place, 3, after_week_off=True).name for place in (0, 1)] == ["medium", "light"]


@pytest.mark.parametrize(
    ("now", "before", "level", "careful", "effort"),
    [
        # what is filmed again with the same dose leaves what it left, however heavy the day
        ("8, 3 in reserve", ["8, 3 in reserve"], HEAVY, False, "3 in reserve"),
        ("8, 3 in reserve", ["8, 3 in reserve"], MEDIUM, False, "3 in reserve"),
        ("8, 3 in reserve", ["8, 2 in reserve", "8, 3 in reserve"], HEAVY, False, "2 in reserve"),
        ("8, 2-3 in reserve", ["8, 2-3 in reserve"], MEDIUM, False, "2-3 in reserve"),
        # more repetitions leave fewer over
        ("10, 3 in reserve", ["8, 3 in reserve"], HEAVY, False, "2 in reserve"),
        ("10, 3 in reserve", ["8, 3 in reserve"], MEDIUM, False, "2-3 in reserve"),
        # never more than one repetition harder than ever before
        ("10, 4 in reserve", ["8, 5 in reserve", "8, 4 in reserve"], HEAVY, False, "3 in reserve"),
        # another load, or both sides at once: nothing is known but what was filmed last
        ("8 with 6 kg, 3 in reserve", ["12 with 5 kg, 3 in reserve"], HEAVY, False, "3 in reserve"),
        ("10, 3 in reserve", ["8 each side, 3 in reserve"], HEAVY, False, "3 in reserve"),
        # a set may be ended sooner
        ("8, 2 in reserve", ["8, 2 in reserve"], LIGHT, False, "3-4 in reserve"),
        # on one leg, or with a load that has just become heavier
        ("10, 2 in reserve", ["8, 2 in reserve"], HEAVY, True, "3 in reserve"),
        ("20 s, RPE 7", ["20 s, RPE 7"], LIGHT, False, "RPE 6"),
        ("20 s, RPE 5", ["20 s, RPE 5"], HEAVY, False, "RPE 5"),
        ("25 s, RPE 6", ["20 s, RPE 6", "20 s, RPE 7"], MEDIUM, False, "RPE 6-7"),
        # a hold that is shorter than the hard one, and a load that is lighter
        ("20 s, RPE 6", ["40 s, RPE 7", "20 s, RPE 6"], HEAVY, False, "RPE 6"),
        ("10 with 4 kg, RPE 6", ["10 with 5 kg, RPE 7", "10 with 4 kg, RPE 6"], HEAVY, False, "RPE 6"),
    ],
)
def test_the_effort_is_that_of_the_level_where_the_dose_reaches_it(
    now: str, before: list[str], level: SessionLevel, careful: bool, effort: str
) -> None:
    made = asked_for(asked(now), level, "strength", [asked(one) for one in before], careful=careful)
    assert str(made.effort) == effort


def asked(text: str) -> Item:
    """``8 with 6 kg, 3 in reserve``."""
    amount, effort = text.split(", ")
    dose, _, load = amount.partition(" with ")
    return Item(
        exercise="chair-squat",
        dose=Dose.parse(dose),
        load=Load.parse(load) if load else None,
        effort=Effort.parse(effort),
    )


def test_conditioning_is_as_hard_as_it_ever_was() -> None:
    before = [asked("30 s, RPE 7"), asked("20 s, RPE 5")]
    made = asked_for(before[1], HEAVY, "conditioning", before, careful=False)
    assert str(made.effort) == "RPE 6-7"


def test_as_many_as_possible_leaves_more_over_in_a_light_session() -> None:
    item = Item(exercise="chair-dip", dose=Dose.parse("max, 2 in reserve"))
    for level, left in ((HEAVY, (2, 2)), (LIGHT, (3, 4))):
        made = asked_for(item, level, "strength", (), careful=False)
        assert made.dose is not None
        assert made.dose.reserve == left
