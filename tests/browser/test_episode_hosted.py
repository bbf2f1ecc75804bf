"""A video at a host: nothing is asked of it before the viewer wants it, then it starts at the second."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.episodes import part, start_turn
from tests.pages.episode_folder import EpisodeFolder

PLAYER = "https://play.video.example:8443/frames/a%2Fb%20c/from/{seconds}"


@pytest.fixture(scope="module")
def hosted_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The starter series with its video at a host."""
    series = EpisodeFolder(tmp_path_factory.mktemp("hosted"))
    series.built()
    return series.out


@pytest.fixture
def asked(page: Page) -> list[str]:
    """What is asked of other hosts. Their names end in .example, which leads nowhere (RFC 2606)."""
    requests: list[str] = []
    page.on("request", lambda request: requests.append(request.url) if ".example" in request.url else None)
    return requests


@pytest.fixture
def address(hosted_site: Path, serve_folder: Callable[[Path], str]) -> str:
    return f"{serve_folder(hosted_site)}episodes/first-steps/index.html"


def test_nothing_is_asked_of_the_host_before_the_click(page: Page, address: str, asked: list[str]) -> None:
    page.goto(address)
    page.get_by_text("Nothing is loaded from there before you ask for it.").wait_for()
    page.wait_for_load_state("networkidle")

    assert asked == []
    expect(page.locator("iframe")).to_have_count(0)


def test_the_button_loads_the_player(page: Page, address: str, asked: list[str]) -> None:
    page.goto(address)
    page.get_by_role("link", name="Load the video from Harbour Video").click()

    frame = page.locator("iframe")
    expect(frame).to_have_attribute("src", PLAYER.format(seconds=0))
    expect(frame).to_have_attribute("title", "Video of session 1 at Harbour Video")
    assert "allow-top-navigation" not in (frame.get_attribute("sandbox") or "allow-top-navigation")
    assert asked == [PLAYER.format(seconds=0)]


@pytest.mark.parametrize(("chapter", "seconds"), [("Warm-up", 20), ("First pair", 135)])
def test_a_chapter_starts_the_player_at_its_second(
    page: Page, address: str, asked: list[str], chapter: str, seconds: int
) -> None:
    page.goto(address)
    page.locator(".chapters").get_by_role("link", name=chapter).click()

    expect(page.locator("iframe")).to_have_attribute("src", PLAYER.format(seconds=seconds))
    expect(page.locator(".chapters [aria-current]")).to_contain_text(chapter)
    assert asked == [PLAYER.format(seconds=seconds)]


def test_an_address_with_a_time_loads_nothing_by_itself_but_the_button_starts_there(
    page: Page, address: str, asked: list[str]
) -> None:
    page.goto(f"{address}#t=135")
    page.wait_for_load_state("networkidle")
    assert asked == []

    page.get_by_role("link", name="Load the video from Harbour Video").click()
    expect(page.locator("iframe")).to_have_attribute("src", PLAYER.format(seconds=135))


def test_the_policy_lets_no_other_host_in(page: Page, address: str, asked: list[str]) -> None:
    page.goto(address)
    blocked = page.evaluate(
        """() => new Promise(done => {
        document.addEventListener('securitypolicyviolation', event => done(event.blockedURI));
        const frame = document.createElement('iframe'); frame.src = 'https://other.example/';
        document.body.append(frame); })"""
    )

    assert blocked.rstrip("/") == "https://other.example"
    assert asked == []


def test_your_turn_is_started_by_its_button(page: Page, address: str, asked: list[str]) -> None:
    page.goto(address)
    start_turn(page, "get-warm")
    expect(part(page, "name")).to_have_text("Jumping jack")
    part(page, "carry").click()

    expect(page.locator("#turn-panel")).to_be_hidden()
    expect(page.locator("button[data-turn=get-warm]")).to_be_focused()
    assert asked == []
