"""The audit that every page has to pass: axe-core's rules for WCAG 2.2 A and AA, and its best practice."""

from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import Literal

import axe_playwright_python
from playwright.sync_api import Page

LOOKS: dict[str, tuple[int, Literal["light", "dark"]]] = {
    "phone, light": (320, "light"),
    "desktop, dark": (1280, "dark"),
}
"""Both widths and both colour schemes, each at least once: colours do not depend on the width, and
layout does not depend on the colours."""

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]

_RUN = """async ([within, rules]) => {
  const SEEN = new Set(['class', 'style', 'hidden', 'role', 'disabled', 'open', 'fill', 'stroke',
    'aria-current', 'aria-pressed', 'aria-expanded', 'aria-disabled']);
  const drawn = element => element.tagName === 'svg' && !element.querySelector('text, foreignObject');
  const place = ({previousElementSibling: one, nextElementSibling: next, tagName}) => {
    let before = 0;
    for (; one && before < 3; one = one.previousElementSibling) before++;
    while (next && next.tagName !== tagName) next = next.nextElementSibling;
    return `${before}${next ? '' : 'last'}`;
  };
  const own = element => element.tagName + place(element) + [...element.attributes]
    .filter(one => SEEN.has(one.name)).map(one => one.name + one.value);
  const inside = element => drawn(element) ? [] : [...element.children];
  const shape = element => own(element) + `(${inside(element).map(shape)})`;
  const seen = {};
  const alike = (parent, way) => {
    for (const child of inside(parent)) {
      const kind = way + shape(child);
      seen[kind] = (seen[kind] || 0) + 1;
      if (seen[kind] > 1) child.setAttribute('data-alike', '');
      else alike(child, `${way}${own(child)}>`);
    }
  };
  const run = async (context, colours) => (await axe.run(context, {
    runOnly: colours ? ['color-contrast'] : rules, resultTypes: ['violations'],
    rules: {'color-contrast': {enabled: colours}},
  })).violations;
  const found = await run(within, false);
  alike(document.querySelector(within), '');
  found.push(...await run({include: within, exclude: '[data-alike]'}, true));
  for (const one of document.querySelectorAll('[data-alike]')) one.removeAttribute('data-alike');
  return found.map(one => `${one.id}: ${one.nodes.slice(0, 3).map(node => node.target)}`);
}"""
"""All rules on all of it, but contrast, which takes three quarters of the time, on one of those elements that
are alike, with all they stand in, in everything that can make a colour (the place among their neighbours,
too: first, second, third, later, last): their words have the same one. A drawing without words makes none."""


_LAID_OUT = """() => {
  const all = new CSSStyleSheet();
  all.replaceSync('* { content-visibility: visible !important; }');
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, all];
}"""
"""What the browser leaves out until it is scrolled to has no true place before: it seems to lie over other
parts."""


def violations(page: Page, within: str = "html") -> list[str]:
    """Each broken rule with the first elements that break it; what is folded away is not looked at."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(_axe())
        page.evaluate(_LAID_OUT)
    found: list[str] = page.evaluate(_RUN, [within, RULES])
    return found


def violations_in(looks: Iterable[str], page: Page, within: str = "html") -> dict[str, list[str]]:
    """What breaks a rule in each of the looks, one after the other on the page as it is.

    Reflow is judged as well (WCAG 2.2, 1.4.10: nothing needs scrolling sideways, down to 320 px).
    """
    found = {}
    for look in looks:
        width, scheme = LOOKS[look]
        page.set_viewport_size({"width": width, "height": 900})
        page.emulate_media(color_scheme=scheme)
        found[look] = violations(page, within)
        if page.evaluate("document.documentElement.scrollWidth") > width:
            found[look].append(f"wider than {width} px")
    return {look: broken for look, broken in found.items() if broken}


def unfold(page: Page) -> None:
    """Open what is folded away."""
    page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true; })")


@cache
def _axe() -> str:
    return next(Path(axe_playwright_python.__file__).parent.rglob("axe.min.js")).read_text("utf-8")
