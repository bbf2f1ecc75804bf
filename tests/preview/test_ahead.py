"""Pages of the next site are there for whoever looks before the site is written."""

import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from sitegen.pages.page import CopyOf, Page
from sitegen.preview.ahead import Ahead
from sitegen.system.noted_reads import note, recording
from tests.conftest import PATIENCE_S


def pages(**texts: str) -> list[Page]:
    """Pages that say their recipe."""
    return [Page(f"{name}.html", lambda text=text: text.encode(), text) for name, text in texts.items()]  # type: ignore[misc]


IN_PLACE = {"one.html": "1", "two.html": "2", "three.html": "3"}
"""Recipes of the site in place."""


def is_current(page: Page) -> bool:
    """Whether a page is in place."""
    return IN_PLACE.get(page.address) == page.recipe


def nothing() -> None:
    """Nobody is told."""


@pytest.fixture
def ahead() -> Ahead:
    """A site of three pages is in place."""
    ahead = Ahead()
    ahead.open(pages(one="1", two="2", three="3"), is_current, nothing)
    ahead.close(in_place=True)
    return ahead


def test_before_the_first_build_there_is_nothing_to_come() -> None:
    ahead = Ahead()
    ahead.open(pages(one="1"), is_current, nothing)
    assert ahead.get("one.html") is None
    assert len(ahead) == 0


def test_what_differs_is_to_be_had_and_the_rest_is_on_the_disk(ahead: Ahead) -> None:
    ahead.open(pages(one="1", two="changed", more="new"), is_current, nothing)
    assert len(ahead) == 2
    assert ahead.get("one.html") is None
    assert ahead.get("two.html") == b"changed"
    assert ahead.get("more.html") == b"new"
    assert ahead.get("never.html") is None


def test_a_file_that_is_copied_is_taken_from_where_it_is(ahead: Ahead) -> None:
    ahead.open([Page("film.webm", CopyOf(Path("media/film.webm"), "digest"))], is_current, nothing)
    assert ahead.get("film.webm") == Path("media/film.webm")


def test_once_written_the_disk_holds(ahead: Ahead) -> None:
    ahead.open(pages(one="changed"), is_current, nothing)
    ahead.close(in_place=True)
    assert ahead.get("one.html") is None
    assert len(ahead) == 0


def test_after_a_build_that_failed_the_difference_is_still_to_come(ahead: Ahead) -> None:
    ahead.open(pages(one="changed"), is_current, nothing)
    ahead.close(in_place=False)
    assert ahead.get("one.html") is None
    ahead.open(pages(one="changed"), is_current, nothing)
    assert ahead.get("one.html") == b"changed"


def test_an_open_page_is_shown_before_the_plan_is_complete(ahead: Ahead) -> None:
    seen: list[str] = []

    def plan() -> Iterator[Page]:
        for page in pages(one="new 1", two="new 2", three="3"):
            seen.append(page.address)
            yield page

    def show() -> None:
        seen.append("shown")
        # A server's thread gets the page while the plan is still being made.
        server = threading.Thread(target=lambda: seen.append(str(ahead.get("two.html"))))
        server.start()
        server.join(PATIENCE_S)

    with ahead.looking_at("two.html"):
        ahead.open(plan(), is_current, show)
    assert seen == ["one.html", "two.html", "shown", "b'new 2'", "three.html"]


@pytest.mark.parametrize(
    ("looking", "texts", "times"),
    [
        pytest.param("three.html", {"one": "new", "three": "3"}, 1, id="another page differs"),
        pytest.param("one.html", {"one": "1", "two": "2"}, 0, id="nothing differs"),
        pytest.param("one.html", {"one": "new", "two": "new"}, 1, id="two pages differ"),
    ],
)
def test_it_is_told_once_that_there_is_something_to_see(
    ahead: Ahead, looking: str, texts: dict[str, str], times: int
) -> None:
    told: list[None] = []
    with ahead.looking_at(looking):
        ahead.open(pages(**texts), is_current, lambda: told.append(None))
    assert len(told) == times


def test_a_page_no_longer_open_is_not_made_first(ahead: Ahead) -> None:
    with ahead.looking_at("one.html"), ahead.looking_at("one.html"):
        pass
    made: list[str] = []
    page = Page("one.html", lambda: made.append("one") or b"new", "new")  # type: ignore[func-returns-value]
    ahead.open([page], is_current, nothing)
    assert made == []


def test_a_page_that_was_asked_for_is_not_made_twice(ahead: Ahead) -> None:
    made: list[str] = []
    page = Page("one.html", lambda: made.append("one") or b"new", "new")  # type: ignore[func-returns-value]
    (to_write,) = ahead.open([page], is_current, nothing)
    assert ahead.get("one.html") == b"new"
    assert not isinstance(to_write.make, CopyOf)
    assert to_write.make() == b"new"
    assert made == ["one"]


def test_what_was_read_for_a_page_comes_with_it(ahead: Ahead) -> None:
    """Whoever writes the page keeps what it was made from, although a server had it made."""
    page = Page("one.html", lambda: note("exercise towel-row") or b"new", "new")  # type: ignore[func-returns-value]
    (to_write,) = ahead.open([page], is_current, nothing)
    ahead.get("one.html")
    assert not isinstance(to_write.make, CopyOf)
    with recording() as read:
        to_write.make()
    assert read == {"exercise towel-row"}


def test_the_build_lets_go_first_who_waits_for_a_page(ahead: Ahead) -> None:
    order: list[str] = []
    started = threading.Event()

    def slow() -> bytes:
        started.set()
        limit = time.monotonic() + PATIENCE_S
        while not ahead.asking and time.monotonic() < limit:
            time.sleep(0.001)
        order.append("slow")
        return b""

    planned = ahead.open(
        [
            Page("slow.html", slow, "new"),
            *[Page(f"{n}.html", lambda n=n: order.append(str(n)) or b"", "new") for n in range(3)],  # type: ignore[misc,func-returns-value]
        ],
        is_current,
        nothing,
    )

    def build() -> None:
        for page in planned:
            assert not isinstance(page.make, CopyOf)
            page.make()

    builder = threading.Thread(target=build)
    builder.start()
    assert started.wait(PATIENCE_S)
    server = threading.Thread(target=ahead.get, args=("2.html",))
    server.start()
    for thread in (builder, server):
        thread.join(PATIENCE_S)
    assert order == ["slow", "2", "0", "1"]
