"""The schedule's page: months and list against the calendar, reasons in words, what is coming, the data."""

import json
from calendar import Calendar
from datetime import date
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup, Tag

from sitegen.building.build import Builder
from sitegen.model import DateRange, ScheduleWishes
from sitegen.pages.page import Page
from sitegen.pages.schedule.sentences import ScheduleSentences, clock
from sitegen.pages.site import Site
from sitegen.study.schedule import SessionToPlace, place, request_from_series
from tests.four_weeks import four_weeks
from tests.sessions import SessionFolder

ROW = "backpack-row, dose: 8, effort: 2 in reserve"
JACK = "jumping-jack, dose: 30 s"


def pages_of(series: SessionFolder, today: date | None = None) -> dict[str, Page]:
    builder = Builder(series.root, series.root.parent / "build", jobs=1, today=today)
    return {page.address: page for page in builder.plan(builder.read())}


def soup_of(series: SessionFolder, today: date | None = None) -> BeautifulSoup:
    make = pages_of(series, today)["schedule/index.html"].make
    assert not isinstance(make, Path)
    return BeautifulSoup(make(), "html.parser")


def months(soup: BeautifulSoup) -> dict[str, list[list[str]]]:
    """Rows of each month, week number first; templates left out."""
    found = {}
    for month in soup.select("#month-tables .month"):
        name = month.find(attrs={"data-slot": "month"})
        assert isinstance(name, Tag)
        rows = month.select("tbody tr")
        found[name.get_text()] = [[text(cell) for cell in row.find_all(["th", "td"])] for row in rows]
    return found


def text(node: Tag) -> str:
    return " ".join(node.get_text(" ", strip=True).split())


def occurrences(soup: BeautifulSoup) -> list[Tag]:
    return soup.select("#list-weeks .occurrence")


def data_of(soup: BeautifulSoup) -> dict[str, Any]:
    block = soup.find(id="schedule-data")
    assert isinstance(block, Tag)
    data: dict[str, Any] = json.loads(block.get_text())
    return data


def series_with(tmp_path: Path, schedule: str, sessions: int = 3) -> SessionFolder:
    folder = SessionFolder(tmp_path, schedule=schedule)
    for number in range(1, sessions + 1):
        folder.session(number, ROW if number % 2 else JACK)
    return folder


OTHER_MONTHS = [(2026, 2), *product((2027, 2028), (1, 3, 5, 8, 11, 12))]


class TestMonths:
    @pytest.mark.parametrize(
        ("year", "month"),
        [
            *((2026, month) for month in (1, 3, 5, 8, 11, 12)),
            (2027, 2),  # four rows
            (2028, 2),  # with a 29th
            *(pytest.param(year, month, marks=pytest.mark.thorough) for year, month in OTHER_MONTHS),
        ],
    )
    def test_days_stand_where_the_standard_library_has_them(
        self, tmp_path: Path, year: int, month: int
    ) -> None:
        """Rows of seven days from Monday; the weeks' numbers are those of ISO 8601 (date.isocalendar)."""
        schedule = f"schedule: {{start: {year}-{month:02d}-10, days: [monday, saturday]}}\n"
        rows = next(iter(months(soup_of(series_with(tmp_path, schedule, 1))).values()))
        expected = Calendar(firstweekday=0).monthdatescalendar(year, month)

        assert [int(row[0]) for row in rows] == [week[0].isocalendar().week for week in expected]
        numbers = [[cell.split(" ")[0] for cell in row[1:]] for row in rows]
        assert numbers == [[str(day.day) if day.month == month else "" for day in week] for week in expected]

    def test_sessions_and_free_days(self, tmp_path: Path) -> None:
        closed = "holidays: [2027-02-04], deload_every: 3"
        schedule = f"schedule: {{start: 2027-01-25, days: [monday, thursday], {closed}}}\n"
        soup = soup_of(series_with(tmp_path, schedule, 5))
        found = months(soup)

        assert [heading.get_text() for heading in soup.select("#list-weeks h3")] == [
            "Week 1: 25–31 January",
            "Week 2: 1–7 February",
            "Week 3: 8–14 February, no session",
            "Week 4: 15–21 February",
        ]
        assert list(found) == ["January 2027", "February 2027"]
        assert found["January 2027"][-1][1] == "25 1 1. Session 1 Backpack with books, Sturdy chair"
        assert found["January 2027"][-1][4] == "28 2 2. Session 2"
        assert found["February 2027"][0][1].startswith("1 3 3. Session 3")
        assert found["February 2027"][0][4] == "4 day off"
        assert [row[1] for row in found["February 2027"][1:2]] == ["8 week off"]
        assert found["February 2027"][2][1].startswith("15 4 4. Session 4")

    def test_a_month_in_between_is_there_though_empty(self, tmp_path: Path) -> None:
        schedule = "schedule: {start: 2027-01-28, days: [thursday], holidays: [2027-02-01 to 2027-02-28]}\n"
        found = months(soup_of(series_with(tmp_path, schedule, 2)))

        assert list(found) == ["January 2027", "February 2027", "March 2027"]
        assert [row[4] for row in found["February 2027"]] == [f"{day} day off" for day in (4, 11, 18, 25)]


