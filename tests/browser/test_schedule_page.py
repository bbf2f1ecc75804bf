"""The client's own days on the schedule's page: the same plan, words and file as Python's, and they stay."""

from datetime import date, datetime
from pathlib import Path
from random import Random
from typing import Any

import pytest
from icalendar import Calendar
from playwright.sync_api import Page, expect

from sitegen.model import Series
from sitegen.pages.schedule.sentences import ScheduleSentences
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.resources import themes_folder
from sitegen.study.schedule import as_data, place
from tests.browser.schedule_page import (
    JACK,
    ROW,
    SCHEDULE,
    SHOW_ANEW,
    SHOW_SOME,
    SQUAT,
    choose,
    days_shown,
    parts_of,
    served,
)
from tests.browser.test_schedule_solver import request_from
from tests.sessions import SessionFolder
from tests.work import BlockCounter

WAYS = {
    "as the starter": "schedule: {start: 2027-01-04, days: [monday, thursday]}\n",
    "timed": 'schedule: {start: 2027-01-04, days: [monday, thursday], time: "7:05"}\n',
    "conflicts": "schedule: {start: 2027-01-28, days: [monday, tuesday, thursday, friday]}\n",
    "holidays and free weeks": (
        "schedule: {start: 2026-12-21, days: [monday, thursday], deload_every: 3, "
        "holidays: [2026-12-24 to 2027-01-01]}\n"
    ),
    "repeats": "schedule: {start: 2027-01-04, days: [monday, friday], repeats: 3}\n",
    "too late": "schedule: {start: 2027-01-04, days: [sunday], finish_by: 2027-01-10}\n",
    "no calendar": "",
}
IN_EVERY_RUN = ("timed", "conflicts", "holidays and free weeks")
"""Together they hold times, reasons, gaps and hints; the sentences of all kinds are compared below."""


def series_with(tmp_path: Path, schedule: str) -> SessionFolder:
    series = SessionFolder(tmp_path, schedule=schedule)
    for number, item in enumerate((ROW, SQUAT, JACK, ROW, ROW, SQUAT, SQUAT), 1):
        series.session(number, item, head=f"released: 2027-01-{number:02d}")
    return series


@pytest.mark.parametrize(
    "way",
    [way if way in IN_EVERY_RUN else pytest.param(way, marks=pytest.mark.thorough) for way in WAYS],
)
def test_made_anew_in_the_browser_the_page_is_the_same(
    scriptless: Page, page: Page, tmp_path: Path, way: str
) -> None:
    with served(series_with(tmp_path, WAYS[way]), date(2027, 1, 5)) as address:
        scriptless.goto(address + SCHEDULE)
        written = parts_of(scriptless)
        page.goto(address + SCHEDULE)
        page.evaluate(SHOW_ANEW)
        made = parts_of(page)

    assert made["conflicts"][2][-1][1:] == written["conflicts"][2][-1][1:]
    assert made == written


def test_the_browser_says_what_python_says(page: Page, demo_url: str, demo_series: Series) -> None:
    """Reasons of 200 drawn plans, in the theme's words."""
    site = Site(demo_series, {}, Theme(themes_folder() / "tidewater", "en"), "")
    titles = {number: f"Title {number}" for number in range(60)}
    words = ScheduleSentences(site, titles)
    random = Random(7)
    requests = [request_from(random) for _ in range(200)]
    plans = [place(request) for request in requests]
    expected = [
        {
            "lead": words.lead(plan, request, 1110),
            "waits": [words.wait(wait) for placed in plan.placements for wait in placed.waits],
            "conflicts": [[words.conflict(one), words.helps(one)] for one in plan.conflicts],
        }
        for plan, request in zip(plans, requests, strict=True)
    ]
    page.goto(demo_url + SCHEDULE)
    said = page.evaluate(
        """([plans, requests, titles]) => {
          const data = ScheduleData.read(document.getElementById("schedule-data").textContent);
          const say = ScheduleWords.of(data.words, titles);
          return plans.map((plan, n) => ({
            lead: say.lead(plan, requests[n], 1110),
            waits: plan.placements.flatMap(placed => placed.waits.map(say.wait)),
            conflicts: plan.conflicts.map(one => [say.conflict(one), say.helps(one)]),
          }));
        }""",
        [[as_data(plan) for plan in plans], [as_data(request) for request in requests], titles],
    )

    assert sum(len(one["conflicts"]) for one in expected) > 150
    assert said == expected


