"""The video of an episode: chapters seek, the current one is marked, the player stops at your turn."""

import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
import webvtt
from playwright.sync_api import Page, expect

from tests.browser.episodes import (
    STEADY_PULL,
    last_seek,
    note_seeks,
    play,
    play_from,
    seek,
    until,
    video_time,
    wait_for_video,
)
from tests.pages.episode_folder import EpisodeFolder


def test_a_chapter_seeks_and_plays(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)
    note_seeks(page)

    page.get_by_role("link", name="Shake the decks").first.click()

    assert last_seek(page) == pytest.approx(144, abs=0.25)
    until(page, "!video.paused")
    expect(page).to_have_url(re.compile("#t=144$"))


def test_the_current_chapter_is_marked_as_the_video_goes_on(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)
    current = page.locator(".chapters [aria-current=true]")

    seek(page, 143)
    expect(current).to_have_text("0:22 Harbour warm-up")
    play(page)
    expect(current).to_have_text("2:24 Shake the decks")
    assert current.count() == 1


@pytest.mark.parametrize(
    ("query", "second"),
    [
        ("#t=125,130", 125),
        ("?t=125", 125),
        ("?block=first-tri-set", 202),
        ("#reverse-lunge", 208),
        ("#t=%", 0),
        *(
            pytest.param(query, second, marks=pytest.mark.thorough)
            for query, second in {
                "#t=125": 125,
                "#t=npt:2:05": 125,
                "#first-tri-set": 202,
                "": 0,
                "#no-such-place": 0,
                "#t=nonsense": 0,
                "#%": 0,
            }.items()
        ),
    ],
)
def test_the_address_opens_the_page_at_a_time_or_block(
    page: Page, demo_url: str, query: str, second: int
) -> None:
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.goto(demo_url + STEADY_PULL + query)
    wait_for_video(page)

    until(page, f"!video.seeking && Math.abs(video.currentTime - {second}) < 0.25")
    assert errors == []
    assert page.evaluate("document.getElementById('video').paused")


def test_a_block_in_the_address_is_shown(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL + "?block=first-tri-set")

    expect(page.locator("#first-tri-set h3")).to_be_in_viewport()


def test_a_fragment_with_an_end_stops_there(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL + "#t=30,31")
    until(page, "!video.seeking && video.currentTime === 30")

    play(page)
    until(page, "video.paused")

    assert 31 <= video_time(page) <= 31.3


@pytest.mark.parametrize(
    "turn", [*(pytest.param(one, marks=pytest.mark.thorough) for one in (192, 290)), 358]
)
def test_the_player_stops_at_your_turn(page: Page, demo_url: str, turn: int) -> None:
    page.goto(demo_url + STEADY_PULL)

    play_from(page, turn - 0.5)
    expect(page.locator("#turn-panel")).to_be_visible()

    assert page.evaluate("document.getElementById('video').paused")
    assert turn - 0.05 <= video_time(page) <= turn + 0.3


def test_at_double_speed_it_stops_as_exactly(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)
    wait_for_video(page)
    page.evaluate("document.getElementById('video').playbackRate = 2")

    play_from(page, 191)
    expect(page.locator("#turn-panel")).to_be_visible()

    assert 191.95 <= video_time(page) <= 192.3


def test_a_device_that_was_busy_goes_back_to_where_it_should_have_stopped(page: Page, demo_url: str) -> None:
    """The video plays on while the page's scripts have to wait."""
    page.goto(demo_url + STEADY_PULL)
    play_from(page, 191.5)
    page.evaluate(
        "() => { const from = document.getElementById('video').currentTime; const began = Date.now();"
        " while (Date.now() - began < 1200); }"
    )
    expect(page.locator("#turn-panel")).to_be_visible()

    assert 191.95 <= video_time(page) <= 192.3


def test_it_does_not_stop_where_the_viewer_switched_that_off(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)
    page.get_by_label("Pause the video when it is my turn").uncheck()

    play_from(page, 191.5)
    until(page, "video.currentTime > 193")
    expect(page.locator("#turn-panel")).to_be_hidden()

    page.reload()
    expect(page.get_by_label("Pause the video when it is my turn")).not_to_be_checked()


