"""Calendar entries: their names, what they say, and how their changes are counted."""

from dataclasses import replace
from datetime import date
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.model import Recorded, ScheduleWishes
from sitegen.study.calendar_entries import (
    CalendarEntry,
    SessionSummary,
    entries,
    first_slug,
    is_changed,
    record,
    sequence,
)
from sitegen.study.span import Span
from tests.study.series_parts import details

KIT = ("Chair", "Towel")
BRIEF = SessionSummary(number=4, slug="rising-tide", title="Rising tide", seconds=Span(2700, 2801), kit=KIT)
DAY = date(2026, 9, 14)


def entry(**changes):
    words = {"key": "rising-tide-1", "repeat": 1, "date": DAY, "start": 1110, "time_zone": "Europe/Lisbon"}
    return CalendarEntry(**{**words, "brief": BRIEF, **changes})


@pytest.mark.parametrize(
    ("seconds", "minutes"),
    [(Span(2700, 2700), 45), (Span(2700, 2701), 50), (Span(1, 1), 5), (None, None)],
    ids=["whole", "rounded up", "short", "unknown"],
)
def test_the_length_is_the_long_end_in_steps_of_five_minutes(seconds, minutes):
    assert replace(BRIEF, seconds=seconds).minutes == minutes


def test_entries_are_named_by_slug_and_time():
    series = details(
        schedule=ScheduleWishes(start=DAY, days=("monday",), time=1110, time_zone="Europe/Lisbon")
    )
    made = list(entries(series, {4: BRIEF}, [(4, 1, DAY), (4, 2, date(2026, 9, 21))]))

    assert [one.key for one in made] == ["rising-tide-1", "rising-tide-2"]
    assert [(one.start, one.time_zone, one.repeat) for one in made] == [
        (1110, "Europe/Lisbon", 1),
        (1110, "Europe/Lisbon", 2),
    ]


def test_a_series_without_a_calendar_has_no_entries():
    with pytest.raises(ValueError, match="no calendar"):
        list(entries(details(), {}, []))


@pytest.mark.parametrize(
    ("moved", "slug", "first"),
    [
        ({}, "now", "now"),
        ({"episodes/then": "episodes/now"}, "now", "then"),
        ({"episodes/a": "episodes/b", "episodes/b/index.html": "/episodes/c/"}, "c", "a"),
        ({"episodes/a": "episodes/b", "episodes/b": "episodes/a"}, "a", "b"),
        ({"old-page": "episodes/now"}, "now", "now"),
        ({"episodes/then": "episodes/now"}, "other", "other"),
    ],
    ids=["never moved", "renamed", "renamed twice", "in a circle", "came from elsewhere", "another"],
)
def test_an_episode_is_known_by_its_first_slug(moved, slug, first):
    assert first_slug(moved, slug) == first


@pytest.mark.parametrize(
    "change",
    [
        {"date": date(2026, 9, 15)},
        {"start": 1140},
        {"start": None},
        {"time_zone": "Europe/Paris"},
        {"brief": replace(BRIEF, title="Rising tides")},
        {"brief": replace(BRIEF, number=5)},
        {"brief": replace(BRIEF, seconds=Span(2700, 3300))},
        {"brief": replace(BRIEF, kit=("Chair",))},
    ],
    ids=["day", "time", "all day", "zone", "title", "number", "length", "kit"],
)
def test_whatever_an_entry_says_is_in_its_mark(change):
    assert entry(**change).mark != entry().mark


def test_a_length_that_rounds_to_the_same_is_no_change():
    assert entry(brief=replace(BRIEF, seconds=Span(2700, 2830))).mark == entry().mark


def test_the_count_rises_once_for_a_change_and_again_only_after_it_was_recorded():
    first = record({}, [entry()])
    assert first == {"rising-tide-1": Recorded(sequence=0, mark=entry().mark)}

    later = entry(date=date(2026, 9, 16))
    assert (sequence({}, later), sequence(first, entry()), sequence(first, later)) == (0, 0, 1)
    assert is_changed(first, later)

    second = record(first, [later])
    assert sequence(second, later) == 1
    assert sequence(second, entry()) == 2  # back to the first day is a change too


def test_what_is_gone_is_kept_for_it_may_return():
    kept = record({"gone-1": Recorded(sequence=3, mark="0" * 12)}, [entry()])

    assert list(kept) == ["gone-1", "rising-tide-1"]


@given(st.lists(st.dates(date(2026, 1, 1), date(2027, 1, 1)), min_size=1, max_size=8))
def test_published_again_and_again_the_count_never_falls_and_rises_with_every_change(published):
    """RFC 5545, 3.8.7.4: a number that rises with every revision that counts."""
    recorded: dict[str, Recorded] = {}
    counts = []
    for day in published:
        counts.append(sequence(recorded, entry(date=day)))
        recorded = record(recorded, [entry(date=day)])
    changes = [before != after for before, after in pairwise(published)]
    assert [after - before for before, after in pairwise(counts)] == list(map(int, changes))