class TestOwnDays:
    def test_the_plan_follows_and_says_so(self, page: Page, demo_url: str) -> None:
        page.goto(demo_url + SCHEDULE)
        choose(page, "2026-11-03", "tuesday", "thursday")

        assert days_shown(page)[:4] == ["2026-11-03", "2026-11-05", "2026-11-10", "2026-11-12"]
        expect(page.locator("#plan-lead")).to_have_text(
            "12 sessions from 3 November 2026 to 17 December 2026, on Tuesdays and Thursdays at 18:30."
        )
        expect(page.locator("#own-status")).to_contain_text("The plan is made: 12 sessions from 3 November")
        expect(page.locator(".month h3").first).to_contain_text("November 2026")
        expect(page.locator("#conflicts")).to_be_hidden()

    def test_recovery_is_kept_and_explained(self, page: Page, demo_url: str) -> None:
        page.goto(demo_url + SCHEDULE)
        choose(page, "2026-11-02", "monday", "tuesday")

        assert days_shown(page)[:3] == ["2026-11-02", "2026-11-09", "2026-11-16"]
        expect(page.locator("#conflicts")).to_be_visible()
        expect(page.locator("#conflicts li").first).to_contain_text(
            "2. Fair lead cannot be on Tuesday 3 November: it works chest, lats, triceps and upper back hard"
        )
        expect(page.locator("#conflicts li")).to_have_count(5)
        expect(page.locator("#conflicts-more")).to_have_text("6 more days like these.")

    def test_a_day_more_with_as_many_sessions_is_what_helps(self, page: Page, demo_url: str) -> None:
        """The way out that the page names can be taken on the page."""
        page.goto(demo_url + SCHEDULE)
        choose(page, "2026-11-02", "monday", "tuesday")
        expect(page.locator("#conflicts .help").first).to_contain_text("train on Wednesday")
        page.get_by_label("Sessions a week").select_option("2")
        page.locator("#own-days input[value=wednesday]").check()

        expect(page.locator("#conflicts")).to_be_hidden()
        assert days_shown(page)[:4] == ["2026-11-02", "2026-11-04", "2026-11-09", "2026-11-11"]
        page.reload()
        expect(page.get_by_label("Sessions a week")).to_have_value("2")
        assert days_shown(page)[1] == "2026-11-04"

    def test_the_address_to_follow_is_that_of_the_trainer_s_days(self, page: Page, demo_url: str) -> None:
        page.goto(demo_url + SCHEDULE)
        expect(page.locator("#calendar-follow")).to_be_visible()
        choose(page, "2026-11-03", "tuesday")
        expect(page.locator("#calendar-follow")).to_be_hidden()

    def test_it_is_python_s_plan(self, page: Page, demo_url: str, tmp_path: Path) -> None:
        """The page of a series whose trainer wishes the same shows the same."""
        series = series_with(tmp_path, WAYS["as the starter"])
        with served(series) as address:
            page.goto(address + SCHEDULE)
            choose(page, "2027-03-02", "tuesday", "wednesday", "saturday")
            chosen = parts_of(page)
        series.edit("series.yaml", "start: 2027-01-04", "start: 2027-03-02")
        series.edit("series.yaml", "days: [monday, thursday]", "days: [tuesday, wednesday, saturday]")
        with served(series) as address:
            page.goto(address + SCHEDULE)
            assert parts_of(page) == chosen

    def test_it_stays_until_it_is_taken_back(self, page: Page, demo_url: str) -> None:
        page.goto(demo_url + SCHEDULE)
        choose(page, "2026-11-03", "tuesday", "thursday")
        page.reload()

        assert days_shown(page)[0] == "2026-11-03"
        expect(page.locator("#own-status")).to_have_text("These are your own days.")
        expect(page.locator("#own-days input[value=tuesday]")).to_be_checked()

        page.get_by_role("button", name="Back to Robin Vale's days").click()
        expect(page.locator("#list-weeks .occurrence").first).to_have_attribute("data-date", "2026-09-07")
        assert days_shown(page)[0] == "2026-09-07"
        page.reload()
        assert days_shown(page)[0] == "2026-09-07"
        expect(page.get_by_role("button", name="Back to Robin Vale's days")).to_be_hidden()

    def test_no_day_is_no_plan(self, page: Page, demo_url: str) -> None:
        page.goto(demo_url + SCHEDULE)
        choose(page, "2026-11-03", "tuesday")
        page.locator("#own-days input[value=tuesday]").uncheck()

        expect(page.locator("#own-status")).to_have_text("Choose at least one day, and a first day.")
        assert days_shown(page)[0] == "2026-11-03"  # the last one that could be made stays

    def test_a_series_without_a_calendar_gets_one(self, page: Page, tmp_path: Path) -> None:
        with served(series_with(tmp_path, "")) as address:
            page.goto(address + SCHEDULE)
            assert days_shown(page)[0] == ""
            expect(page.locator("#calendar-file")).to_be_hidden()
            choose(page, "2027-01-05", "tuesday")
            assert days_shown(page)[:2] == ["2027-01-05", "2027-01-12"]
            with page.expect_download() as download:
                page.locator("#calendar-file").click()
        events = Calendar.from_ical(download.value.path().read_bytes()).walk("VEVENT")
        assert [event["DTSTART"].dt for event in events][:2] == [date(2027, 1, 5), date(2027, 1, 12)]

    @pytest.mark.parametrize(
        "kept",
        [
            "{",
            '{"v": 1, "start": "2026-11-03", "days": ["someday"], "per_week": null}',
            *(
                pytest.param(one, marks=pytest.mark.thorough)
                for one in (
                    "[]",
                    '{"v": 1, "start": "soon", "days": ["monday"]}',
                    '{"v": 1, "start": "2026-11-03", "days": ["monday"], "per_week": "2"}',
                    '{"v": 2}',
                )
            ),
        ],
    )
    def test_what_is_damaged_is_left_aside(self, page: Page, demo_url: str, kept: str) -> None:
        page.goto(demo_url + "404.html")
        page.evaluate("kept => localStorage.setItem('movement.example/galley/schedule', kept)", kept)
        errors: list[str] = []
        page.on("pageerror", lambda error: errors.append(str(error)))
        page.goto(demo_url + SCHEDULE)

        assert days_shown(page)[0] == "2026-09-07"
        assert errors == []

    def test_with_the_keyboard_alone(self, page: Page, demo_url: str) -> None:
        page.clock.set_fixed_time(datetime(2026, 9, 7, 12))
        page.goto(demo_url + SCHEDULE)
        page.locator("#own-days input[name=start]").focus()
        for _ in range(9):
            page.keyboard.press("Tab")
            if page.evaluate("document.activeElement.value") == "tuesday":
                break
        page.keyboard.press("Space")

        assert "2026-09-08" not in days_shown(page)  # Tuesday is too soon after Monday: recovery
        expect(page.locator("#own-status")).to_contain_text("on Mondays, Tuesdays, Wednesdays and Fridays")


