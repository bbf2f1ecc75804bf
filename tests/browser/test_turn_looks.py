"""How the panel looks: read at two metres, enlarged, in forced colours, in browsers that lack something."""

import json
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.audit import violations
from tests.browser.episodes import (
    BALLAST,
    CAST_OFF,
    FAIR_LEAD,
    STEADY_PULL,
    Open,
    leave,
    part,
    press,
    put_back,
    start_turn,
)
from tests.conftest import fresh_tab

DAY = "2026-09-11"
MM_PER_PX = 0.19
"""A phone of 6 inches that is 360 px wide shows a pixel so large: measured on a ruler in the trade's usual
devices; from memory, no source."""
LEAST_MM = 7.0
"""Height of a small letter read at two metres: 12 minutes of arc, more than twice the 5 of normal sight (ISO
8596 has 5 for a visual acuity of 1.0; from memory)."""

X_HEIGHT = """element => {
  const style = getComputedStyle(element);
  const pen = document.createElement('canvas').getContext('2d');
  pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
  return pen.measureText('x').actualBoundingBoxAscent;
}"""


def stopped(page: Page) -> Page:
    """The same tab with a clock that stands still until the test moves it."""
    page.clock.install(time=f"{DAY}T18:29:59")
    page.clock.pause_at(f"{DAY}T18:30:00")
    return page


@pytest.fixture
def page(standing: Page) -> Page:
    """A tab whose clock stands still until the test moves it."""
    return standing


def in_a_set(page: Page) -> None:
    """A counted set with two uneven loads."""
    start_turn(page, "uneven-cargo")


def in_a_hold(page: Page) -> None:
    """A timed set of one side."""
    start_turn(page, "press-and-prop")
    press(page, times=2)
    page.clock.run_for(8_000)


def in_a_rest(page: Page) -> None:
    """A rest between sets."""
    start_turn(page, "uneven-cargo")
    press(page, times=4)


def away(page: Page) -> None:
    """Back after twelve minutes."""
    in_a_rest(page)
    page.clock.fast_forward("12:00")
    page.clock.run_for(400)


READ_AT_TWO_METRES = {
    "set": (in_a_set, "count"),
    "exercise": (in_a_set, "name"),
    "dose": (in_a_set, "dose"),
    "load": (in_a_set, "load .amount >> nth=0"),
    "hand": (in_a_set, "load .panel-hand >> nth=0"),
    "side": (in_a_hold, "side"),
    "clock of a set": (in_a_hold, "clock"),
    "clock of a rest": (in_a_rest, "clock"),
    "exercise after the rest": (in_a_rest, "name"),
    "time away": (away, "name"),
}


def x_height_mm(page: Page, name: str) -> float:
    """Height of the small letters of a part's type, in millimetres on the phone above."""
    first, _, inner = name.partition(" ")
    place = part(page, first)
    height: float = (place.locator(inner) if inner else place).evaluate(X_HEIGHT)
    return round(height * MM_PER_PX, 1)


def test_what_counts_is_readable_at_two_metres_on_a_phone(chromium: Browser, demo_url: str) -> None:
    heights = {}
    with fresh_tab(chromium, viewport={"width": 360, "height": 740}) as page:
        stopped(page)
        page.goto(demo_url + BALLAST)
        for state in dict.fromkeys(state for state, _ in READ_AT_TWO_METRES.values()):
            state(page)
            page.evaluate("document.fonts.ready.then(() => null)")
            for what, (its, name) in READ_AT_TWO_METRES.items():
                if its is state:
                    expect(part(page, name.partition(" ")[0])).to_be_visible()
                    heights[what] = x_height_mm(page, name)
            put_back(page)

    assert {what: mm for what, mm in heights.items() if mm < LEAST_MM} == {}
    assert set(heights) == set(READ_AT_TWO_METRES)


def test_type_grows_into_the_space_there_is(page: Page, demo_url: str) -> None:
    page.goto(demo_url + CAST_OFF)
    for width, height, least in ((390, 844, 7.0), (768, 1024, 9.0), (1280, 800, 9.0)):
        page.set_viewport_size({"width": width, "height": height})
        start_turn(page, "raise-the-pulse")

        assert x_height_mm(page, "name") >= least, width
        now = part(page, "now").bounding_box()
        body = part(page, "body").bounding_box()
        assert now is not None
        assert body is not None
        assert now["y"] + now["height"] <= body["y"] + body["height"] + 1, width
        assert now["height"] >= 0.5 * body["height"], width
        leave(page)


