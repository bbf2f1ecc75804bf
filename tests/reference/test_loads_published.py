"""Masses of household loads against published densities and exact units."""

import pytest

from sitegen.notation import Load
from sitegen.study.load import KG_PER_LITRE, load_mass, shown_mass
from sitegen.study.span import Span


def kilograms(written):
    mass = load_mass(Load.parse(written))
    assert mass.low == mass.high
    return mass.low


def test_density_of_water_at_20_degrees():
    """998.2071 kg per cubic metre (standard table after IAPWS-95; the CIPM formula, Tanaka et al.
    2001, gives 998.2067); another public table prints 998.29, hence the tolerance."""
    assert kilograms("1 l water") * 1000 == pytest.approx(998.2071, abs=0.1)


@pytest.mark.parametrize(
    ("written", "mass"),
    [
        # a US liquid gallon is 231 cubic inches = 3.785411784 l, an imperial one 4.54609 l, exactly
        ("1 US gal water", 3.7786),
        ("1 imperial gal water", 4.5379),
        ("1 l water", 0.9982),
    ],
)
def test_filled_jugs(written, mass):
    assert kilograms(written) == pytest.approx(mass, abs=5e-5)


@pytest.mark.parametrize(("written", "mass"), [("1 lb", 0.45359237), ("100 lb", 45.359237), ("1 kg", 1)])
def test_pound_is_exact(written, mass):
    """International pound of 1959, 0.45359237 kg."""
    assert kilograms(written) == pytest.approx(mass, rel=1e-12)


def test_a_carrier_of_five_litres_is_shown_as_five_kilograms_or_eleven_pounds():
    carrier = load_mass(Load.parse("5 l water"))

    assert (shown_mass(carrier, "metric").low, shown_mass(carrier, "us").low) == (5.0, 11.0)


def test_dry_sand_lies_between_80_and_100_pounds_a_cubic_foot():
    """Bulk density as a reference article gives it (secondary source); a foot is 0.3048 m exactly."""
    cubic_foot_in_litres = 0.3048**3 * 1000
    pounds = KG_PER_LITRE["sand"] * (cubic_foot_in_litres / 0.45359237)

    assert pounds == Span(pytest.approx(80, abs=0.2), pytest.approx(100, abs=0.2))