class TestList:
    def test_one_line_for_each_session_with_all_its_links(self, tmp_path: Path) -> None:
        soup = soup_of(series_with(tmp_path, "schedule: {start: 2027-01-04, days: [monday, thursday]}\n"))
        first = occurrences(soup)[0]

        assert [heading.get_text() for heading in soup.select("#list-weeks h3")] == [
            "Week 1: 4–10 January",
            "Week 2: 11–17 January",
        ]
        assert text(first) == (
            "Monday 4 January 1. Session 1 Sheet to print Fetch: Backpack with books, Sturdy chair"
        )
        assert [link["href"] for link in first.find_all("a")] == [
            "../episodes/session-1/index.html",
            "../episodes/session-1/sheet/index.html",
        ]
        assert text(occurrences(soup)[1]) == "Thursday 7 January 2. Session 2 Sheet to print Fetch: nothing"

    def test_why_a_session_waits(self, tmp_path: Path) -> None:
        schedule = (
            "schedule: {start: 2027-01-04, days: [monday, tuesday, thursday], holidays: [2027-01-07]}\n"
        )
        series = series_with(tmp_path, schedule, 1)
        series.session(2, ROW)
        waits = [wait.get_text() for wait in occurrences(soup_of(series))[1].select(".occurrence-wait")]

        assert waits == [
            "Tuesday 5 January: lats and upper back still recover from 1. Session 1, 24 of 48 hours.",
            "Thursday 7 January: a day off.",
        ]

    def test_a_session_done_twice_is_named_so(self, tmp_path: Path) -> None:
        schedule = "schedule: {start: 2027-01-04, days: [monday], repeats: 2}\n"
        soup = soup_of(series_with(tmp_path, schedule, 1))

        names = [link.get_text() for link in soup.select("#list-weeks a[data-slot=page]")]
        assert names == ["1. Session 1", "1. Session 1 (time 2)"]
        assert [row["data-key"] for row in occurrences(soup)] == ["session-1-1", "session-1-2"]

    def test_without_a_calendar_the_sessions_are_listed_without_days(self, tmp_path: Path) -> None:
        series = series_with(tmp_path, "", 2)
        soup = soup_of(series)

        assert text(soup.select("#plan-lead")[0]) == "2 sessions. Choose your days, and the plan is made."
        assert [row["data-date"] for row in occurrences(soup)] == ["", ""]
        assert months(soup) == {}
        assert "schedule.ics" not in pages_of(series)
        assert data_of(soup)["request"]["start"] == ""

    def test_no_sessions_at_all(self, tmp_path: Path) -> None:
        soup = soup_of(SessionFolder(tmp_path))

        assert occurrences(soup) == []
        assert "No session is out yet." in soup.get_text()


class TestConflicts:
    def test_what_had_to_give_way_and_what_helps(self, tmp_path: Path) -> None:
        schedule = "schedule: {start: 2027-01-04, days: [monday, tuesday, wednesday]}\n"
        series = series_with(tmp_path, schedule, 0)
        for number, item in enumerate((ROW, ROW, JACK), 1):
            series.session(number, item)
        (line,) = soup_of(series).select("#conflicts li")

        assert text(line) == (
            "2. Session 2 cannot be on Tuesday 5 January: it works lats and upper back hard, as 1. "
            "Session 1 on "
            "Monday 4 January does, and 24 of the 48 hours they need to recover have passed. It is "
            "on Wednesday 6 "
            "January. What helps: train on Thursday, Friday, Saturday or Sunday too, with as many "
            "sessions a week as "
            "now."
        )

    def test_many_alike_are_counted(self, tmp_path: Path) -> None:
        schedule = "schedule: {start: 2027-01-04, days: [monday, tuesday, thursday]}\n"
        series = series_with(tmp_path, schedule, 0)
        for number in range(1, 18):
            series.session(number, ROW)
        soup = soup_of(series)

        assert len(soup.select("#conflicts li")) == 5
        assert soup.select("#conflicts-more")[0].get_text() == "3 more days like these."

    def test_no_conflicts_nothing_shown(self, tmp_path: Path) -> None:
        schedule = "schedule: {start: 2027-01-04, days: [monday]}\n"
        (section,) = soup_of(series_with(tmp_path, schedule)).select("#conflicts")

        assert section.has_attr("hidden")


