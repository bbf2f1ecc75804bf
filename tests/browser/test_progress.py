"""Ticks and notes on the schedule's page: kept in the browser, from your turn, to a file and back."""

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from sitegen.clients.log_reading import read_log
from sitegen.model import Series
from tests.browser.schedule_page import ROW, SCHEDULE, choose, served
from tests.sessions import SessionFolder

PREFIX = "movement.example/galley/"


def row(page: Page, number: int) -> Locator:
    """The line of the n-th session, from 1."""
    return page.locator("#list-weeks .occurrence").nth(number - 1)


def tick(page: Page, number: int) -> Locator:
    return row(page, number).get_by_role("checkbox")


def write_notes(page: Page, number: int, load: str, reps: str, text: str) -> None:
    row(page, number).locator("summary").click()
    row(page, number).get_by_label("Load for Towel row").fill(load)
    row(page, number).get_by_label("Repetitions for Towel row").fill(reps)
    row(page, number).get_by_label("Notes", exact=True).fill(text)
    row(page, number).get_by_label("Notes", exact=True).blur()


def notes(page: Page, number: int) -> tuple[str, str, str]:
    if not row(page, number).locator("details").evaluate("one => one.open"):
        row(page, number).locator("summary").click()
    labels = ("Load for Towel row", "Repetitions for Towel row", "Notes")
    load, reps, text = (row(page, number).get_by_label(label, exact=True).input_value() for label in labels)
    return load, reps, text


@pytest.fixture
def page(standing: Page) -> Page:
    """A tab whose clock stands still, on the day that a test says."""
    return standing


@pytest.fixture
def schedule(page: Page, demo_url: str) -> Page:
    """The demo's schedule on 10 September 2026 in Lisbon, with nothing stored."""
    page.clock.set_fixed_time("2026-09-10T18:00:00+01:00")
    page.goto(demo_url + SCHEDULE)
    return page


class TestTicks:
    def test_at_first_nothing_is_done_and_today_is_marked(self, schedule: Page) -> None:
        expect(schedule.locator("#progress-count")).to_have_text("0 of 12 sessions done.")
        expect(schedule.locator("#progress-next")).to_have_text(
            "Next for you: 1. Cast off on Monday 7 September."
        )
        assert schedule.locator("[aria-current=date]").get_attribute("data-date") == "2026-09-10"

    def test_a_tick_says_when_what_is_next_and_stays_until_it_is_taken_away(self, schedule: Page) -> None:
        tick(schedule, 1).check()
        for _ in range(2):
            expect(row(schedule, 1)).to_contain_text("Done on Thursday 10 September")
            expect(schedule.locator("#progress-count")).to_have_text("1 of 12 sessions done.")
            expect(schedule.locator("#progress-next")).to_have_text(
                "Next for you: 2. Fair lead on Wednesday 9 September."
            )
            expect(schedule.locator("td[data-date='2026-09-07']")).to_have_class("is-done")
            schedule.reload()
        tick(schedule, 1).uncheck()
        schedule.reload()

        expect(schedule.locator("#progress-count")).to_have_text("0 of 12 sessions done.")

    def test_ticks_follow_their_session_to_other_days_until_all_are_done(self, schedule: Page) -> None:
        tick(schedule, 2).check()
        choose(schedule, "2026-11-03", "tuesday", "thursday")

        expect(tick(schedule, 2)).to_be_checked()
        expect(schedule.locator("td[data-date='2026-10-29']")).to_have_class("is-done")
        for number in range(1, 13):
            tick(schedule, number).check()
        expect(schedule.locator("#progress-next")).to_have_text("All sessions are done. Well done.")


