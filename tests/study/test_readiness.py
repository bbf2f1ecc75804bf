"""The screening against each branch of the published algorithm.

Riebe et al. 2015, Medicine & Science in Sports & Exercise 47:2473-2479, figure 2 (from memory). It has three
branches for somebody who is not active (no disease and no signs, a disease without signs, signs), and three
for somebody who is.
"""

from itertools import product

import pytest

from sitegen.study.readiness import (
    ASK,
    CAREFUL,
    GENTLY,
    GO_ON,
    GO_ON_MODERATE,
    OUTCOMES,
    STOP_AND_ASK,
    advise,
    table,
)

BRANCHES = [
    # active, disease, signs, wants to work hard -> advice
    (False, False, False, False, GENTLY),  # clearance not necessary, light to moderate
    (False, False, False, True, GENTLY),  # the same: vigorous only after a gradual rise
    (False, True, False, False, ASK),  # clearance recommended, then light to moderate
    (False, True, False, True, ASK),
    (False, False, True, False, ASK),  # clearance recommended whatever the disease
    (False, True, True, True, ASK),
    (True, False, False, False, GO_ON),  # clearance not necessary
    (True, False, False, True, GO_ON),
    (True, True, False, False, GO_ON_MODERATE),  # not necessary for moderate intensity
    (True, True, False, True, ASK),  # recommended before vigorous intensity
    (True, False, True, False, STOP_AND_ASK),  # discontinue, seek clearance
    (True, True, True, True, STOP_AND_ASK),
]


@pytest.mark.parametrize(("active", "disease", "signs", "vigorous", "advice"), BRANCHES)
def test_each_branch(active: bool, disease: bool, signs: bool, vigorous: bool, advice: str) -> None:
    assert advise(active=active, disease=disease, signs=signs, vigorous=vigorous) == advice


def test_the_pages_table_has_every_answer() -> None:
    found = table()
    assert len(found) == 32
    assert set(found.values()) == set(OUTCOMES)
    assert found["ynnnn"] == GO_ON
    assert found["nnynn"] == ASK


@pytest.mark.parametrize(("active", "disease", "signs", "vigorous", "advice"), BRANCHES)
def test_who_is_on_the_list_asks_whatever_the_other_answers(
    active: bool, disease: bool, signs: bool, vigorous: bool, advice: str
) -> None:
    listed = advise(active=active, disease=disease, signs=signs, vigorous=vigorous, listed=True)
    assert listed == (STOP_AND_ASK if advice == STOP_AND_ASK else ASK)


def test_what_is_not_known_is_never_the_bolder_answer() -> None:
    """With an answer unknown the advice is at least as careful as with either answer."""
    order = (GO_ON, GENTLY, GO_ON_MODERATE, ASK, STOP_AND_ASK)
    for question, careful in CAREFUL.items():
        others = [name for name in CAREFUL if name != question]
        for answers in product((True, False), repeat=4):
            known = dict(zip(others, answers, strict=True))
            unknown = advise(**known, **{question: careful})
            either = advise(**known, **{question: not careful})
            if question != "active":  # stopping only concerns who trains
                assert order.index(unknown) >= order.index(either)