def test_jumping_over_a_turn_does_not_stop(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)

    play_from(page, 180)
    play_from(page, 200)
    until(page, "video.currentTime > 200.6")

    expect(page.locator("#turn-panel")).to_be_hidden()


def test_carry_on_plays_from_your_turn_and_does_not_stop_there_again(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)
    play_from(page, 191.5)
    expect(page.locator("#turn-panel")).to_be_visible()

    page.get_by_role("button", name="Carry on with the video").click()

    expect(page.locator("#turn-panel")).to_be_hidden()
    until(page, "video.currentTime > 192.8")
    assert not page.evaluate("document.getElementById('video').paused")


def test_the_transcript_follows_inside_its_own_box(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)
    box = page.locator(".transcript-text")
    current = box.locator("[aria-current]")

    seek(page, 300)
    expect(current).to_have_count(1)
    until(page, "document.querySelector('.transcript-text').scrollTop > 0")

    assert page.evaluate("scrollY") == 0
    clock = current.locator("a").get_attribute("data-start")
    assert clock is not None
    assert 270 < int(clock) <= 300


def test_a_time_of_the_transcript_seeks(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)
    note_seeks(page)
    time = page.locator(".transcript-text a").nth(3)

    time.click()

    assert last_seek(page) == pytest.approx(float(time.get_attribute("data-start") or 0), abs=0.25)


def test_captions_and_chapters_are_tracks_of_the_video(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)
    page.evaluate("() => { for (const track of video.textTracks) track.mode = 'hidden'; }")
    until(page, "[...video.textTracks].every(track => track.cues && track.cues.length)")
    cues = """kind => [...[...video.textTracks].find(track => track.kind === kind).cues]
        .map(cue => [cue.startTime, cue.endTime, cue.text])"""

    assert page.evaluate(cues, "chapters")[:3] == [
        [0, 22, "Welcome"],
        [22, 144, "Harbour warm-up"],
        [22, 57, "March in place"],
    ]
    assert page.evaluate(cues, "captions")[0][2].startswith("Ahoy, kitchen.")


def test_without_scripts_everything_is_within_reach(scriptless: Page, demo_url: str, demo_site: Path) -> None:
    page = scriptless
    page.goto(demo_url + STEADY_PULL)

    expect(page.locator("video")).to_be_visible()
    chapter = page.get_by_role("link", name="Shake the decks").first
    address = chapter.get_attribute("href") or ""
    file, _, fragment = address.partition("#")
    assert fragment == "t=144"
    assert (demo_site / "episodes/steady-pull" / file).resolve().is_file()
    expect(page.get_by_text("Half reverse lunge").first).to_be_attached()
    expect(page.locator(".transcript-text")).to_be_visible()
    expect(page.locator(".scripted:visible")).to_have_count(0)
    page.locator("#needs > summary").click()
    expect(page.get_by_role("link", name="No jumping")).to_be_visible()


def test_the_page_works_from_a_folder(page: Page, demo_site: Path) -> None:
    page.goto((demo_site / STEADY_PULL).as_uri())
    wait_for_video(page)
    # Captions too, which browsers do not load from there: as many as in the file, and one is shown.
    until(page, "[...video.textTracks].some(t => t.kind === 'captions' && t.cues && t.cues.length)")
    said = webvtt.read(demo_site / STEADY_PULL.replace("index.html", "captions.vtt"), strict=True).captions
    [track] = page.evaluate(
        """[...video.textTracks].filter(t => t.kind === 'captions').map(t => {
        t.mode = 'hidden';
        const cues = [...t.cues].map(c => [c.startTime, c.endTime, c.text]);
        return { label: t.label, language: t.language, cues }; })"""
    )
    assert (track["label"], track["language"]) == ("Captions", "en")
    assert [[int(start), int(end)] for start, end, _ in track["cues"]] == [
        [one.start_in_seconds, one.end_in_seconds] for one in said
    ]
    assert [cue[2] for cue in track["cues"]] == [one.raw_text for one in said]

    play_from(page, 191.5)

    expect(page.locator("#turn-panel")).to_be_visible()
    page.keyboard.press("Escape")
    page.get_by_role("link", name="First tri-set").first.click()
    until(page, "Math.abs(video.currentTime - 202) < 1")


