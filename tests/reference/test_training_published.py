"""Counting of sets, rests and recovery against what the trade has published."""

from sitegen.study.recovery import HARD_RESERVE, HARD_RPE
from sitegen.study.timing import REST_BETWEEN_SETS
from sitegen.study.volume import muscle_shares
from tests.study.series_parts import FormKey, exercise, forms


def test_an_indirect_set_counts_half():
    """Pelland et al. 2024 (SportRxiv preprint): direct sets 1, indirect sets 0.5 fitted best."""
    library = forms(exercise("row", prime=["upper back"], assist=["biceps"]))

    assert muscle_shares(library[FormKey("row")]) == {"upper back": 1, "biceps": 0.5}


def test_default_rests_lie_inside_the_published_ranges():
    """Essentials of Strength Training and Conditioning, by summaries (secondary): muscle growth 30
    to 90 s, endurance 30 s at most."""
    strength, conditioning = REST_BETWEEN_SETS["strength"], REST_BETWEEN_SETS["conditioning"]

    assert 30 <= strength.low <= strength.high <= 90
    assert conditioning.high <= 30


def test_hard_on_both_scales_of_effort_is_the_same_effort():
    """Zourdos et al. 2016: RPE 10 leaves no repetition, 8 leaves two; so RPE and reserve add up to 10."""
    assert HARD_RPE + HARD_RESERVE == 10