SEEN = """() => {
  const panel = document.getElementById('turn-panel');
  const part = name => panel.querySelector(`[data-part=${name}]`);
  const shown = name => part(name).checkVisibility() && part(name).offsetHeight > 0;
  const faults = [];
  const flows = getComputedStyle(panel).overflowY !== 'hidden';
  const body = part('body').getBoundingClientRect();
  const bottom = flows ? panel.getBoundingClientRect().bottom : body.bottom;
  const drawn = shown('drawing') && part('drawing').getBoundingClientRect();
  for (const one of [...part('now').children, ...(panel.dataset.kind === 'count' ? [part('list')] : [])]) {
    if (!one.checkVisibility() || !one.offsetHeight) continue;
    const box = one.getBoundingClientRect();
    const name = one.dataset.part;
    if (box.bottom > bottom + 1 || box.top < body.top - 1) faults.push(`${name} is cut`);
    const wide = one.scrollWidth > one.clientWidth + 1 || box.right > innerWidth + 1;
    if (wide) faults.push(`${name} is too wide`);
    const words = document.createRange();
    words.selectNodeContents(one);
    for (const line of drawn ? words.getClientRects() : []) {
      const beside = line.right <= drawn.left + 1 || line.left >= drawn.right - 1;
      const apart = Math.min(line.bottom, box.bottom) <= drawn.top + 6
        || Math.max(line.top, box.top) >= drawn.bottom - 6;
      if (line.width > 2 && !beside && !apart) faults.push(`the drawing lies over ${name}`);
    }
  }
  for (const name of flows ? [] : ['drawing', 'care', 'cue', 'moment', 'sets', 'settings', 'last']) {
    const box = part(name).getBoundingClientRect();
    if (shown(name) && box.top < bottom - 1 && box.bottom > bottom + 1) faults.push(`${name} is sliced`);
  }
  const warned = shown('care') && part('care').getBoundingClientRect().bottom > bottom + 1;
  const told = part('more').textContent === 'Take care';
  if (shown('more') && warned !== told) faults.push('the caution is hidden unsaid');
  if (!flows && body.bottom > part('foot').getBoundingClientRect().top + 1) faults.push('it is covered');
  const columns = getComputedStyle(part('now')).columnCount;
  if (innerWidth <= 360 && columns !== 'auto') faults.push(`${columns} columns`);
  if (panel.scrollWidth > innerWidth) faults.push('it scrolls sideways');
  return {faults, drawing: Boolean(drawn) && drawn.bottom <= bottom + 1};
}"""
SIZES = {
    (320, 256): "1280 x 1024 at 400 %",
    (320, 568): "a small old phone",
    (360, 640): "a phone",
    (780, 360): "a longer phone on its side",
    (768, 1024): "a tablet",
    (1280, 800): "a laptop",
    (360, 780): "a longer phone",
}


SAMPLE = [(320, 256), (360, 640), (1280, 800), (360, 780)]


def look(page: Page, state: str, sizes: list[tuple[int, int]]) -> dict[tuple[str, int, int], list[str]]:
    """What cannot be wholly seen in this state, by size."""
    found = {}
    for width, height in sizes:
        page.set_viewport_size({"width": width, "height": height})
        page.evaluate("dispatchEvent(new Event('resize'))")  # what the browser sends may wait for a frame
        seen = page.evaluate(SEEN)
        faults = seen["faults"]
        if (width, height) == (360, 780) and "drawing" in state and not seen["drawing"]:
            faults.append("no drawing")
        if faults:
            found[state, width, height] = faults
    return found


ALONE = """() => {
  const panel = document.getElementById('turn-panel');
  for (const one of document.querySelectorAll('body > *, main > *')) {
    if (!one.contains(panel)) one.style.display = 'none';
  }
}"""
"""The rest of the page, which would be laid out anew at every size."""


