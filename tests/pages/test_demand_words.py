"""Demands as a viewer reads them."""

import pytest

from sitegen.pages.phrases import Phrases
from sitegen.pages.theme import Theme
from tests.conftest import ROOT

PHRASES = Phrases(Theme(ROOT / "themes/tidewater", "en").strings)


@pytest.mark.parametrize(
    ("demand", "read"),
    [
        ("twisting under load", "hard twisting"),
        ("head low", "having the head low"),
        ("stairs and steps", "stairs and steps"),
        ("jumping", "jumping"),
        pytest.param("moving the legs", "moving the legs", id="a word that the demo declares itself"),
    ],
)
def test_a_demand_is_said_in_the_themes_words_or_as_written(demand: str, read: str) -> None:
    assert PHRASES.words("demands", demand) == read