class TestYourTurn:
    """What was done in the panel beside the video arrives here."""

    def keep(self, page: Page, demo_url: str, day: str, *, parts: int) -> None:
        """Go through so many parts of Cast off in the store of the panel, on a day."""
        page.clock.set_fixed_time(f"{day}T18:00:00+01:00")
        page.goto(f"{demo_url}episodes/cast-off/index.html")
        page.evaluate(
            """parts => {
              const data = JSON.parse(document.getElementById("episode-data").textContent);
              const turns = Object.entries(data.blocks).filter(([, block]) => block.stop !== null);
              turns.slice(0, parts < 0 ? turns.length : parts).forEach(([anchor]) =>
                Progress.keep(data.slug, turns.length, anchor, {done: ["a", "b"], need: 2}));
            }""",
            parts,
        )

    def test_a_session_under_way_says_how_far(self, page: Page, demo_url: str, demo_series: Series) -> None:
        parts = sum(block.your_turn is not None for block in demo_series.episodes[0].blocks)
        self.keep(page, demo_url, "2026-09-08", parts=1)
        page.goto(demo_url + SCHEDULE)

        expect(tick(page, 1)).not_to_be_checked()
        expect(row(page, 1)).to_contain_text(f"1 of {parts} parts done on Tuesday 8 September")

    def test_a_session_that_is_through_is_done_unless_its_tick_is_taken_away(
        self, page: Page, demo_url: str
    ) -> None:
        self.keep(page, demo_url, "2026-09-08", parts=-1)
        page.goto(demo_url + SCHEDULE)
        expect(tick(page, 1)).to_be_checked()
        expect(row(page, 1)).to_contain_text("Done on Tuesday 8 September")

        tick(page, 1).uncheck()
        page.reload()
        expect(tick(page, 1)).not_to_be_checked()

    def test_each_day_is_one_time(self, page: Page, tmp_path: Path) -> None:
        """Of a session to be done three times, two days in the panel are the first two times."""
        series = SessionFolder(
            tmp_path, schedule="schedule: {start: 2027-01-04, days: [monday], repeats: 3}\n"
        )
        series.session(1, ROW)
        done = {"of": 1, "turns": {"work": {"done": ["a"], "need": 1}}}
        kept = {"v": 1, "days": {"2027-01-11": done, "2027-01-04": done}}
        with served(series) as address:
            page.goto(address + SCHEDULE)
            page.evaluate(f"localStorage.setItem('series.example/done/session-1', '{json.dumps(kept)}')")
            page.reload()
            states = [tick(page, number).is_checked() for number in (1, 2, 3)]

        assert states == [True, True, False]


class TestNotes:
    def test_loads_and_repetitions_stay_and_leave_the_browser_for_nobody(self, schedule: Page) -> None:
        asked: list[str] = []
        schedule.on("request", lambda request: asked.append(request.url))
        write_notes(schedule, 1, "6 kg", "10, 10, 9", "Felt <b>good</b>")
        tick(schedule, 1).check()
        assert asked == []
        assert schedule.evaluate("Object.keys(localStorage)") == [f"{PREFIX}log/cast-off-1"]

        schedule.reload()
        assert notes(schedule, 1) == ("6 kg", "10, 10, 9", "Felt <b>good</b>")
        assert notes(schedule, 4) == ("", "", "")

    def test_every_exercise_that_counts_has_a_line_with_its_dose(self, schedule: Page) -> None:
        row(schedule, 1).locator("summary").click()
        expect(row(schedule, 1).locator("tbody tr").first).to_be_visible()
        lines = (
            row(schedule, 1)
            .locator("tbody tr")
            .evaluate_all("rows => rows.map(row => [row.cells[0].textContent, row.cells[1].textContent])")
        )

        assert lines[:3] == [
            ["High-knee march", "3 × 30\xa0s"],
            ["Shadow punches", "3 × 30\xa0s"],
            ["Chair squat", "3 × 8\xa0reps"],
        ]

    def test_without_storage_the_page_works_and_says_so(self, chromium: Browser, demo_url: str) -> None:
        context = chromium.new_context()
        context.add_init_script(
            "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }"
        )
        page = context.new_page()
        page.goto(demo_url + SCHEDULE)
        tick(page, 1).check()

        expect(page.locator("#progress-status")).to_contain_text("This browser does not let the page keep")
        expect(page.locator("#progress-count")).to_have_text("1 of 12 sessions done.")
        context.close()


DAMAGED: list[tuple[str, dict[str, Any]]] = [
    ("done/cast-off", {"v": 1, "days": "x"}),
    ("done/fair-lead", {"v": 1, "days": {"2026-09-08": None}}),
    ("done/ballast", {"v": 1, "days": {"2026-09-08": {"of": 3, "turns": {"raise-the-pulse": {}}}}}),
    ("log/cast-off-1", {"v": 1, "done": 5, "items": "x"}),
    ("log/fair-lead-1", {"v": 1, "items": {"towel-row": None}}),
    ("calendar", {"v": 1, "taken": "", "sequence": "x"}),
]


def test_what_is_damaged_is_left_aside(page: Page, demo_url: str) -> None:
    """All of it at once: each is of another session, or of the calendar file."""
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.goto(demo_url + "404.html")
    for name, kept in DAMAGED:
        page.evaluate("given => localStorage.setItem(...given)", [PREFIX + name, json.dumps(kept)])
    page.goto(demo_url + SCHEDULE)

    expect(page.locator("#progress-count")).to_have_text("0 of 12 sessions done.")
    with page.expect_download() as download:
        page.locator("#calendar-file").click()
    assert b"SEQUENCE:x" not in download.value.path().read_bytes()
    for number in (1, 2):
        tick(page, number).check()
        expect(page.locator("#progress-count")).to_have_text(f"{number} of 12 sessions done.")
        row(page, number).locator("summary").click()
        expect(row(page, number).get_by_label("Notes", exact=True)).to_have_value("")
    assert errors == []


