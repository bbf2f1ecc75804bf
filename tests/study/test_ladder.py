"""The forms of an exercise in order of how hard they are."""

import pytest

from sitegen.study.ladder import ladder
from tests.study.series_parts import exercise, forms, variant


def rungs(*variants, demands=()):
    one = exercise("squat", *variants, demands=demands)
    return ladder(one, forms(one))


def test_a_ladder_worked_by_hand():
    found = rungs(
        variant("deep", change="progression"),
        variant("half", change="regression"),
        variant("held", change="substitution"),
        variant("quarter", change="regression", of="half"),
        variant("loaded", change="progression", of="deep"),
        variant("half-with-pack", change="progression", of="half"),
    )

    assert [(rung.form.key.variant, rung.level) for rung in found] == [
        ("quarter", -2),
        ("half", -1),
        (None, 0),
        ("half-with-pack", 0),
        ("held", 0),
        ("deep", 1),
        ("loaded", 2),
    ]


def test_a_substitution_stands_beside_the_form_it_is_made_from():
    found = rungs(
        variant("half", change="regression"),
        variant("half-at-the-wall", change="substitution", of="half"),
        variant("half-slow", change="regression"),
    )

    assert [rung.form.key.variant for rung in found] == ["half", "half-slow", "half-at-the-wall", None]


def test_what_is_another_movement_stands_apart_and_so_does_what_is_made_from_it():
    found = rungs(
        variant("half", change="regression"),
        variant("broom", change="substitution"),
        variant("broom-half", change="regression", of="broom"),
    )

    assert {rung.form.key.variant for rung in found if rung.apart} == {"broom", "broom-half"}


@pytest.mark.parametrize(
    ("demands", "spares", "adds"),
    [
        (["standing"], ("deep knee bend",), ()),
        (["standing", "grip", "deep knee bend"], (), ("grip",)),
        ([], ("standing", "deep knee bend"), ()),
        (None, (), ()),
    ],
    ids=["one less", "one more", "none", "as in the main form"],
)
def test_what_a_form_spares_and_asks_for_as_well(demands, spares, adds):
    half = variant("half", demands=None if demands is None else tuple(demands))
    rung = rungs(half, demands=("standing", "deep knee bend"))[0]

    assert (rung.spares, rung.adds) == (spares, adds)


def test_without_variants_there_is_one_rung():
    [rung] = rungs()

    assert (rung.form.key.variant, rung.level, rung.spares, rung.adds) == (None, 0, (), ())