class TestUpcoming:
    @pytest.fixture
    def series(self, tmp_path: Path) -> SessionFolder:
        folder = SessionFolder(tmp_path, schedule="schedule: {start: 2027-01-04, days: [monday]}\n")
        folder.session(1, ROW, head="released: 2027-01-04")
        folder.session(2, JACK, head="released: 2027-01-13")
        return folder

    def test_what_is_coming_has_a_day_and_no_link(self, series: SessionFolder) -> None:
        coming = occurrences(soup_of(series, date(2027, 1, 10)))[1]

        assert coming.find("a") is None
        assert text(coming) == (
            "Monday 11 January 2. Session 2 Fetch: nothing Comes out on 13 January 2027 The plan has "
            "it before it "
            "comes out on 13 January 2027. Leave it until then."
        )

    def test_once_it_is_out_it_is_as_the_others(self, series: SessionFolder) -> None:
        out = occurrences(soup_of(series, date(2027, 1, 13)))[1]

        assert text(out) == "Monday 11 January 2. Session 2 Sheet to print Fetch: nothing"

    def test_the_day_it_comes_out_is_a_change_of_the_page(self, series: SessionFolder) -> None:
        said = [
            str(soup_of(series, day)) for day in (date(2027, 1, 10), date(2027, 1, 12), date(2027, 1, 13))
        ]

        assert said[0] == said[1] != said[2]


def test_the_data_says_each_thing_once(tmp_path: Path) -> None:
    schedule = 'schedule: {start: 2027-01-04, days: [monday], time: "18:30", time_zone: Europe/Lisbon}\n'
    data = data_of(soup_of(series_with(tmp_path, schedule)))

    assert data["request"]["sessions"] == []
    assert data["muscles"] == ["lats", "upper back", "calves"]
    assert data["pieces"] == ["Backpack with books", "Sturdy chair"]
    assert data["exercises"] == [["backpack-row", "Backpack row"], ["jumping-jack", "Jumping jack"]]
    assert data["doses"] == ["3 × 8\xa0reps", "3 × 30\xa0s"]
    assert [one["items"] for one in data["sessions"]] == [[0, 0], [1, 1], [0, 0]]
    assert (data["calendar"]["start"], data["calendar"]["zone"]) == (1110, "Europe/Lisbon")
    assert data["calendar"]["zoneText"].startswith("BEGIN:VTIMEZONE\r\nTZID:Europe/Lisbon\r\n")


@pytest.fixture(scope="module")
def words(tmp_path_factory: pytest.TempPathFactory) -> ScheduleSentences:
    """Of two sessions."""
    builder = Builder(four_weeks(), tmp_path_factory.mktemp("words") / "build", jobs=1)
    site: Site = builder.site(builder.read())
    return ScheduleSentences(site, {1: "Cast off", 2: "Fair lead"})


class TestWords:
    """Sentences of plans that no short series has."""

    def said(self, words: ScheduleSentences, **wishes: Any) -> list[str]:
        plan = ScheduleWishes(**{"start": date(2027, 1, 4), "days": ("monday",), **wishes})
        sessions = [SessionToPlace(number=1), SessionToPlace(number=2)]
        return [words.conflict(conflict) for conflict in place(request_from_series(plan, sessions)).conflicts]

    def test_too_late(self, words: ScheduleSentences) -> None:
        assert self.said(words, finish_by=date(2027, 1, 6)) == [
            "1 of 2 sessions fit before 6 January 2027; the earliest end is 11 January 2027."
        ]

    def test_no_day_at_all(self, words: ScheduleSentences) -> None:
        closed = DateRange(first=date(2027, 1, 1), last=date(2031, 1, 1))
        assert self.said(words, holidays=(closed,)) == [
            "There is no day left to train on: days off take them all."
        ]

    def test_beyond_three_years(self, words: ScheduleSentences) -> None:
        closed = DateRange(first=date(2027, 1, 11), last=date(2031, 1, 1))
        assert self.said(words, holidays=(closed,)) == [
            "1 of 2 sessions have a day before 4 January 2030. 2. Fair lead is the first without one."
        ]

    @pytest.mark.parametrize(
        ("monday", "days"),
        [
            (date(2026, 9, 21), "21–27 September"),
            (date(2026, 9, 28), "28 September – 4 October"),
            (date(2026, 12, 28), "28 December – 3 January"),
        ],
        ids=str,
    )
    def test_days_of_a_week(self, words: ScheduleSentences, monday: date, days: str) -> None:
        assert words.week(monday) == days

    @pytest.mark.parametrize(
        ("names", "text"), [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c")]
    )
    def test_lists(self, words: ScheduleSentences, names: list[str], text: str) -> None:
        assert words.listed(names) == text

    @pytest.mark.parametrize(("minutes", "text"), [(0, "0:00"), (65, "1:05"), (1110, "18:30")])
    def test_times_of_day(self, minutes: int, text: str) -> None:
        assert clock(minutes) == text
