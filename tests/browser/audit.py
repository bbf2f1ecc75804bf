"""The audit that every page has to pass: axe-core's rules for WCAG 2.2 A and AA, and its best practice."""

from contextlib import AbstractContextManager
from functools import cache
from pathlib import Path

import axe_playwright_python
from playwright.sync_api import Browser, Page

from tests.conftest import fresh_tab

LOOKS = {"phone, light": (320, "light"), "desktop, dark": (1280, "dark")}
"""Both widths and both colour schemes, each at least once: colours do not depend on the width, and
layout does not depend on the colours."""

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]

_RUN = """async ([within, rules]) => {
  const found = await axe.run(within, {runOnly: rules, resultTypes: ['violations']});
  return found.violations.map(one => `${one.id}: ${one.nodes.slice(0, 3).map(node => node.target)}`);
}"""


def violations(page: Page, within: str = "html") -> list[str]:
    """Each broken rule with the first elements that break it; what is folded away is not looked at."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(_axe())
    found: list[str] = page.evaluate(_RUN, [within, RULES])
    return found


def seen(chromium: Browser, width: int, scheme: str) -> AbstractContextManager[Page]:
    """A tab in one of the looks."""
    return fresh_tab(chromium, viewport={"width": width, "height": 900}, color_scheme=scheme)


def unfold(page: Page) -> None:
    """Open what is folded away."""
    page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true; })")


@cache
def _axe() -> str:
    return next(Path(axe_playwright_python.__file__).parent.rglob("axe.min.js")).read_text("utf-8")
