"""Minutes against public advice, and ISO 8601 weeks against the standard library."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.pages.balance.intensity import MODERATE_MINUTES, STRENGTH_DAYS, VIGOROUS_MINUTES
from sitegen.study.span import Span
from sitegen.study.training import moderate_minutes
from sitegen.study.weeks import monday_of, weeks_of


def test_the_guideline_s_minutes() -> None:
    """WHO guidelines on physical activity and sedentary behaviour, 2020: 150-300 min moderate or 75-150 min
    vigorous a week, strength on 2 days (the same in Physical Activity Guidelines for Americans, 2018)."""
    assert MODERATE_MINUTES == (150, 300)
    assert VIGOROUS_MINUTES == (75, 150)
    assert STRENGTH_DAYS == 2


@pytest.mark.parametrize(
    ("moderate", "vigorous", "counts"),
    [(150, 0, 150), (0, 75, 150), (0, 150, 300), (90, 30, 150), (12, 0, 12)],
    ids=["moderate alone", "vigorous alone", "the upper ends", "an equivalent mix", "short"],
)
def test_a_mix_counts_as_its_moderate_equivalent(moderate: float, vigorous: float, counts: float) -> None:
    """The same source: "or an equivalent combination", so 75 vigorous minutes are 150 moderate ones."""
    minutes = {
        "moderate": Span(moderate, moderate),
        "vigorous": Span(vigorous, vigorous),
        "light": Span(99, 99),
    }

    assert moderate_minutes(minutes) == Span(counts, counts)


@pytest.mark.parametrize(
    ("day", "year", "week"),
    [
        (date(2026, 12, 31), 2026, 53),
        (date(2027, 1, 3), 2026, 53),
        (date(2027, 1, 4), 2027, 1),
        (date(2024, 12, 30), 2025, 1),
        (date(2023, 1, 1), 2022, 52),
        (date(2020, 2, 29), 2020, 9),
    ],
    ids=str,
)
def test_weeks_of_iso_8601_around_new_year(day: date, year: int, week: int) -> None:
    """ISO 8601: a week belongs to the year of its Thursday (literal values of date.isocalendar)."""
    (found,) = weeks_of([(day, 1)])

    assert found.iso == (year, week)


@given(st.dates(date(1900, 1, 1), date(2199, 12, 31)))
def test_the_monday_of_a_week_is_the_standard_library_s(day: date) -> None:
    year, week, _ = day.isocalendar()

    assert monday_of(day) == date.fromisocalendar(year, week, 1)
    assert weeks_of([(day, 1)])[0].iso == (year, week)


@given(st.dates(date(1900, 1, 1), date(2199, 1, 1)), st.integers(0, 600))
def test_weeks_between_two_days_are_whole_weeks_of_the_calendar(day: date, later: int) -> None:
    weeks = weeks_of([(day, 1), (day + timedelta(days=later), 2)])
    apart = (monday_of(day + timedelta(days=later)) - monday_of(day)).days

    assert weeks[-1].number == 1 + apart // 7
    assert apart % 7 == 0