def go_to(page: Page, anchor: str) -> None:
    """Leave this block for another one, whose button may be hidden."""
    leave(page)
    page.evaluate("anchor => YourTurn.open(anchor)", anchor)
    expect(page.locator("#turn-panel")).to_be_visible()


@pytest.mark.parametrize(
    "sizes", [SAMPLE, pytest.param([*SIZES], marks=pytest.mark.thorough)], ids=["sample", "all sizes"]
)
def test_in_every_state_and_size_what_is_to_be_done_is_wholly_in_view(
    page: Page, demo_url: str, sizes: list[tuple[int, int]]
) -> None:
    """Nothing cut, nothing sliced by the edge above the buttons, nothing over anything else; also WCAG 2.2,
    1.4.10 Reflow. On few openings of the page: each goes on from one state to the next."""
    page.goto(demo_url + BALLAST)
    page.evaluate("document.fonts.ready.then(() => null)")
    found = {}
    start_turn(page, "uneven-cargo")
    page.evaluate(ALONE)
    found |= look(page, "a set with uneven loads, drawing", sizes)
    press(page)
    found |= look(page, "a change to the next exercise, drawing", sizes)
    press(page)
    found |= look(page, "a set of one side, drawing", sizes)
    press(page, times=2)
    found |= look(page, "a rest, drawing", sizes)
    page.clock.fast_forward("12:00")
    page.clock.run_for(400)
    found |= look(page, "back after twelve minutes", sizes)
    go_to(page, "press-and-prop")
    press(page, times=2)
    page.clock.run_for(8_000)
    found |= look(page, "a hold, drawing", sizes)
    press(page)
    found |= look(page, "a change of sides, drawing", sizes)
    go_to(page, "both-hands-full")
    press(page, times=4)
    found |= look(page, "a set with a change of hands and a long name", sizes)
    go_to(page, "up-and-over")
    found |= look(page, "as many rounds as possible", sizes)

    page.goto(f"{demo_url}{FAIR_LEAD}?needs=thin-bones,no-straining")
    start_turn(page, "companionway-minutes")
    page.evaluate(ALONE)
    press(page)
    page.clock.run_for(8_000)
    found |= look(page, "a minute with needs", sizes)

    assert found == {}


@pytest.mark.parametrize(
    "state",
    [away, *(pytest.param(state, marks=pytest.mark.thorough) for state in (in_a_set, in_a_hold))],
)
def test_text_of_twice_the_size_covers_nothing(at_session: Open, state: Any) -> None:
    """WCAG 2.2, 1.4.4 Resize text."""
    page = at_session(BALLAST)
    page.set_viewport_size({"width": 360, "height": 740})
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    state(page)

    faults = page.evaluate(SEEN)["faults"]
    assert [one for one in faults if not one.endswith("is cut")] == []  # it may be scrolled


def test_when_to_stop_is_one_press_away_and_stops_the_clock(page: Page, demo_url: str) -> None:
    page.goto(demo_url + BALLAST)
    in_a_hold(page)
    part(page, "stop").click()
    expect(part(page, "stops").locator("li").first).to_be_visible()
    expect(part(page, "main")).to_be_hidden()
    page.clock.run_for(30_000)
    part(page, "unstop").click()

    expect(part(page, "stops")).to_be_hidden()
    expect(part(page, "clock")).to_have_text("18")
    expect(part(page, "main")).to_have_text("Go on")


def test_a_drawing_of_one_side_is_turned_about_for_the_other(page: Page, demo_url: str) -> None:
    """The row is drawn with the load in the right hand, the plank on the left forearm."""
    page.goto(demo_url + BALLAST)
    turned = "document.querySelector('#turn-panel .is-mirrored') !== null"
    label = part(page, "drawing").locator("[aria-label]")
    start_turn(page, "uneven-cargo")
    press(page, times=2)
    expect(part(page, "side")).to_have_text("left side")
    assert page.evaluate(turned)
    assert str(label.get_attribute("aria-label")).startswith("For the other side, left and right exchanged: ")
    press(page)
    expect(part(page, "side")).to_have_text("right side")
    assert not page.evaluate(turned)
    leave(page)
    in_a_hold(page)
    assert not page.evaluate(turned)


