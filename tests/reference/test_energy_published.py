"""Energy, stepping and intensity against published examples and tables."""

import pytest

from sitegen.model import Stepping
from sitegen.notation import Quantity
from sitegen.study import energy
from sitegen.study.energy import band, kcal_per_minute, stepping_met, stepping_oxygen


def test_energy_of_a_published_example():
    """10 MET at 68 kg: 11.9 kcal a minute, 357 in half an hour (formula of the American Heart
    Association as given in ACSM's Health & Fitness Journal, restated by a certification body)."""
    assert kcal_per_minute(10, 68) == pytest.approx(11.9)
    assert kcal_per_minute(10, 68) * 30 == pytest.approx(357)


def test_energy_is_five_per_cent_above_the_rounded_form():
    """ACSM calculation notes: 7 MET x 60 kg = 420 kcal/h = 7 kcal/min with 1 kcal per kg and hour."""
    assert kcal_per_minute(7, 60) == pytest.approx(7 * 1.05)


@pytest.mark.parametrize(
    ("rate", "height", "oxygen"),
    [
        # ACSM's Guidelines, 10th ed., table 6.3, in two published worked examples
        pytest.param(30, "12 in", 31.4, id="30 a minute on 12 inches"),
        pytest.param(24, "15 in", 30.2, id="24 a minute on 15 inches"),
        # arithmetic on the grid that Latin et al. 2001 (Med Sci Sports Exerc) tested
        pytest.param(20, "10 cm", 12.3, id="20 on 10 cm"),
        pytest.param(20, "20 cm", 17.1, id="20 on 20 cm"),
        pytest.param(20, "30 cm", 21.9, id="20 on 30 cm"),
        pytest.param(25, "10 cm", 14.5, id="25 on 10 cm"),
        pytest.param(25, "30 cm", 26.5, id="25 on 30 cm"),
    ],
)
def test_oxygen_of_stepping(rate, height, oxygen):
    stepping = Stepping(height=Quantity.parse(height), per_minute=rate)

    assert stepping_oxygen(stepping) == pytest.approx(oxygen, abs=0.05)


def test_met_of_stepping():
    """The first worked example, 31.391 ml/kg/min, is 8.97 MET of 3.5 ml/kg/min."""
    assert stepping_met(Stepping(height=Quantity(12, "in"), per_minute=30)) == pytest.approx(8.97, abs=0.005)


COMPENDIUM_2011 = {
    "02020": 8.0,
    "02022": 3.8,
    "02024": 2.8,
    "02035": 4.3,
    "02052": 5.0,
    "02054": 3.5,
    "02101": 2.3,
    "17133": 4.0,
}
"""Rows of the 2011 Compendium of Physical Activities, read from its authors' tracking guide."""


def test_rows_are_those_of_the_2011_compendium():
    rows = {*energy.BY_KIND.values(), *energy.BY_PATTERN_IN_STRENGTH.values(), energy.VIGOROUS_CALISTHENICS}

    assert {row.code: row.met for row in rows} == COMPENDIUM_2011


@pytest.mark.parametrize(
    ("met", "name"),
    [
        (1.5, "sedentary"),
        (1.6, "light"),
        (2.9, "light"),
        (3.0, "moderate"),
        (5.9, "moderate"),
        (6.0, "vigorous"),
        (8.0, "vigorous"),
    ],
)
def test_intensity_bands(met, name):
    """Physical Activity Guidelines for Americans, 2nd ed. 2018: exactly 6.0 is vigorous."""
    assert band(met) == name