class TestCalendarFile:
    def events(self, page: Page) -> list[Any]:
        with page.expect_download() as download:
            page.locator("#calendar-file").click()
        assert download.value.suggested_filename == "schedule.ics"
        calendar = Calendar.from_ical(download.value.path().read_bytes())
        assert calendar.errors == []
        return list(calendar.walk("VEVENT"))

    def said(self, event: Any) -> tuple[Any, ...]:
        alarm = event.subcomponents[0]
        names = ("UID", "SUMMARY", "DESCRIPTION", "URL")
        texts = tuple(str(event[name]) for name in names)
        return (
            *texts,
            event["DTSTART"].dt,
            event["DURATION"].dt,
            str(alarm["DESCRIPTION"]),
            alarm["TRIGGER"].dt,
        )

    def test_the_trainer_s_file_is_the_one_of_the_site(self, page: Page, demo_url: str) -> None:
        page.goto(demo_url + SCHEDULE)
        expect(page.locator("#calendar-file")).to_have_text("Calendar file")

        assert [str(event["SEQUENCE"]) for event in self.events(page)] == ["0"] * 12

    def test_own_days_say_the_same_of_each_session_as_the_site_s_file(
        self, page: Page, demo_url: str, demo_site: Path
    ) -> None:
        page.goto(demo_url + SCHEDULE)
        choose(page, "2026-09-08", "tuesday", "thursday", "saturday")
        expect(page.locator("#calendar-file")).to_have_text("Calendar file of your days")
        own = [self.said(event) for event in self.events(page)]
        site = Calendar.from_ical((demo_site / "schedule.ics").read_bytes())
        trainers = [self.said(event) for event in site.walk("VEVENT")]

        assert [one[:4] for one in own] == [one[:4] for one in trainers]
        assert [one[5:] for one in own] == [one[5:] for one in trainers]
        assert [one[4].replace(tzinfo=None) for one in own][:3] == [
            datetime(2026, 9, day, 18, 30) for day in (8, 10, 12)
        ]
        assert {str(one[4].tzinfo) for one in own} == {str(one[4].tzinfo) for one in trainers}

    def test_each_change_counts_up_and_the_same_plan_does_not(self, page: Page, demo_url: str) -> None:
        """RFC 5545, 3.8.7.4: a calendar that took an earlier file over notices."""
        page.goto(demo_url + SCHEDULE)
        counts = []
        for start in ("2026-09-08", "2026-09-08", "2026-09-10"):
            choose(page, start, "tuesday", "thursday")
            counts.append(str(self.events(page)[0]["SEQUENCE"]))
        page.get_by_role("button", name="Back to Robin Vale's days").click()
        counts.append(str(self.events(page)[0]["SEQUENCE"]))

        assert counts == ["1", "1", "2", "3"]