def test_forced_colours_show_the_set_one_is_at(chromium: Browser, demo_url: str) -> None:
    with fresh_tab(chromium, forced_colors="active", viewport={"width": 360, "height": 740}) as page:
        stopped(page)
        page.goto(demo_url + STEADY_PULL)
        start_turn(page, "pull-down-rise-up")
        press(page)
        press(page)
        looks = page.evaluate(
            """() => ['[aria-pressed=true]', '[aria-current]', '[aria-pressed=false]:not([aria-current])']
            .map(kind => getComputedStyle(document.querySelector('.mark' + kind)))
            .map(({backgroundColor, borderStyle, borderWidth, borderColor}) =>
                [backgroundColor, borderStyle, borderWidth, borderColor].join())"""
        )

    assert len(set(looks)) == 3


OLD_BROWSERS = {
    "no structuredClone": "delete window.structuredClone",
    "no Object.hasOwn": "delete Object.hasOwn",
    "no modal dialogs": "for (const name of ['showModal', 'close']) delete HTMLDialogElement.prototype[name]",
    "no sound": "delete window.AudioContext; delete window.webkitAudioContext",
    "no speech": "delete window.speechSynthesis",
    "no vibration": "delete Navigator.prototype.vibrate",
    "no screen lock": "delete Navigator.prototype.wakeLock",
}


@pytest.mark.parametrize(
    "without",
    [
        pytest.param("; ".join(OLD_BROWSERS.values()), id="all of it"),
        *(pytest.param(one, id=name, marks=pytest.mark.thorough) for name, one in OLD_BROWSERS.items()),
    ],
)
def test_a_browser_that_lacks_something_goes_all_the_way(page: Page, demo_url: str, without: str) -> None:
    failures: list[str] = []
    page.on("pageerror", lambda error: failures.append(str(error)))
    page.add_init_script(without)
    page.goto(demo_url + BALLAST + "?needs=no-jumping")
    expect(page.locator("#turn-panel")).to_be_hidden()
    start_turn(page, "both-hands-full")
    press(page)
    expect(part(page, "count")).to_have_text("Rest")
    page.clock.run_for(61_000)
    expect(part(page, "count")).to_have_text("Set 2 of 3")
    part(page, "close").click()

    expect(page.locator("#turn-panel")).to_be_hidden()
    expect(page.locator("#both-hands-full .turn-state")).to_have_text("1 of 3 done today.")
    assert failures == []


def test_sound_is_made_ready_in_every_press(page: Page, demo_url: str) -> None:
    """A remembered wish for sound is no press: some browsers keep it silent until one comes."""
    page.add_init_script(
        "window.resumed = 0; window.AudioContext = class { state = 'suspended'; currentTime = 0;"
        " resume() { resumed += 1; } }; delete window.webkitAudioContext"
    )
    page.goto(demo_url + BALLAST)
    start_turn(page, "uneven-cargo")
    first = page.evaluate("resumed")
    press(page)

    assert first == 1
    assert page.evaluate("resumed") == 2


def test_three_tones_and_a_last_one_lead_into_a_set(page: Page, demo_url: str) -> None:
    page.goto(demo_url + CAST_OFF)
    start_turn(page, "raise-the-pulse")
    page.evaluate("() => { window.signs = []; TurnHelp.count = last => signs.push(last ? 'last' : 'tone'); }")
    press(page)
    page.clock.run_for(5_200)

    assert page.evaluate("signs") == ["tone", "tone", "tone", "last"]


def test_the_voice_says_exercise_side_and_the_last_ten_seconds(page: Page, demo_url: str) -> None:
    page.add_init_script(
        "localStorage.setItem('movement.example/galley/speak', 'yes'); window.spoken = [];"
        " Object.defineProperty(window, 'speechSynthesis', {value: {cancel() {},"
        " speak: words => spoken.push(words.text)}});"
    )
    page.goto(demo_url + BALLAST)
    start_turn(page, "press-and-prop")
    press(page, times=2)
    page.clock.run_for(5_200)  # getting ready
    page.clock.run_for(20_200)
    page.clock.run_for(10_200)

    assert page.evaluate("spoken") == [
        "Floor press",
        "Change over. Side plank. left side",
        "Side plank. left side",
        "ten seconds",
        "Change sides. Now the right side",
        "Side plank. right side",
    ]


