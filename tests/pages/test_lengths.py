"""Lengths as a reader sees them: no more exact than they can be known."""

from pathlib import Path

import pytest

from sitegen.pages.phrases import Phrases
from sitegen.pages.theme import Theme
from sitegen.resources import themes_folder
from sitegen.study.span import Span
from sitegen.study.timing import SETTING_UP_SECONDS, session_time
from tests.spaces import spaced
from tests.study.series_parts import block, details, episode, exercise, forms

PHRASES = Phrases(Theme(Path(themes_folder()) / "tidewater", "en").strings)


@pytest.mark.parametrize(
    ("minutes", "shown"),
    [
        ((31, 31), "about 30 min"),
        ((37, 39), "about 35–40 min"),
        ((38, 42), "about 40 min"),
        ((42.4, 47.4), "about 40–45 min"),
        ((8, 12), "about 10 min"),
        ((2, 11), "about 5–10 min"),
        ((6.4, 9.4), "about 6–9 min"),
        ((0.2, 0.4), "about 1 min"),
        ((62, 74), "about 60–75 min"),
    ],
)
def test_an_estimate_is_told_in_steps(minutes: tuple[float, float], shown: str) -> None:
    assert spaced(PHRASES.about(Span(minutes[0] * 60, minutes[1] * 60))) == shown


@pytest.mark.parametrize(("kit", "more"), [((), Span(0, 0)), (("towel",), SETTING_UP_SECONDS)])
def test_fetching_the_kit_takes_time_too(kit: tuple[str, ...], more: Span) -> None:
    one = episode(1, block("straight sets", "row 30 s"), video=600)
    time = session_time(details(), forms(exercise("row", kit=kit)), one)

    assert time.seconds == Span(630, 630)
    assert time.whole == Span(630, 630) + more