# --- a small series of its own -----------------------------------------------------------------


@pytest.fixture(scope="module")
def short_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An episode of four seconds whose only your turn is at the video's end, and no needs."""
    if not shutil.which("ffmpeg"):
        pytest.skip("ffmpeg is not installed")
    series = EpisodeFolder(tmp_path_factory.mktemp("short"))
    film = series.root / "media/01.webm"
    film.parent.mkdir()
    drawn = ["-f", "lavfi", "-i", "color=c=navy:s=64x36:r=10:d=4", "-c:v", "libvpx", "-g", "10"]
    subprocess.run(["ffmpeg", "-v", "error", *drawn, str(film)], check=True)
    series.video('{file: media/01.webm, length: "0:04"}')
    series.blocks(
        '  - {name: Hop, kind: conditioning, format: straight sets, at: "0:00", your_turn: "0:04", sets: 2,\n'
        '     items: [{exercise: jumping-jack, at: "0:01", dose: "8"}]}\n'
    )
    text = (series.root / "series.yaml").read_text()
    start, end = text.index("needs:"), text.index("schedule:")
    series.write("series.yaml", text[:start] + text[end:])
    series.built()
    return series.out


@pytest.fixture
def short_page(page: Page, short_site: Path, serve_folder: Callable[[Path], str]) -> Page:
    page.goto(f"{serve_folder(short_site)}episodes/first-steps/index.html")
    return page


def test_a_turn_at_the_videos_end_is_not_missed(short_page: Page) -> None:
    play_from(short_page, 3)

    expect(short_page.locator("#turn-panel")).to_be_visible()
    assert short_page.evaluate("Progress.days('first-steps')") != {}


def test_a_series_without_needs_has_no_choice_and_works(short_page: Page) -> None:
    failures: list[str] = []
    short_page.on("pageerror", lambda error: failures.append(str(error)))
    short_page.reload()

    expect(short_page.locator("#needs")).to_have_count(0)
    short_page.locator("button[data-turn=hop]").click()
    expect(short_page.locator("#turn-panel [data-part=name]")).to_have_text("Jumping jack")
    assert failures == []


def test_a_video_filling_the_screen_gives_way_to_the_panel(short_page: Page) -> None:
    wait_for_video(short_page)
    short_page.locator("h1").click()  # a browser fills the screen only after the viewer did something
    short_page.evaluate("document.getElementById('video').requestFullscreen()")
    until(short_page, "document.fullscreenElement === video")
    play_from(short_page, 3)

    expect(short_page.locator("#turn-panel")).to_be_visible()
    until(short_page, "document.fullscreenElement === null")


def test_a_drawn_cover_lies_over_the_video_until_it_is_played(page: Page, demo_url: str) -> None:
    page.goto(demo_url + STEADY_PULL)
    cover, video = page.locator("#cover"), page.locator("#video")
    expect(cover).to_be_visible()
    expect(video).not_to_have_attribute("controls", "")

    page.get_by_role("button", name=re.compile(r"Play, \d+:\d\d")).click()
    expect(cover).to_be_hidden()
    expect(video).to_have_attribute("controls", "")
    page.wait_for_function("() => !document.getElementById('video').paused")


def test_an_address_with_a_time_shows_the_film_itself(page: Page, demo_url: str) -> None:
    page.goto(f"{demo_url}{STEADY_PULL}#t=125")

    expect(page.locator("#cover")).to_be_hidden()
    expect(page.locator("#video")).to_have_attribute("controls", "")


def test_a_film_that_nothing_can_play_is_said_and_linked(
    tmp_path: Path, page: Page, serve_folder: Callable[[Path], str]
) -> None:
    series = EpisodeFolder(tmp_path)
    for name in ("01.mp4", "01.webm"):
        series.write(f"media/{name}", b"no film at all")
    series.video('{file: [media/01.mp4, media/01.webm], length: "4:50"}')
    series.built()
    page.goto(f"{serve_folder(series.out)}episodes/first-steps/index.html")

    expect(page.get_by_text("This browser cannot play the video")).to_be_visible()
    expect(page.locator("#cover")).to_be_hidden()
    assert str(page.locator("#no-play a").get_attribute("href")).endswith(".mp4")