def test_circles_have_ways_and_no_sides(at_session: Open) -> None:
    page = at_session(BALLAST)
    start_turn(page, "rope-locker-warm-up")
    expect(part(page, "name")).to_have_text("Arm circles")
    expect(part(page, "side")).to_have_text("one way")
    press(page)
    page.clock.run_for(17_400)  # getting ready and the twelve seconds of one way

    expect(part(page, "count")).to_have_text("Change over")
    expect(part(page, "name")).to_have_text("Now the other way")
    page.clock.run_for(10_200)
    expect(part(page, "side")).to_have_text("the other way")


def test_without_getting_ready_a_set_starts_at_once(page: Page, demo_url: str) -> None:
    page.goto(demo_url + CAST_OFF)
    start_turn(page, "raise-the-pulse")
    part(page, "settings").locator("summary").click()
    part(page, "getready").uncheck()
    press(page)

    expect(part(page, "count")).to_have_text("Round 1 of 3")
    expect(part(page, "main")).to_have_text("Done")


def test_a_set_shows_drawing_cue_caution_and_the_moment_in_the_video(page: Page, demo_url: str) -> None:
    page.goto(demo_url + BALLAST)
    start_turn(page, "uneven-cargo")

    assert part(page, "drawing").locator("svg").count() == 2
    expect(part(page, "cue")).to_have_text("Seat back, back long, push the ground away")
    expect(part(page, "care")).to_contain_text("Take care: ")
    moment = part(page, "moment")
    expect(moment).to_have_text("See it in the video at 3:30")
    moment.click()
    expect(page.locator("#turn-panel")).to_be_hidden()
    assert "#t=210" in page.url


def test_load_and_reps_are_noted_once_for_each_exercise_and_fill_the_log(page: Page, demo_url: str) -> None:
    page.goto(demo_url + BALLAST)
    start_turn(page, "uneven-cargo")
    row = page.locator(".panel-item").first
    row.locator("summary").click()
    row.get_by_label("Load of Carrier deadlift").fill("5 l and 4 l")
    row.get_by_label("Repetitions of Carrier deadlift").fill("8, 8, 7")
    row.get_by_label("Repetitions of Carrier deadlift").press("Tab")
    expect(row.get_by_role("status")).to_have_text("In your log on the calendar page.")

    kept = json.loads(page.evaluate("localStorage.getItem('movement.example/galley/log/ballast-1')"))
    assert kept["items"] == {"carrier-deadlift": {"load": "5 l and 4 l", "reps": "8, 8, 7"}}


def test_a_minute_says_when_its_work_is_over(page: Page, demo_url: str) -> None:
    page.goto(demo_url + FAIR_LEAD)
    start_turn(page, "companionway-minutes")
    press(page)
    page.clock.run_for(5_000)
    page.evaluate("() => { window.signs = []; TurnHelp.count = last => signs.push(last ? 'last' : 'tone'); }")
    page.clock.run_for(35_200)

    assert page.evaluate("signs") == ["tone", "tone", "tone", "last"]
    expect(part(page, "count")).to_have_text("Rest this minute")


@pytest.mark.parametrize("state", [away, pytest.param(in_a_hold, marks=pytest.mark.thorough)])
def test_axe_finds_nothing(page: Page, demo_url: str, state: Any) -> None:
    page.goto(demo_url + BALLAST)
    state(page)
    page.evaluate("for (const one of document.querySelectorAll('#turn-panel details')) one.open = true")
    page.clock.resume()  # the audit waits by timers

    assert violations(page, "#turn-panel") == []


def test_printing_the_page_leaves_no_dead_controls_and_no_empty_heading(page: Page, demo_url: str) -> None:
    page.goto(demo_url + BALLAST)
    page.emulate_media(media="print")
    dead = page.evaluate(
        """() => [...document.querySelectorAll('button, input, video, select, main details:not([open])')]
        .filter(one => one.checkVisibility())
        .map(one => one.outerHTML.slice(0, 80))"""
    )
    empty = page.evaluate(
        """() => [...document.querySelectorAll('main section')].filter(one => one.checkVisibility()
        && ![...one.children].some(child => !/^H\\d$/.test(child.tagName) && child.checkVisibility()))
        .map(one => one.className)"""
    )

    assert (dead, empty) == ([], [])
