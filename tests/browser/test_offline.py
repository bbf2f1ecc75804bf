"""Sessions kept on the device: done without a network, never old unasked, gone without a trace."""

import re
import shutil
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from sitegen.preview.server import SiteServer
from tests.browser.audit import violations
from tests.browser.episodes import STEADY_PULL, until

SHELVES = "async () => (await caches.keys()).length"
WORKERS = "async () => (await navigator.serviceWorker.getRegistrations()).length"
FOLDER = "harbour/"
"""The site lies in a folder of its server, as many do."""


@pytest.fixture
def site(tmp_path: Path, demo_site: Path) -> Path:
    """The demo's site in a folder below the server's root."""
    shutil.copytree(demo_site, tmp_path / FOLDER)
    return tmp_path


class StoppableServer(SiteServer):
    """Once stopped, it breaks the connections that browsers hold open too."""

    def __init__(self, folder: Path, port: int) -> None:
        super().__init__(folder, port)
        self._connections: list[Any] = []

    def process_request(self, request: Any, client_address: Any) -> None:
        self._connections.append(request)
        super().process_request(request, client_address)

    def stop(self) -> None:
        self.shutdown()
        self.server_close()
        for connection in self._connections:
            with suppress(OSError):  # the browser has closed it already
                connection.shutdown(socket.SHUT_RDWR)


@contextmanager
def server(folder: Path, port: int = 0) -> Iterator[SiteServer]:
    one = StoppableServer(folder, port)
    threading.Thread(target=one.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True).start()
    try:
        yield one
    finally:
        one.stop()


def keep(page: Page, *, film: bool) -> None:
    """Keep the open session, as a viewer does."""
    page.locator("#keep summary").click()
    sizes = re.compile(r"Page, sheets and captions: [\d.]+ (kB|MB)\.")
    expect(page.locator("#keep [data-part=sizes]")).to_have_text(sizes)
    assert violations(page, "#keep") == []
    if film:
        page.get_by_label(re.compile(r"The video too: \d+ kB more")).check()
    page.get_by_role("button", name="Keep it").click()
    expect(page.locator("#keep summary")).to_have_text("Kept on this device")


def test_a_kept_session_is_done_without_a_network(page: Page, site: Path) -> None:
    failed: list[str] = []
    with server(site) as one:
        root, port = one.address + FOLDER, one.server_address[1]
        page.goto(root + STEADY_PULL)
        assert (page.evaluate(SHELVES), page.evaluate(WORKERS)) == (0, 0)
        keep(page, film=True)
    # A player breaks off what it loads of a film whenever it goes to another place.
    page.on("requestfailed", lambda one: None if ".mp4" in one.url else failed.append(one.url))
    page.on("pageerror", lambda error: failed.append(str(error)))

    page.goto(root + STEADY_PULL + "?needs=no-jumping")
    expect(page.locator(".kept-line")).to_contain_text("No network: this is shown as it was stored on")
    page.locator("#cover-play").click()
    until(page, "video.currentTime > 0.2")
    page.evaluate("document.getElementById('video').currentTime = 191.5")
    expect(page.locator("#turn-panel")).to_be_visible()
    assert page.evaluate("document.fonts.check('700 20px Numbers')")
    page.goto(root + "episodes/steady-pull/sheet/")
    expect(page.locator(".sheet h1, .sheet-name").first).to_be_visible()
    expect(page.locator(".kept-line")).to_have_count(1)
    assert failed == []

    # What is not kept gives way to the list of what is.
    page.goto(root + "episodes/ballast/index.html")
    link = page.get_by_role("link", name="3. Steady pull")
    expect(link).to_be_visible()
    page.goto(root)
    expect(page.locator("h1")).to_have_text("Galley Strength")

    # With the network again: the session changed meanwhile. It is shown as it is, and the copy is renewed.
    place = site / FOLDER / STEADY_PULL
    place.write_text(place.read_text().replace("Steady pull</h1>", "Steadier pull</h1>"))
    with server(site, port):
        page.goto(root + STEADY_PULL)
        expect(page.locator("h1")).to_have_text("Steadier pull")
        expect(page.locator(".kept-line")).to_have_count(0)
        expect(page.locator("#keep [data-part=says]")).to_contain_text("has changed since you stored it")
        assert page.evaluate(SHELVES) == 1
    page.goto(root + STEADY_PULL)
    expect(page.locator("h1")).to_have_text("Steadier pull")
    expect(page.locator(".kept-line")).to_have_count(1)

    # Removed: nothing is left behind.
    page.goto(root + "kept/index.html")
    page.get_by_role("button", name="Remove 3. Steady pull").click()
    expect(page.get_by_text("No session is stored in this browser")).to_be_visible()
    until(page, "true")
    assert (page.evaluate(SHELVES), page.evaluate(WORKERS)) == (0, 0)
