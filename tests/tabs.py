"""One tab of the browser for many tests: a new one costs more than opening a page in it.

Every test finds an empty tab in which nothing is stored. Where a test did something that would stay with the
tab, such as a script for every page or a route, the next test gets a new one: that is noted here, so that
nobody has to think of it.
"""

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta
from typing import Any
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import BrowserContext, Page

SIZE = {"width": 1280, "height": 900}

LASTING = (
    "add_init_script",
    "add_locator_handler",
    "clock",
    "close",
    "context",
    "expose_binding",
    "expose_function",
    "once",
    "route",
    "route_from_har",
    "route_web_socket",
    "set_default_navigation_timeout",
    "set_default_timeout",
    "set_extra_http_headers",
)
"""What a test may ask of a tab that cannot be undone, or is not known to be."""

_FORGET = """() => {
  const forget = () => { localStorage.clear(); sessionStorage.clear(); };
  for (const event of ['pagehide', 'visibilitychange', 'unload']) addEventListener(event, forget);
}"""
"""Scripts of the page keep something when it is left: these listeners come last."""


class Tabs:
    """Gives out a tab, the same one for as long as it is as good as new."""

    def __init__(
        self, new_context: Callable[[], BrowserContext], *, standing_clock: datetime | None = None
    ) -> None:
        """With ``standing_clock`` the clock of every page stands there at first."""
        self._new_context = new_context
        self._standing_clock = standing_clock
        self._tab: Page | None = None
        self._origins: set[tuple[str, str]] = set()
        self._listeners: list[tuple[str, Any]] = []
        self._is_spent = False

    @contextmanager
    def lend(self) -> Iterator[Page]:
        """An empty tab, until the test is over."""
        tab = self._tab or self._new()
        if self._standing_clock:
            tab.clock.install(time=self._standing_clock - timedelta(seconds=1))
            tab.clock.pause_at(self._standing_clock)
        self._tab = tab  # what is asked of it from now on counts
        try:
            yield tab
        finally:
            if self._is_spent or len(self._origins) > 1:
                self.drop()
            else:
                self._empty(tab)

    def drop(self) -> None:
        """Close the tab with all that it holds."""
        tab, self._tab = self._tab, None
        if tab is not None:
            tab.context.close()

    def note(self, tab: Page, what: str, given: tuple[Any, ...] = ()) -> None:
        """Something was asked of a tab."""
        if tab is self._tab and what == "on":
            self._listeners.append((given[0], given[1]))
        elif tab is self._tab and not (what == "clock" and self._standing_clock):
            self._is_spent = True

    def _new(self) -> Page:
        tab = self._new_context().new_page()
        tab.on("framenavigated", lambda frame: self._visited(frame.url) if frame == tab.main_frame else None)
        self._origins, self._listeners, self._is_spent = set(), [], False
        return tab

    def _visited(self, url: str) -> None:
        where = urlsplit(url)
        if where.scheme != "about":
            self._origins.add((where.scheme, where.netloc))

    def _empty(self, tab: Page) -> None:
        for event, heard in self._listeners:
            tab.remove_listener(event, heard)
        if self._origins:
            tab.evaluate(_FORGET)
        tab.goto("about:blank")
        tab.set_viewport_size(SIZE)
        tab.emulate_media(media="null", color_scheme="null", reduced_motion="null", forced_colors="null")
        self._origins, self._listeners = set(), []


@contextmanager
def watched(every: Iterable[Tabs]) -> Iterator[None]:
    """Tell them what is asked of tabs."""
    with pytest.MonkeyPatch.context() as patch:
        for name in (*LASTING, "on"):
            patch.setattr(Page, name, _noted(tuple(every), name, getattr(Page, name)))
        yield


def _noted(every: tuple[Tabs, ...], name: str, original: Any) -> Any:
    """A method or property of a tab that tells when it is used."""

    def note(tab: Page, *given: Any) -> None:
        for tabs in every:
            tabs.note(tab, name, given)

    if isinstance(original, property):

        def look(tab: Page) -> Any:
            note(tab)
            return original.__get__(tab)

        return property(look)

    def call(tab: Page, *given: Any, **more: Any) -> Any:
        note(tab, *given)
        return original(tab, *given, **more)

    return call
