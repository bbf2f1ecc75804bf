"""How hard sessions are meant to be, and what efforts that makes."""

import pytest

from sitegen.composing.level import HEAVY, LIGHT, MIDDLE, Level, asked_for, level_at
from sitegen.model import Item
from sitegen.notation import Dose, Effort


@pytest.mark.parametrize(
    ("per_week", "levels"),
    [
        (1, ["middle", "middle"]),
        (2, ["heavy", "light", "heavy"]),
        (3, ["heavy", "light", "middle", "heavy"]),
        (4, ["heavy", "light", "middle", "light", "heavy"]),
    ],
)
def test_levels_take_turns_over_the_week(per_week: int, levels: list[str]) -> None:
    assert [level_at(place, per_week, after_week_off=False).name for place in range(len(levels))] == levels


def test_nothing_is_heavy_at_once_after_a_week_off() -> None:
    assert [level_at(place, 3, after_week_off=True).name for place in (0, 1)] == ["middle", "light"]


@pytest.mark.parametrize(
    ("asked", "before", "level", "careful", "now"),
    [
        ("3 in reserve", ["3 in reserve"], HEAVY, False, "2 in reserve"),
        ("3 in reserve", ["3 in reserve"], MIDDLE, False, "2-3 in reserve"),
        ("2 in reserve", ["2 in reserve"], LIGHT, False, "3-4 in reserve"),
        # never more than one repetition harder than ever before
        ("4 in reserve", ["5 in reserve", "4 in reserve"], HEAVY, False, "3 in reserve"),
        # on one leg, or with a load that has just become heavier
        ("2 in reserve", ["2 in reserve"], HEAVY, True, "3 in reserve"),
        ("RPE 7", ["RPE 7"], LIGHT, False, "RPE 6"),
        ("RPE 5", ["RPE 5"], HEAVY, False, "RPE 5"),
        ("RPE 6", ["RPE 6", "RPE 7"], MIDDLE, False, "RPE 6-7"),
    ],
)
def test_the_effort_is_that_of_the_level(
    asked: str, before: list[str], level: Level, careful: bool, now: str
) -> None:
    item = Item(exercise="chair-squat", effort=Effort.parse(asked))
    made = asked_for(item, level, "strength", map(Effort.parse, before), careful=careful)
    assert str(made.effort) == now


def test_as_many_as_possible_leaves_more_over_in_a_light_session() -> None:
    item = Item(exercise="chair-dip", dose=Dose.parse("max, 2 in reserve"))
    for level, left in ((HEAVY, (2, 2)), (LIGHT, (3, 4))):
        made = asked_for(item, level, "strength", (), careful=False)
        assert made.dose is not None
        assert made.dose.reserve == left
