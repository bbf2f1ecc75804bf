"""What is noted while a page is made: nothing is left out because another page has been made before."""

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path

import pytest

from sitegen.building.build import Builder
from sitegen.pages.page import CopyOf, Gateway, Page, recipe_of
from sitegen.system.noted_reads import Shared, note, recording, shared_property, unrecorded
from tests.demo_copy import copy_demo, leave_out_unused, shorten


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Path:
    content = copy_demo(tmp_path_factory.mktemp("reads"), episodes=3)
    shorten(content)
    leave_out_unused(content, but=["chair-squat"])
    return content


def planned(content: Path) -> dict[str, Page]:
    """The pages of a site of which nothing has been made yet."""
    builder = Builder(content, content.parent / "never-written", jobs=1)
    return {page.address: page for page in builder.plan(builder.read())}


def read_for(page: Page) -> set[str]:
    """What is noted while a page is made."""
    assert not isinstance(page.make, CopyOf)
    with recording() as read:
        page.make()
    return read


LATE = [
    "index.html",
    "feed.xml",
    "about/index.html",
    "balance/index.html",
    "exercises/index.html",
    "exercises/find.js",
    "exercises/chair-squat/index.html",
    "exercises/by/pattern/squat/index.html",
    "needs/index.html",
    "needs/no-jumping/index.html",
    "schedule/index.html",
    "schedule.ics",
    "sheets/index.html",
    "episodes/steady-pull/index.html",
    "episodes/steady-pull/chapters.json",
    "episodes/steady-pull/description.txt",
    "episodes/steady-pull/sheet/index.html",
    "episodes/steady-pull/sheet/weeks/index.html",
]
"""A page of every kind; of a session the last, so that most of it has been worked out for others."""


def test_pages_made_before_hide_nothing_that_is_read(content: Path) -> None:
    """Results that pages share bring along what was read for them: those that do not are found here."""
    pages = planned(content)
    for page in pages.values():
        if not isinstance(page.make, CopyOf):
            page.make()
    for address in LATE:
        alone = read_for(planned(content)[address])
        assert read_for(pages[address]) >= alone, address


# --- the means -------------------------------------------------------------------------------


def test_what_is_read_inside_is_read_outside_too() -> None:
    with recording() as outside:
        note("one")
        with recording() as inside:
            note("two")
        with unrecorded():
            note("three")
    assert (inside, outside) == ({"two"}, {"one", "two"})


class Shelf(Gateway):
    """Has results that are shared."""

    def __init__(self) -> None:
        self.by_name: Shared[int] = Shared()

    @shared_property
    def whole(self) -> int:
        """Worked out once."""
        note("whole")
        return 1

    def make(self, name: str) -> bytes:
        """Read one of several."""
        return b"%d" % self.by_name.get(name, lambda: note(name) or len(name))  # type: ignore[func-returns-value]


@pytest.mark.parametrize("time", ["the first time", "again"])
def test_shared_results_bring_along_what_was_read_for_them(time: str) -> None:
    shelf = Shelf()
    if time == "again":
        shelf.make("towel")
        assert shelf.whole
    with recording() as read:
        shelf.make("towel")
        assert shelf.whole
    assert read == {"towel", "whole"}


def test_records_note_each_look_by_what_is_looked_at(content: Path) -> None:
    builder = Builder(content, content.parent / "never-written", jobs=1)
    series = builder.site(builder.read()).series
    with recording() as read:
        episode = series.episodes[0]
    assert read == {"list episodes"}
    for field, name in {"number": "title", "summary": "episode", "blocks": "session"}.items():
        with recording() as read:
            getattr(episode, field)
        assert read == {f"{name} {episode.slug}"}, field


def _make(site: object, what: object) -> bytes:
    return b""


def _inner() -> Iterator[object]:
    yield from ()


@pytest.mark.parametrize(
    "make",
    [
        pytest.param(lambda: b"", id="a lambda"),
        pytest.param(partial(_make, Shelf(), object()), id="an object that may hold anything"),
        pytest.param(partial(_make, Shelf(), _inner()), id="a generator"),
    ],
)
def test_a_page_is_made_only_from_what_can_be_told_apart(make: partial[bytes]) -> None:
    with pytest.raises((TypeError, AttributeError)):
        recipe_of(make)


def test_plain_data_counts_by_value_and_records_by_their_ids(content: Path) -> None:
    builder = Builder(content, content.parent / "never-written", jobs=1)
    one, two, *_ = builder.read().series.episodes  # type: ignore[union-attr]
    recipes = [
        recipe_of(partial(_make, Shelf(), what))
        for what in (one, replace(one, title="Another"), two, [one, "a"], [one, "b"], {"a": 1}, {"a": 2})
    ]
    assert recipes[0] == recipes[1]
    assert len(set(recipes)) == len(recipes) - 1