NOT_SAVED_HERE = (
    "",
    "no JSON",
    "[]",
    "null",
    "{}",
    '{"what": "something else", "v": 1}',
    '{"what": "progress of a series"}',
)


class TestFile:
    def saved(self, page: Page) -> dict[str, Any]:
        with page.expect_download() as download:
            page.get_by_role("button", name="Save to a file").click()
        assert download.value.suggested_filename == "galley-strength-progress.json"
        data: dict[str, Any] = json.loads(download.value.path().read_text())
        return data

    def load(self, page: Page, data: object) -> str:
        """Load a file; gives what the page says."""
        text = data if isinstance(data, str) else json.dumps(data)
        page.evaluate("document.getElementById('progress-status').textContent = ''")  # of the file before
        page.locator("#progress-import").set_input_files(
            {"name": "x-progress.json", "mimeType": "application/json", "buffer": text.encode()}
        )
        status = page.locator("#progress-status")
        expect(status).not_to_be_empty()
        return status.inner_text()

    def test_to_another_browser_and_all_is_there(
        self, schedule: Page, chromium: Browser, demo_url: str, tmp_path: Path, demo_series: Series
    ) -> None:
        tick(schedule, 2).check()
        write_notes(schedule, 1, "6 kg", "10, 10, 9", "Fine")
        choose(schedule, "2026-11-03", "tuesday", "thursday")
        data = self.saved(schedule)

        (sent := tmp_path / "progress.json").write_text(json.dumps(data))
        log = read_log(sent, demo_series)  # the trainer reads what this page saved
        assert [one.done is not None for one in log.sittings] == [False, True]
        [item] = [item for one in log.sittings for item in one.items.values()]
        assert (item.load, item.reps) == ("6 kg", "10, 10, 9")

        context = chromium.new_context()
        page = context.new_page()
        page.goto(demo_url + SCHEDULE)
        assert self.load(page, data) == "2 sessions were taken over."
        assert tick(page, 2).is_checked()
        assert notes(page, 1) == ("6 kg", "10, 10, 9", "Fine")
        expect(page.locator("#plan-lead")).to_contain_text("from 27 October 2026")
        assert {k: v for k, v in self.saved(page).items() if k != "saved"} == {
            k: v for k, v in data.items() if k != "saved"
        }
        context.close()

    def test_days_of_the_panel_travel_along(self, page: Page, demo_url: str, chromium: Browser) -> None:
        TestYourTurn().keep(page, demo_url, "2026-09-08", parts=-1)
        page.goto(demo_url + SCHEDULE)
        data = self.saved(page)
        context = chromium.new_context()
        other = context.new_page()
        other.goto(demo_url + SCHEDULE)

        assert self.load(other, data) == "1 session was taken over."
        expect(row(other, 1)).to_contain_text("Done on Tuesday 8 September")
        context.close()

    def test_another_file_is_refused(self, schedule: Page) -> None:
        unlike = {what: self.load(schedule, what) for what in NOT_SAVED_HERE}
        of_another_series = self.saved(schedule) | {"series": "https://another.example/"}

        assert {
            what: said
            for what, said in unlike.items()
            if not said.startswith("This file is not one that was saved here.")
        } == {}
        assert self.load(schedule, of_another_series) == (
            "This file is about another series. Nothing was taken over."
        )

    def test_only_what_belongs_here_is_taken_from_a_file_that_was_tampered_with(self, schedule: Page) -> None:
        entry = {"v": 1, "done": "soon", "text": ["x"], "items": {"towel-row": {"load": "x" * 500}, "bad": 3}}
        data = self.saved(schedule) | {
            "entries": {"cast-off-1": entry, "no-such-1": {"v": 1}, "ballast-1": "x", "__proto__": {"v": 1}},
            "days": {"ballast": {"v": 1, "days": {"2026-09-08": {"turns": "x"}, "yesterday": {"turns": {}}}}},
            "plan": {"start": "2026-13-45", "days": ["monday"]},
        }
        said = self.load(schedule, data)

        assert said == "2 sessions were taken over."
        assert notes(schedule, 1) == ("x" * 40, "", "")
        assert not tick(schedule, 1).is_checked()
        assert schedule.evaluate("localStorage.getItem('movement.example/galley/schedule')") is None
        schedule.reload()
        expect(schedule.locator("#progress-count")).to_have_text("0 of 12 sessions done.")

    def test_deleting_asks_first(self, schedule: Page) -> None:
        tick(schedule, 1).check()
        for sure in (False, True):
            schedule.once("dialog", lambda dialog, sure=sure: dialog.accept() if sure else dialog.dismiss())
            schedule.get_by_role("button", name="Delete all ticks and notes").click()

            expect(tick(schedule, 1)).to_be_checked(checked=not sure)
            assert bool(schedule.evaluate("localStorage.length")) is not sure