def test_days_that_are_past_can_be_taken_up_again_next_week(page: Page, demo_url: str) -> None:
    """The demo's days end in October 2026. Whoever did session 5 goes on with the sixth."""
    first_day = page.locator("#own-days input[name=start]")
    page.clock.set_fixed_time(datetime(2026, 9, 9, 12))
    page.goto(demo_url + SCHEDULE)
    expect(page.locator("#past")).to_be_hidden()
    expect(page.locator("#months-over")).to_be_hidden()
    expect(first_day).to_have_value("2026-09-07")
    page.clock.set_fixed_time(datetime(2026, 11, 25, 12))
    page.reload()
    expect(page.locator("#progress-next")).to_have_text("Next for you: 1. Cast off.")
    expect(page.get_by_role("button", name="Start next week, on Monday 30 November")).to_be_visible()
    expect(page.get_by_label("First day")).to_have_value("2026-11-30")
    expect(page.get_by_text("Months that are over")).to_be_visible()
    assert page.locator(".month:visible").count() == 0
    page.get_by_label("5. Ballast is done").check()
    expect(page.locator("#past")).to_contain_text("The day that 6. Trim and balance was planned for is over.")
    expect(page.get_by_label("Next session on")).to_have_value("2026-11-30")
    page.get_by_role("button", name="Go on next week: 6. Trim and balance on").click()
    expect(page.locator("#progress-next")).to_contain_text("Next for you: 6. Trim and balance on ")
    expect(page.locator("#past")).to_be_hidden()
    day = page.locator(".occurrence", has_text="6. Trim and balance").get_attribute("data-date")
    assert "2026-11-30" <= str(day) <= "2026-12-06"
    expect(page.get_by_label("5. Ballast is done")).to_be_checked()
    expect(page.locator("#months-over")).to_be_hidden()


def test_the_day_chosen_is_that_of_the_next_session(page: Page, demo_url: str) -> None:
    """Whoever has done some does not begin with the first again."""
    page.clock.set_fixed_time(datetime(2026, 11, 25, 12))
    page.goto(demo_url + SCHEDULE)
    page.get_by_label("5. Ballast is done").check()
    choose(page, "2026-12-08", "tuesday", "thursday")

    expect(page.locator("#progress-next")).to_have_text(
        "Next for you: 6. Trim and balance on Tuesday 8 December."
    )
    page.reload()
    expect(first := page.locator("#own-days input[name=start]")).to_have_value("2026-12-08")
    expect(first).to_have_accessible_name("Next session on")


def test_what_is_coming_is_told_in_the_own_plan_too(page: Page, tmp_path: Path) -> None:
    with served(series_with(tmp_path, WAYS["as the starter"]), date(2027, 1, 2)) as address:
        page.goto(address + SCHEDULE)
        choose(page, "2027-01-02", "saturday", "sunday")
        third = page.locator("#list-weeks .occurrence").nth(2)

        expect(third).to_contain_text("Comes out on 3 January 2027")
        assert third.get_by_role("link").count() == 0
        fifth = page.locator("#list-weeks .occurrence").nth(4)
        expect(fifth).not_to_contain_text("Leave it until then")


def test_twice_the_sessions_are_about_twice_the_work_to_show(page: Page, tmp_path: Path) -> None:
    """`python -m tests.bench schedule` measures how long it takes to see them."""
    series = SessionFolder(tmp_path)
    for number in range(1, 61):
        series.session(number, ROW if number % 2 else JACK)
    with served(series) as address:
        counter = BlockCounter(page)
        page.goto(address + SCHEDULE)
        few, many = (counter.blocks_in(SHOW_SOME, share) for share in (0.5, 1.0))
        assert page.locator("#list-weeks .occurrence").count() == 60

    assert few < many < 2.5 * few
