"""Norms of field tests against published figures that they were not copied from."""

import pytest

from sitegen.study.field_tests import ALL_OUT, DEMANDS_OF_TESTS, FIELD_TESTS, norm_of
from sitegen.vocabulary import DEMANDS

AGES = (60, 65, 70, 75, 80, 85, 90)

STEP_MEANS = {
    # Mean and standard deviation of the two-minute step test, Rikli & Jones 1999, as cited by a clinical database.
    "man": ((101, 21), (101, 23), (95, 23), (91, 27), (87, 24), (75, 24), (69, 26)),
    "woman": ((91, 24), (90, 26), (84, 25), (84, 24), (75, 23), (70, 22), (58, 21)),
}

CHAIR = {
    # The middle half in the manual's second edition (Rikli & Jones 2013), from a reprint of its table.
    "man": ((14, 19), (13, 18), (12, 17), (11, 17), (10, 15), (8, 13), (7, 12)),
    "woman": ((12, 17), (11, 16), (10, 15), (10, 15), (9, 14), (8, 13), (4, 11)),
}


@pytest.mark.parametrize("sex", ["woman", "man"])
def test_the_step_range_is_the_middle_half_around_the_published_mean(sex: str) -> None:
    """Of a normal distribution the middle half lies within 0.6745 standard deviations of the mean."""
    for age, (mean, deviation) in zip(AGES, STEP_MEANS[sex], strict=True):
        norm = norm_of("two-minute step", age, sex)
        assert norm is not None
        assert norm.low == pytest.approx(mean - 0.6745 * deviation, abs=2)
        assert norm.high == pytest.approx(mean + 0.6745 * deviation, abs=2)


@pytest.mark.parametrize("sex", ["woman", "man"])
def test_the_chair_stand_agrees_with_a_reprint(sex: str) -> None:
    """Where two reprints differ by one, the wider range is told."""
    for age, (low, high) in zip(AGES, CHAIR[sex], strict=True):
        norm = norm_of("chair stand", age + 4, sex)
        assert norm is not None
        assert 0 <= low - norm.low <= 1
        assert 0 <= norm.high - high <= 1


@pytest.mark.parametrize("sex", ["woman", "man"])
def test_the_stance_falls_with_age_and_stays_within_the_trial(sex: str) -> None:
    """Springer et al. 2007: it declines with age; trials end at 45 s (rounding lets a mean reach 45.1)."""
    means = [norm.low for age in (18, 40, 50, 60, 70, 80) if (norm := norm_of("one-leg stance", age, sex))]
    assert len(means) == 6
    assert means == sorted(means, reverse=True)
    assert max(means) <= 45.1


@pytest.mark.parametrize(
    ("test", "age", "sex"),
    [
        ("chair stand", 59, "woman"),
        ("chair stand", 95, "man"),
        ("chair stand", None, "woman"),
        ("chair stand", 70, None),
        ("one-leg stance", 17, "man"),
        ("counter push-up", 70, "woman"),
    ],
)
def test_nothing_is_told_beyond_the_tables(test: str, age: int | None, sex: str | None) -> None:
    assert norm_of(test, age, sex) is None


def test_the_demands_of_tests_are_words_of_the_trade() -> None:
    assert DEMANDS_OF_TESTS.keys() == FIELD_TESTS.keys()
    assert {word for words in DEMANDS_OF_TESTS.values() for word in words} <= DEMANDS.keys()
    assert FIELD_TESTS.keys() >= ALL_OUT
