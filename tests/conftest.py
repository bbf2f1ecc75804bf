"""What tests share: the demo series, read and built once, and a real browser."""

import gc
import os
import shutil
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import Any, NamedTuple

import hypothesis
import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect, sync_playwright

from sitegen.building.build import Builder
from sitegen.model import Series
from sitegen.preview.server import SiteServer
from sitegen.reading.reader import read_series
from tests.done_once import pure_work_done_once
from tests.four_weeks import four_weeks
from tests.shared_builds import made_once
from tests.tabs import SIZE, Tabs, watched

# Hundreds of tests start the program: where the environment forbids compiled modules, each start would
# compile all of them again. Set before any worker is started.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
sys.dont_write_bytecode = False

# What is waited for comes at once where it comes at all: the limit is there for a machine that is busy
# with other work, and only a test that fails for good ever waits so long.
PATIENCE_S = 60
expect.set_options(timeout=PATIENCE_S * 1000)

# The suite tries the same examples in every run, so that it fails for a change and never by chance.
# New examples are looked for by `python -m pytest --hypothesis-profile=search`.
hypothesis.settings.register_profile("suite", derandomize=True, deadline=None)
# `make thorough` draws as many as `tests/draws.py` says, the same ones each time too.
hypothesis.settings.register_profile("thorough", derandomize=True, deadline=None)
hypothesis.settings.register_profile("search", max_examples=1000, deadline=None)
hypothesis.settings.load_profile("suite")

ROOT = Path(__file__).parent.parent
DEMO = four_weeks()
"""The demo as tests know it: its first twelve sessions."""

_BROWSERS = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
"""The first is the same engine without a window's parts: tests take half the time with it."""

CHROMIUM = next(filter(None, map(shutil.which, _BROWSERS)), None)
CHROMIUM_FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--autoplay-policy=no-user-gesture-required",
]


def pytest_collection() -> None:
    """What is collected stays: the garbage collector would look through it in vain."""
    gc.disable()


_NEW_OBJECTS, _TIMES = 20_000, 20
"""Python's own are 700 and 10. Series and sites are large and stay for a while: with so many new objects at a
time the collector takes 1.4 s instead of 3.5 of 25, and a worker 30 MB more."""


def pytest_collection_finish() -> None:
    """Thousands of tests and all modules stay to the end: it need not look at them again either."""
    gc.freeze()
    gc.set_threshold(_NEW_OBJECTS, _TIMES, _TIMES)
    gc.enable()


@pytest.fixture(autouse=True, scope="session")
def _private_caches(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Caches of this run only: a test must not depend on what an earlier run left."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("caches")))
        yield


@pytest.fixture(autouse=True, scope="session")
def _pure_work_done_once() -> Iterator[None]:
    """A worker reads each file, and places each body, once."""
    with pure_work_done_once():
        yield


@pytest.fixture(scope="session")
def demo_series() -> Series:
    """The demo's first twelve sessions, read."""
    return read_series(DEMO)


@pytest.fixture(scope="session")
def demo_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Their site, built once for all workers: only to be looked at."""
    made = made_once(tmp_path_factory, "demo", lambda folder: Builder(DEMO, folder / "build", jobs=1).build())
    return made / "build"


def serve(folder: Path) -> Iterator[str]:
    """Serve a folder on loopback; gives its address."""
    server = SiteServer(folder)
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)
    thread.start()
    yield server.address
    server.shutdown()
    server.server_close()


@pytest.fixture(scope="session")
def demo_url(demo_site: Path) -> Iterator[str]:
    """Address of the served demo site, ending in ``/``."""
    yield from serve(demo_site)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """The system's Chromium, started once."""
    if CHROMIUM is None:
        pytest.fail("these tests need Chromium: apt-get install chromium-headless-shell")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=CHROMIUM_FLAGS)
        yield browser
        browser.close()


@contextmanager
def fresh_profile(chromium: Browser, **profile: Any) -> Iterator[BrowserContext]:
    """A browser's profile with nothing stored; ``profile`` as for ``new_context``."""
    context = chromium.new_context(**profile)
    context.set_default_timeout(PATIENCE_S * 1000)
    try:
        yield context
    finally:
        context.close()


@contextmanager
def fresh_tab(chromium: Browser, **profile: Any) -> Iterator[Page]:
    """A tab in a profile of its own, for as long as it is needed; ``profile`` as for ``new_context``."""
    with fresh_profile(chromium, **profile) as context:
        yield context.new_page()


STANDS_AT = datetime(2026, 9, 11, 18, 30)
"""A day on which the demo's sessions are out."""


class LentTabs(NamedTuple):
    """Tabs that serve one test after another."""

    usual: Tabs
    standing: Tabs
    """With a clock that stands still."""
    scriptless: Tabs
    """Runs no page's scripts."""


@pytest.fixture(scope="session")
def tabs(chromium: Browser) -> Iterator[LentTabs]:
    """Where tests have their tabs from."""

    def new_context(*, scripts: bool = True) -> BrowserContext:
        context = chromium.new_context(viewport=SIZE, java_script_enabled=scripts)
        context.set_default_timeout(PATIENCE_S * 1000)
        return context

    lent = LentTabs(
        Tabs(new_context),
        Tabs(new_context, standing_clock=STANDS_AT),
        Tabs(partial(new_context, scripts=False)),
    )
    with watched(lent):
        yield lent
        for one in lent:
            one.drop()


@pytest.fixture
def context(chromium: Browser) -> Iterator[BrowserContext]:
    """A fresh profile: nothing stored."""
    with fresh_profile(chromium, viewport=SIZE) as context:
        yield context


@pytest.fixture
def page(request: pytest.FixtureRequest, tabs: LentTabs) -> Iterator[Page]:
    """An empty tab with nothing stored; one of the profile, where a test asks for that as well."""
    if "context" in request.fixturenames:
        yield request.getfixturevalue("context").new_page()
    else:
        with tabs.usual.lend() as tab:
            yield tab


@pytest.fixture
def first_visit(context: BrowserContext) -> Page:
    """A tab that nothing was opened in before, for what a page loads and how it moves while it loads."""
    return context.new_page()


@pytest.fixture
def standing(tabs: LentTabs) -> Iterator[Page]:
    """An empty tab with nothing stored, whose clock stands at ``STANDS_AT`` until the test moves it."""
    with tabs.standing.lend() as tab:
        yield tab


@pytest.fixture
def scriptless(tabs: LentTabs) -> Iterator[Page]:
    """An empty tab that runs no page's scripts."""
    with tabs.scriptless.lend() as tab:
        yield tab


@pytest.fixture
def serve_folder() -> Iterator[Callable[[Path], str]]:
    """Serve folders until the test is over: call it with one to get its address."""
    with ExitStack() as servers:
        yield lambda folder: servers.enter_context(contextmanager(serve)(folder))
