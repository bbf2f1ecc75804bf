"""Effort on one scale: a page says "effort 8 of 10" for RPE 8 and for two repetitions in reserve alike.

Zourdos et al. 2016 (from memory): RPE 10 leaves no repetition, 8 leaves two, 7 three.
"""

from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from sitegen.notation import Dose, Effort
from sitegen.pages.phrases import Phrases
from sitegen.pages.theme import Theme
from sitegen.resources import themes_folder

PHRASES = Phrases(Theme(Path(themes_folder()) / "tidewater", "en").strings, "metric")


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("RPE 6", "effort 6 of 10"),
        ("RPE 6-7", "effort 6–7 of 10"),
        ("0 in reserve", "effort 10 of 10"),
        ("2 in reserve", "effort 8 of 10"),
        ("2-3 in reserve", "effort 7–8 of 10"),
        ("9-12 in reserve", "effort 0–1 of 10"),
        ("12 in reserve", "effort 0 of 10"),
    ],
)
def test_both_ways_to_write_an_effort_are_one_to_read(written: str, shown: str) -> None:
    assert PHRASES.effort(Effort.parse(written)) == shown


def test_a_dose_tells_its_reserve_on_the_same_scale() -> None:
    assert PHRASES.dose(Dose.parse("max, 2 in reserve")) == "as many as you can do well, effort 8 of 10"


def test_a_session_says_once_what_the_scale_means(demo_site: Path) -> None:
    page = BeautifulSoup((demo_site / "episodes/home-berth/index.html").read_bytes(), "html.parser")
    shown = " ".join(page.main.stripped_strings) if page.main else ""

    assert shown.count("Effort goes from 0 (none) to 10 (all out)") == 1
    facts = " ".join(fact.get_text(" ", strip=True) for fact in page.select(".item-facts, .dose"))
    assert "effort 8 of 10" in facts
    assert "reserve" not in facts
