"""The trainer's page about the next session: room, proposals, what needs would keep of them, growth."""

from datetime import date
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from sitegen.model import Series
from sitegen.reading.reader import read_series
from sitegen.report.curves import curve_words
from sitegen.report.next_session_page import room_page
from sitegen.study.forms import FormKey
from sitegen.study.progression import ProgressPoint
from sitegen.study.span import Span
from tests.sessions import STARTER_SCHEDULE, SessionFolder

BEFORE = date(2026, 9, 1)
"""A day before the series of these tests begin."""


@pytest.fixture(scope="module")
def page(demo_series: Series) -> BeautifulSoup:
    return BeautifulSoup(room_page(demo_series, BEFORE), "html.parser")


def test_the_room_of_every_muscle_is_there(page: BeautifulSoup) -> None:
    assert page.h1 is not None
    assert page.h1.get_text() == (
        "The next session: episode 13 (Mon 12 Oct 2026, week 6, 3 sessions to come in it, after a week off)"
    )
    rows = [
        [cell.get_text() for cell in row.select("th, td")] for row in page.select("table")[0].select("tr")
    ]
    assert rows[0] == ["Muscle", "Week so far", "Still needs", "May have", "Usual week", "Recovering from"]
    assert ["glutes", "0", "8", "24", "15.6", "-"] in rows


def test_the_room_of_the_next_weeks_is_there(page: BeautifulSoup) -> None:
    """A later week has all of its limits; every fifth week of the demo is kept free."""
    [table] = [one.find_next("table") for one in page.select("h2#ahead")]
    assert table is not None
    rows = [[cell.get_text() for cell in row.select("th, td")] for row in table.select("tr")]
    assert rows[0] == [
        "Muscle",
        "week 6: 3 sessions from Mon 12 Oct 2026",
        "week 7: 3 sessions from Mon 19 Oct 2026",
        "week 8: 3 sessions from Mon 26 Oct 2026",
    ]
    assert ["glutes", "8-24", "8-24", "8-24"] in rows


def test_what_each_need_lost_and_would_lose_is_said(page: BeautifulSoup) -> None:
    text = page.get_text(" ", strip=True)
    assert "What needs lost in episode 10, episode 11 and episode 12" in text
    assert "Whole session seated" in text
    assert text.count("What needs would lose of it") == 3


def test_proposals_come_with_reasons_and_growth(page: BeautifulSoup) -> None:
    assert [head.get_text().split(":")[0] for head in page.select("h3")][1:] == [
        "Proposal 1",
        "Proposal 2",
        "Proposal 3",
    ]
    for exercise in page.select("li:has(.why)"):
        assert len(exercise.select(".why")) == 2  # why this exercise, and why this dose
    assert "->" in page.select("ul")[-1].get_text()


def test_every_exercise_has_its_next_dose(page: BeautifulSoup) -> None:
    rows = [
        [cell.get_text() for cell in row.select("th, td")] for row in page.select("table")[-1].select("tr")
    ]
    assert len(rows) > 30
    assert [
        "Backpack row",
        "10 with 6 kg",
        "episode 12: 10 with 6 kg; a week off lies between, so the same again",
    ] in rows


@pytest.mark.parametrize("schedule", ["", STARTER_SCHEDULE])
def test_a_series_without_sessions_has_its_page_too(tmp_path: Path, schedule: str) -> None:
    text = room_page(read_series(SessionFolder(tmp_path, schedule=schedule).root), BEFORE)
    assert "is past" not in text
    assert "The next session: episode 1" in text
    assert "exercises to choose from" in text or "one exercise to choose from" in text


def test_a_next_session_in_the_past_is_said_to_be_so(tmp_path: Path) -> None:
    """A calendar that begins before the sessions do has days that are gone."""
    series = read_series(SessionFolder(tmp_path, schedule=STARTER_SCHEDULE).root)
    assert "Mon 4 Jan 2027 is past" in room_page(series, date(2027, 1, 5))
    assert "is past" not in room_page(series, date(2027, 1, 4))


def point(number: int, amount: float, *, load: float | None = None, assumed: bool = False) -> ProgressPoint:
    return ProgressPoint(
        episode=f"episode-{number}",
        number=number,
        form=FormKey("row"),
        sets=Span(3, 3),
        amount=Span(amount, amount),
        unit="reps",
        assumed=assumed,
        volume_load=Span(amount * load, amount * load) if load else None,
    )


EARLIER = "3 (3), 4 (4), 5 (5), 6 (6), 7 (7), 8 (8)"


@pytest.mark.parametrize(
    ("line", "new", "words"),
    [
        ([point(1, 24), point(4, 30)], point(7, 33), "24 (1), 30 (4) -> 33 reps"),
        ([point(1, 24, load=6)], point(2, 27, load=6), "144 (1) -> 162 kg in all reps"),
        ([point(1, 24)], point(2, 27, load=6), "24 (1) -> 27 reps"),  # one without a load
        ([], point(2, 24), "24 reps, for the first time"),
        ([point(n, n) for n in range(2, 9)], point(9, 9), f"…, {EARLIER} -> 9 reps"),
        ([point(1, 30, assumed=True)], point(2, 33), "about 30 (1) -> 33 reps"),
    ],
)  # fmt: skip
def test_a_curve_in_words(line: list[ProgressPoint], new: ProgressPoint, words: str) -> None:
    assert curve_words(line, new) == words
