"""What household loads weigh and how that is shown."""

import pytest

from sitegen.notation import Load
from sitegen.study.load import Mass, difference, load_mass, part_mass, shown_mass
from sitegen.study.span import Span


@pytest.mark.parametrize(
    ("written", "units", "shown"),
    [
        ("5 l water", "metric", Mass(5.0, 5.0, "kg")),
        ("2 x 5 l water", "metric", Mass(10.0, 10.0, "kg")),
        ("5 l water + 3 l water", "metric", Mass(8.0, 8.0, "kg")),
        ("1 US gal water", "metric", Mass(3.8, 3.8, "kg")),
        ("1 imperial gal water", "metric", Mass(4.5, 4.5, "kg")),
        ("12 kg", "metric", Mass(12.0, 12.0, "kg")),
        ("25 lb", "metric", Mass(11.3, 11.3, "kg")),
        ("25 lb", "us", Mass(25.0, 25.0, "lb")),
        ("25 lb", "imperial", Mass(25.0, 25.0, "lb")),
        ("12 kg", "us", Mass(26.5, 26.5, "lb")),
        ("5 l sand", "metric", Mass(6.4, 8.0, "kg")),
        ("2 l rice", "metric", Mass(1.5, 1.7, "kg")),
        ("400 g", "metric", Mass(0.4, 0.4, "kg")),
        ("40 g", "metric", Mass(0.04, 0.04, "kg")),
        ("2 x 400 g", "us", Mass(1.8, 1.8, "lb")),
    ],
)
def test_shown_mass_of_a_load(written, units, shown):
    assert shown_mass(load_mass(Load.parse(written)), units) == shown


def test_each_hand_apart():
    masses = [part_mass(part) for part in Load.parse("5 l water + 6 kg").parts]

    assert masses == [Span(pytest.approx(4.991), pytest.approx(4.991)), Span(6, 6)]


@pytest.mark.parametrize(
    ("written", "kilograms"),
    [
        ("12 kg", 0),
        ("2 x 5 l water", 0),
        ("5 l water + 3 l water", 1.9964),
        ("3 l water + 5 l water", 1.9964),
        ("6 kg + 4 kg", 2),
        ("1 kg + 1000 g", 0),
        # within 2 % of the heavier one they count as equal
        ("5 l water + 5 kg", 0),
        ("5 kg + 4.9 kg", 0),
        ("4.89 kg + 5 kg", 0.11),
        # 1.44 kg/l at the middle of the range, against 0.9982
        ("1 l sand + 1 l water", 0.4418),
    ],
)
def test_difference_between_the_hands(written, kilograms):
    assert difference(Load.parse(written)) == pytest.approx(kilograms)
