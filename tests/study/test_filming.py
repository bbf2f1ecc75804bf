"""The order of a filming day against every order there is, and what a shot shows."""

from itertools import permutations
from random import Random

import pytest

from sitegen.model import Series
from sitegen.study.filming import FLOOR, SEATED, STANDING, SetUp, effort_of, filming_order, shots_of
from sitegen.study.forms import forms_of
from sitegen.study.suitability import Suitability

CHAIR, BAG = SetUp(SEATED, frozenset({"chair"})), SetUp(STANDING, frozenset({"bag"}))
BARE, MAT = SetUp(STANDING, frozenset()), SetUp(FLOOR, frozenset({"mat"}))

ORDERS = {
    # set-ups in the order of the session: the order to film them
    (): (),
    (BARE,): (0,),
    (BARE, MAT, BARE): (0, 2, 1),
    (CHAIR, BAG, CHAIR, BAG): (0, 2, 1, 3),
    # Standing shots come together, so that the camera moves once each way.
    (BARE, CHAIR, BAG, MAT): (1, 0, 2, 3),
}


@pytest.mark.parametrize(("set_ups", "order"), ORDERS.items())
def test_each_set_up_is_filmed_once(set_ups: tuple[SetUp, ...], order: tuple[int, ...]) -> None:
    assert filming_order(set_ups) == order


def test_no_other_order_takes_less() -> None:
    chance = Random(9)
    for _ in range(60):
        set_ups = [
            SetUp(
                chance.choice((FLOOR, STANDING, SEATED)),
                frozenset(chance.sample("abcd", chance.randrange(4))),
            )
            for _ in range(chance.randrange(1, 7))
        ]
        order = filming_order(set_ups)
        least = min(effort_of(set_ups[place] for place in one) for one in permutations(range(len(set_ups))))
        assert sorted(order) == list(range(len(set_ups)))
        assert effort_of(set_ups[place] for place in order) == least


def test_many_set_ups_are_each_filmed_once() -> None:
    set_ups = [SetUp(STANDING, frozenset({str(number)})) for number in range(14)] * 2
    order = filming_order(set_ups)
    assert [set_ups[place] for place in order[::2]] == [set_ups[place] for place in order[1::2]]
    assert sorted(order) == list(range(28))


def test_shots_show_what_the_needs_are_given(demo_series: Series) -> None:
    forms = forms_of(demo_series.exercises)
    suitability = Suitability(demo_series.details, forms)
    for episode in demo_series.sessions:
        shots = shots_of(demo_series.details, forms, suitability, episode)
        items = [item for block in episode.blocks for item in block.items]
        assert [(shot.form.key.exercise, shot.form.key.variant) for shot in shots] == [
            (item.exercise, item.variant) for item in items
        ]
        for need in demo_series.details.needs:
            versions = [one for block in suitability.session(episode, (need,)) for one in block]
            for shot, version in zip(shots, versions, strict=True):
                [told] = [given.version.form.key for given in shot.given if need in given.needs] or [None]
                expected = version.form.key if version is not None and version.steps else None
                assert told == expected
                assert (need in shot.without) == (version is None)
        for place, shot in enumerate(shots):
            assert shot.same_as == next(
                (at for at in range(place) if shots[at].form.key == shot.form.key), None
            )
