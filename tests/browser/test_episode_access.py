"""The episode's page for everybody: WCAG by axe-core, targets, reflow, weight, nothing from outside."""

import gzip
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.audit import LOOKS, violations_in
from tests.browser.episodes import BALLAST, STEADY_PULL, choose_needs, part, start_turn, until, wait_for_video


def at_rest(page: Page) -> None:
    """As it opens."""


def with_needs(page: Page) -> None:
    """Needs chosen, the details open."""
    choose_needs(page, ["seated", "weak-grip"])


def in_a_set(page: Page) -> None:
    """The panel open at a set with an uneven load."""
    start_turn(page, "uneven-cargo")


def in_a_rest(page: Page) -> None:
    """The panel open during a rest, one set marked."""
    start_turn(page, "uneven-cargo")
    part(page, "main").click()


def counting_rounds(page: Page) -> None:
    """The panel open with its countdown running."""
    start_turn(page, "up-and-over")
    part(page, "main").click()


def all_done(page: Page) -> None:
    """The panel open at its end."""
    start_turn(page, "both-hands-full")
    for _ in range(5):
        part(page, "main").click()


IN_THE_PANEL = (in_a_set, in_a_rest, counting_rounds, all_done)


@pytest.mark.parametrize(
    ("state", "looks"),
    [
        (with_needs, ["phone, light"]),
        (in_a_set, ["desktop, dark"]),
        *(
            pytest.param(state, list(LOOKS), marks=pytest.mark.thorough)
            for state in (at_rest, with_needs, in_a_set, in_a_rest, counting_rounds, all_done)
        ),
    ],
)
def test_in_a_state_axe_finds_nothing_and_nothing_sticks_out(
    page: Page, demo_url: str, state: Callable[[Page], None], looks: list[str]
) -> None:
    page.set_viewport_size({"width": 320, "height": 900})
    page.goto(demo_url + BALLAST)
    wait_for_video(page)
    state(page)

    assert violations_in(looks, page, "#turn-panel" if state in IN_THE_PANEL else "html") == {}
    assert page.evaluate("document.getElementById('turn-panel').scrollWidth <= innerWidth")


def test_text_spacing_of_the_reader_cuts_nothing_off_in_the_panel(page: Page, demo_url: str) -> None:
    """WCAG 2.2, 1.4.12: line height 1.5, letter spacing 0.12 em, word spacing 0.16 em."""
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(demo_url + BALLAST)
    start_turn(page, "uneven-cargo")
    page.evaluate(
        "for (const element of document.querySelectorAll('#turn-panel *')) {"
        " element.style.lineHeight = '1.5'; element.style.letterSpacing = '0.12em';"
        " element.style.wordSpacing = '0.16em'; }"
    )

    for name in ("name", "dose", "load", "main"):
        cut = part(page, name).evaluate("e => e.scrollWidth > e.clientWidth + 1")
        assert not cut, name
    assert page.evaluate("getComputedStyle(document.querySelector('.panel-body')).overflowY === 'auto'")


def test_every_control_is_large_enough(page: Page, demo_url: str) -> None:
    """WCAG 2.2, 2.5.8: 24 px; links inside sentences are exempt."""
    page.goto(demo_url + STEADY_PULL)
    choose_needs(page, [])
    small = page.evaluate(
        """() => [...document.querySelectorAll('main button, main input, main summary, .chapters a, .ways a')]
        .filter(e => e.checkVisibility())
        .map(e => [(e.closest('label') || e).getBoundingClientRect(), e.outerHTML])
        .filter(([box]) => Math.min(box.width, box.height) < 24).map(([, html]) => html.slice(0, 80))"""
    )

    assert small == []


def test_opening_the_page_shifts_nothing(first_visit: Page, demo_url: str) -> None:
    """With needs kept from an earlier visit, nothing moves but by what two words take when the fonts come.

    Cumulative layout shift of 0.1 or less is good (web.dev, Web Vitals); the stand-ins of the fonts keep it
    far below that.
    """
    first_visit.add_init_script("localStorage.setItem('movement.example/galley/needs', '[\"arms-low\"]')")
    first_visit.goto(demo_url + STEADY_PULL)
    wait_for_video(first_visit)
    shift = first_visit.evaluate(
        """async () => {
        const pictures = new PerformanceObserver(() => {});
        pictures.observe({type: 'layout-shift', buffered: true});
        for (let n = 0; n < 3; n++) await new Promise(requestAnimationFrame);
        return pictures.takeRecords().reduce((sum, entry) => sum + entry.value, 0); }"""
    )

    assert shift < 0.01


def test_motion_is_calm_where_that_is_wished(page: Page, demo_url: str) -> None:
    page.emulate_media(reduced_motion="reduce")
    page.goto(demo_url + STEADY_PULL)
    start_turn(page, "first-tri-set")

    moving = page.evaluate(
        """() => [...document.querySelectorAll('body *:not(track, source)')].filter(e => {
        const style = getComputedStyle(e);
        return parseFloat(style.transitionDuration) > 0 || style.animationName !== 'none'
            || style.scrollBehavior === 'smooth'; }).map(e => e.tagName)"""
    )

    assert moving == []


def test_the_page_asks_nothing_of_other_hosts(page: Page, demo_url: str) -> None:
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(demo_url + STEADY_PULL)
    wait_for_video(page)
    start_turn(page, "first-tri-set")

    assert [url for url in asked if not url.startswith(demo_url)] == []


def test_scripts_and_styles_stay_within_their_budget(demo_site: Path) -> None:
    """30 KB of scripts and 15 KB of styles, each file compressed by itself as a server sends it."""
    page = (demo_site / STEADY_PULL).read_text(encoding="utf-8")
    found = re.findall(r'(?:src|href)="\.\./\.\./(assets/[^"]+\.(?:js|css))"', page)
    weight = {"js": 0, "css": 0}
    for address in found:
        weight[address.rpartition(".")[2]] += len(gzip.compress((demo_site / address).read_bytes(), 6))

    assert len(found) == 2
    assert weight["js"] <= 30_000
    assert weight["css"] <= 15_000


def test_a_page_asks_for_at_most_ten_files_before_play(first_visit: Page, demo_url: str) -> None:
    """With all its fonts; the icon is one more that this browser without a window does not ask for."""
    asked: list[str] = []
    first_visit.on("request", lambda request: asked.append(request.url))
    first_visit.goto(demo_url + BALLAST)
    wait_for_video(first_visit)
    first_visit.evaluate("document.fonts.ready.then(() => null)")

    assert len(asked) + 1 <= 10


def test_the_policy_stops_no_part_of_the_page(page: Page, demo_url: str) -> None:
    complaints: list[str] = []
    page.on("console", lambda message: complaints.append(message.text) if message.type == "error" else None)
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.goto(demo_url + STEADY_PULL)
    wait_for_video(page)
    choose_needs(page, ["seated"])
    start_turn(page, "first-tri-set")
    expect(part(page, "name")).to_be_visible()
    until(page, "true")

    assert complaints == []
