"""Finding one's way back in a real browser: asleep, away, closed, Back; and what the home page says then."""

import json
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.episodes import (
    BALLAST,
    CAST_OFF,
    Open,
    part,
    press,
    seek,
    start_turn,
    until,
    wait_for_video,
)

DAY = "2026-09-11"
PREFIX = "movement.example/galley/"


@pytest.fixture
def page(standing: Page) -> Iterator[Page]:
    """A tab whose clock stands still until the test moves it, and whose scripts never fail."""
    failures: list[str] = []
    standing.on("pageerror", lambda error: failures.append(str(error)))
    yield standing
    assert failures == []


def kept(page: Page, name: str) -> Any:
    """What the browser keeps under a name of the site."""
    return json.loads(page.evaluate("key => localStorage.getItem(key)", PREFIX + name))


def test_a_phone_that_slept_records_no_set_and_asks(at_session: Open) -> None:
    page = at_session(CAST_OFF)
    start_turn(page, "raise-the-pulse")
    press(page)
    page.clock.run_for(15_000)  # ten seconds into the first set
    page.clock.fast_forward("12:00")  # as a closed lid does: timers fire once at the most
    page.clock.run_for(400)

    expect(part(page, "count")).to_have_text("Paused")
    expect(part(page, "name")).to_have_text("You were away 12 min")
    expect(part(page, "main")).to_have_text("Go on: Round 1 of 3")
    assert kept(page, "done/cast-off")["days"][DAY]["turns"]["raise-the-pulse"]["done"] == []

    press(page)
    expect(part(page, "count")).to_have_text("Get ready")
    page.clock.run_for(5_200)
    expect(part(page, "count")).to_have_text("Round 1 of 3")
    expect(part(page, "clock")).to_have_text("30")


def hide(page: Page, hidden: bool) -> None:
    """What a browser does when the page goes to the background, or comes back."""
    page.evaluate(
        "state => { Object.defineProperty(document, 'visibilityState', {value: state, configurable: true});"
        " document.dispatchEvent(new Event('visibilitychange')); }",
        "hidden" if hidden else "visible",
    )


def test_in_the_background_nothing_counts_though_timers_run(at_session: Open) -> None:
    page = at_session(BALLAST)
    start_turn(page, "uneven-cargo")
    press(page)
    page.clock.run_for(5_000)
    hide(page, True)
    page.clock.run_for(40_000)
    hide(page, False)

    expect(part(page, "name")).to_have_text("You were away 40 s")
    expect(part(page, "why")).to_contain_text("The last one done: Set 1 of 3, Carrier deadlift.")
    press(page)
    expect(part(page, "name")).to_have_text("Bent-over row")
    expect(part(page, "side")).to_have_text("left side")


def test_who_ends_there_finds_the_panel_closed_and_her_sets_kept(at_session: Open) -> None:
    page = at_session(BALLAST)
    start_turn(page, "uneven-cargo")
    press(page)
    page.clock.fast_forward("12:00")
    page.clock.run_for(400)
    part(page, "end").click()

    expect(page.locator("#turn-panel")).to_be_hidden()
    expect(page.locator("#uneven-cargo .turn-state")).to_have_text("1 of 9 done today.")


@pytest.mark.parametrize(
    ("milliseconds", "shown"), [(100, "Change over"), (400, "Change over"), (600, "Set 1 of 3")]
)
def test_two_taps_within_half_a_second_are_one(at_session: Open, milliseconds: int, shown: str) -> None:
    """The first tap ends the set; a second one of its own ends the rest."""
    page = at_session(BALLAST)
    start_turn(page, "uneven-cargo")
    press(page)
    page.clock.run_for(milliseconds)
    part(page, "main").click()

    expect(part(page, "count")).to_have_text(shown)


def test_closing_and_coming_back_restores_block_set_panel_and_video(page: Page, demo_url: str) -> None:
    page.goto(demo_url + BALLAST)
    seek(page, 280)
    start_turn(page, "uneven-cargo")
    press(page)
    page.clock.run_for(3_000)
    page.goto("about:blank")
    page.clock.fast_forward("05:00")
    page.goto(demo_url + BALLAST)

    expect(part(page, "name")).to_have_text("You were away 5 min")
    expect(part(page, "main")).to_have_text("Go on: Set 1 of 3")
    wait_for_video(page)
    until(page, "Math.abs(video.currentTime - 280) < 0.5 && video.paused")


def test_the_browsers_back_button_leads_into_the_panel(page: Page, demo_url: str) -> None:
    page.goto(demo_url + BALLAST)
    start_turn(page, "uneven-cargo")
    press(page)
    page.goto(demo_url + "exercises/carrier-deadlift/index.html")
    page.go_back()

    expect(part(page, "block")).to_have_text("Uneven cargo")
    expect(page.locator("#turn-panel")).to_be_visible()


def test_a_link_to_a_moment_goes_there_and_opens_no_panel(page: Page, demo_url: str) -> None:
    page.goto(demo_url + BALLAST)
    start_turn(page, "uneven-cargo")
    press(page)
    page.goto("about:blank")
    page.goto(demo_url + BALLAST + "#t=134")

    wait_for_video(page)
    until(page, "Math.abs(video.currentTime - 134) < 0.5")
    expect(page.locator("#turn-panel")).to_be_hidden()


def test_a_newcomers_home_page_starts_with_session_one(page: Page, demo_url: str) -> None:
    page.goto(demo_url)

    expect(page.locator("#first-step .act").first).to_contain_text("Start with session 1")
    assert page.locator(".flag").all_inner_texts() == ["Start here", "Newest"]


def test_the_home_page_says_where_one_was(page: Page, demo_url: str) -> None:
    page.goto(demo_url + BALLAST)
    start_turn(page, "uneven-cargo")
    press(page)
    page.goto(demo_url)

    act = page.locator("#first-step .act").first
    expect(act).to_contain_text("Continue session 5: part 3 of 6")
    act.click()
    expect(part(page, "block")).to_have_text("Uneven cargo")


def test_after_a_whole_session_the_home_page_names_the_next(page: Page, demo_url: str) -> None:
    page.goto(demo_url)
    day = {"of": 1, "turns": {"part": {"done": ["1"], "need": 1}}}
    for slug in ("cast-off", "fair-lead"):
        page.evaluate(
            "([key, text]) => localStorage.setItem(key, text)",
            [f"{PREFIX}done/{slug}", json.dumps({"v": 1, "days": {DAY: day}})],
        )
    page.reload()

    expect(page.locator("#first-step .act").first).to_contain_text("Next: session 3, Steady pull")
    assert page.locator(".flag").all_inner_texts() == ["Next", "Newest"]


@pytest.mark.parametrize(
    "damaged",
    [
        "{",
        '{"v": 1, "at": 1e15, "slug": "ballast"}',
        *(pytest.param(one, marks=pytest.mark.thorough) for one in ("", "null", "[]", '{"v": 1}', '"x"')),
    ],
)
def test_a_damaged_place_leads_nowhere(page: Page, demo_url: str, damaged: str) -> None:
    page.add_init_script(f"localStorage.setItem('{PREFIX}place', {json.dumps(damaged)})")
    page.goto(demo_url + BALLAST)
    start_turn(page, "uneven-cargo")
    expect(part(page, "count")).to_have_text("Set 1 of 3")
    page.goto(demo_url)
    expect(page.locator("#first-step .act").first).to_contain_text("Start with session 1")
