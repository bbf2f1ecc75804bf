"""What a form says of its own dose, tempo, effort and load, against what the item asks of the form filmed."""

import pytest

from sitegen.model import Kit, Limits, Need
from sitegen.notation import Effort, Quantity, Tempo
from sitegen.study.suitability import Suitability
from sitegen.vocabulary import STRAIGHT
from tests.study.series_parts import block, details, exercise, forms, item, need, variant

KIT = {
    "bag": Kit(id="bag", name="Bag", holds=Quantity(15, "kg")),
    "jug": Kit(id="jug", name="Jug", holds=Quantity(5, "l")),
}
LIBRARY = forms(
    exercise(
        "carry",
        variant(
            "seated",
            demands=(),
            dose="both sides",
            tempo=Tempo.parse("1-0-1-3"),
            effort=Effort.parse("RPE 6"),
            most_load=Quantity(3, "kg"),
        ),
        variant("seated-more", of="seated", demands=("standing",)),
        kit=("jug",),
        demands=("standing",),
    ),
    exercise(
        "hug", variant("lap", demands=(), kit=("bag",), most_load=Quantity(3, "kg")), demands=("standing",)
    ),
)
NEEDS = {
    one.id: one for one in (need("sit", "standing"), Need(id="light", name="Light", limits=Limits(load=2)))
}
STUDY = Suitability(details(needs=NEEDS, kit=KIT), LIBRARY)


def version(done, needs=("sit",), **more):
    [found] = STUDY.block(block(STRAIGHT, item(done, **more)), needs, frozenset(KIT))
    return found


@pytest.mark.parametrize(
    ("dose", "left"), [("8 each side", "8"), ("20 s each way", "20 s"), ("8", "8"), ("max", "max")]
)
def test_a_form_that_works_both_sides_at_once_has_no_sides(dose: str, left: str) -> None:
    assert str(version(f"carry {dose}").dose) == left


@pytest.mark.parametrize("tempo", ["", " @0-0-1-0", " @3-1-1-0"])
def test_its_own_tempo_stands_before_that_of_the_item(tempo: str) -> None:
    assert str(version(f"carry 8{tempo}").tempo) == "1-0-1-3"


@pytest.mark.parametrize(
    ("asked", "left"),
    [
        ("RPE 7", "RPE 6"),
        ("2-3 in reserve", "RPE 6"),
        ("RPE 5", "RPE 5"),
        ("5 in reserve", "5 in reserve"),
        (None, "RPE 6"),
    ],
)
def test_the_lesser_effort_holds(asked: str | None, left: str) -> None:
    assert str(version("carry 8", effort=asked).effort) == left


@pytest.mark.parametrize(
    ("load", "left"),
    [("5 l water + 3 l water", "2 x 1.5 l water"), ("5 l water", "3 l water"), ("2 l water", "2 l water")],
)
def test_no_more_is_held_than_the_form_allows_and_evenly(load: str, left: str) -> None:
    """A litre of water weighs 0.998 kg (CIPM), so that three kilograms are just three litres."""
    assert str(version("carry 8", load=load).load) == left


@pytest.mark.parametrize(("needs", "most"), [(["sit"], 3), (["sit", "light"], 2)])
def test_a_load_that_nobody_wrote_has_the_lower_bound(needs: list[str], most: float) -> None:
    assert version("hug 8", needs).most_kg == most


def test_the_form_filmed_is_done_as_the_trainer_wrote_it() -> None:
    filmed = STUDY.filmed(
        item("carry 8 each side @2-0-1-0", variant="seated", effort="RPE 8", load="5 l water")
    )

    assert (str(filmed.dose), str(filmed.tempo), str(filmed.effort), str(filmed.load)) == (
        *("8 each side", "2-0-1-0"),
        *("RPE 8", "5 l water"),
    )


def test_a_form_made_from_it_takes_all_of_it_over() -> None:
    seated, more = (LIBRARY[key] for key in LIBRARY if key.variant in ("seated", "seated-more"))

    assert (more.own_tempo, more.effort, more.most_kg) == (seated.own_tempo, seated.effort, seated.most_kg)
