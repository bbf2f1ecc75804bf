"""Where addresses that changed lead now."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.study.moved_addresses import MovedAddresses, fragment_of, place_of

LIVE = {"", "episodes/new", "episodes/new/sheet", "exercises/towel-row", "exercises"}

CASES = {
    # id: (moved, place asked for, where it leads)
    "live already": ({}, "episodes/new", "episodes/new"),
    "one move": ({"episodes/old": "episodes/new"}, "episodes/old", "episodes/new"),
    "what lies below": ({"episodes/old": "episodes/new"}, "episodes/old/sheet", "episodes/new/sheet"),
    "below, but not there": ({"episodes/old": "episodes/new"}, "episodes/old/x", None),
    "two moves": ({"episodes/a": "episodes/b", "episodes/b": "episodes/new"}, "episodes/a", "episodes/new"),
    "two moves below": (
        {"episodes/a": "episodes/b", "episodes/b": "episodes/new"}, "episodes/a/sheet", "episodes/new/sheet",
    ),
    "the longer part comes first": (
        {"episodes/old": "episodes/new", "episodes/old/sheet": "exercises"},
        "episodes/old/sheet",
        "exercises",
    ),
    "to the home page": ({"exercises/gone": ""}, "exercises/gone", ""),
    "written with slashes and file names": (
        {"/episodes/old/index.html": "episodes/new/"}, "episodes/old", "episodes/new",
    ),
    "to a part of a page": (
        {"exercises/gone": "exercises/towel-row#easier"}, "exercises/gone", "exercises/towel-row",
    ),
    "never moved": ({"episodes/old": "episodes/new"}, "episodes/other", None),
    "to nowhere": ({"episodes/old": "episodes/nothing"}, "episodes/old", None),
    "to itself": ({"episodes/old": "episodes/old"}, "episodes/old", None),
    "in a circle": ({"a": "b", "b": "c", "c": "a"}, "b", None),
    "deeper and deeper": ({"a": "a/a"}, "a", None),
    "a name that only starts like it": ({"episodes/old": "episodes/new"}, "episodes/older", None),
}  # fmt: skip


@pytest.mark.parametrize(("moved", "place", "end"), CASES.values(), ids=CASES.keys())
def test_where_it_leads(moved: dict[str, str], place: str, end: str | None) -> None:
    assert MovedAddresses(moved, LIVE.__contains__).end_of(place) == end


CIRCLES = {
    "to itself": ({"a": "a"}, True),
    "three": ({"a": "b", "b": "c", "c": "a"}, True),
    "out of it at a live page": ({"a": "exercises", "exercises": "a"}, False),
    "to nowhere": ({"a": "b"}, False),
    "to a page": ({"a": "exercises"}, False),
}


@pytest.mark.parametrize(("moved", "circle"), CIRCLES.values(), ids=CIRCLES.keys())
def test_circles(moved: dict[str, str], circle: bool) -> None:
    assert MovedAddresses(moved, LIVE.__contains__).goes_in_a_circle("a") is circle


PLACES = st.sampled_from(["a", "b", "a/x", "b/x", "c", "a/x/y", ""])


@given(st.dictionaries(PLACES.filter(bool), PLACES), PLACES)
def test_whatever_is_written_it_ends_at_a_live_page_or_nowhere(moved: dict[str, str], place: str) -> None:
    live = {"c", ""}
    end = MovedAddresses(moved, live.__contains__).end_of(place)
    assert end is None or end in live


WORDS = {
    "episodes/x": ("episodes/x", ""),
    "/episodes/x/": ("episodes/x", ""),
    "episodes/x/index.html": ("episodes/x", ""),
    "episodes/x/#part": ("episodes/x", "part"),
    "index.html": ("", ""),
    "/": ("", ""),
    "episodes/x/sheet-a4.pdf": ("episodes/x/sheet-a4.pdf", ""),
}


@pytest.mark.parametrize(("words", "expected"), WORDS.items(), ids=WORDS.keys())
def test_addresses_as_people_write_them(words: str, expected: tuple[str, str]) -> None:
    assert (place_of(words), fragment_of(words)) == expected
