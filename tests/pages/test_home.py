"""The home page answers "what now?": where to start, what there is, what to know before."""

import itertools
from pathlib import Path
from types import SimpleNamespace

import pytest
from bs4 import BeautifulSoup

from sitegen.pages.home import HomeWeek, in_parts, title_size


@pytest.fixture(scope="module")
def home(demo_site: Path) -> BeautifulSoup:
    return BeautifulSoup((demo_site / "index.html").read_text(), "html5lib")


def test_a_newcomer_is_sent_to_the_first_session_not_to_the_newest(home: BeautifulSoup) -> None:
    link = home.select_one("#first-step a")

    assert link is not None
    assert link["href"] == "episodes/cast-off/index.html"
    assert link.get_text(" ", strip=True).startswith("Start with session 1: Cast off")


def test_every_session_stands_in_its_week_once(home: BeautifulSoup) -> None:
    weeks = home.select("section.week")
    titles = [[link.get_text() for link in week.select("h4 a")] for week in weeks]

    assert [week.h3.get_text() for week in weeks if week.h3] == [
        "Week 1",
        "Week 2",
        "Week 3",
        "Week 4",
    ]
    assert [len(sessions) for sessions in titles] == [3, 3, 3, 3]
    assert titles[0][0] == "Session 1: Cast off"


def test_the_first_and_the_newest_session_are_marked(home: BeautifulSoup) -> None:
    flags = {
        flag.get_text(): flag.find_previous("h4").get_text()  # type: ignore[union-attr]
        for flag in home.select(".flag")
    }

    assert flags == {"Start here": "Session 1: Cast off", "Newest": "Session 12: Home berth"}


def test_when_to_stop_is_a_line_in_the_foot_and_all_of_it_stands_with_all_cautions_and_in_sessions(
    home: BeautifulSoup, demo_site: Path
) -> None:
    before = BeautifulSoup((demo_site / "before-you-start/index.html").read_text(), "html5lib")

    session = BeautifulSoup((demo_site / "episodes/cast-off/index.html").read_text(), "html5lib")

    links = [link["href"] for link in home.select(".foot .stop-line a")]
    assert links == ["tel:112", "before-you-start/index.html#foot-stop"]
    for page in (before, session):
        assert [len(signs.select("li")) for signs in page.select(".foot .danger ul")] == [8, 6]
        assert page.select_one('.foot .danger a[href="tel:112"]') is not None
        assert page.find(id="foot-stop") is not None
    assert len(home.select("main .cautions li")) == 3 < len(before.select("main .cautions li"))


def test_the_menu_has_five_entries(home: BeautifulSoup) -> None:
    entries = [link.get_text() for link in home.select(".masthead li a")]

    assert entries == ["Sessions", "Exercises", "Your needs", "Calendar", "About"]


@pytest.mark.parametrize(
    ("title", "size"),
    [
        ("Galley Strength", "short"),
        ("Strong at seventy", "middle"),
        ("Twelve gentle weeks for stiff backs and shoulders", "long"),
        ("Rückenkräftigung", "long"),
        ("Kücheninselganzkörperkräftigung", "one-word"),
        ("台所の筋力教室", "short"),
        ("台所にある物でできる筋力の教室", "middle"),
        ("قوة المطبخ", "short"),
    ],
)
def test_a_title_is_as_large_as_it_may_be(title: str, size: str) -> None:
    assert title_size(title) == size


@pytest.mark.parametrize(
    ("weeks", "parts"),
    [
        ([(week, 3) for week in range(1, 13)], [(1, 36)]),
        ([(week, 3) for week in range(1, 18)], [(1, 24), (25, 48), (49, 51)]),
        ([(1, 5), (2, 30), (3, 5)], [(1, 5), (6, 35), (36, 40)]),
        ([(0, 60)], [(1, 24), (25, 48), (49, 60)]),
        ([], []),
    ],
    ids=["few", "many", "a full week is not parted", "without weeks", "none"],
)
def test_a_long_list_of_sessions_comes_in_parts(
    weeks: list[tuple[int, int]], parts: list[tuple[int, int]]
) -> None:
    """Week number and how many sessions it has; each part's first and last session."""
    numbers = itertools.count(1)
    cards = {week: [SimpleNamespace(number=next(numbers)) for _ in range(count)] for week, count in weeks}

    made = in_parts([HomeWeek(week, cards[week]) for week in cards])  # type: ignore[arg-type]

    assert [(part.first, part.last) for part in made] == parts
    shown = [card.number for part in made for week in part.weeks for card in week.cards]
    assert shown == list(range(1, len(shown) + 1))
