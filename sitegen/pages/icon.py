"""The sign of the site in a browser's tab and on a phone's home screen.

Phones by Apple show a PNG file of 180 pixels (``apple-touch-icon``) and no SVG; that is drawn by resvg.
"""

from collections.abc import Iterator
from functools import partial
from pathlib import Path

import resvg_py

from sitegen.pages.own_logo import logo_data
from sitegen.pages.page import Page
from sitegen.pages.site import Site

ICON, TOUCH_ICON, SIZE = "icon.svg", "icon.png", 180
"""Names of the two files, and the side of the second in pixels."""
_TEMPLATE = "icon.svg"
_ABOUT_SQUARE = 1.25
"""How much longer one side of a logo may be for it to stand in so small a square."""


def icon_pages(site: Site, content: Path) -> Iterator[Page]:
    """The icon in both forms."""
    yield Page(ICON, partial(_svg, site, str(content)))
    yield Page(TOUCH_ICON, partial(_png, site, str(content)))


def _svg(site: Site, content: str) -> bytes:
    logo = site.logo()
    fits = logo is not None and max(logo.width, logo.height) <= _ABOUT_SQUARE * min(logo.width, logo.height)
    return site.render(
        _TEMPLATE,
        ICON,
        logo=logo_data(site, Path(content)) if fits else "",
    )


def _png(site: Site, content: str) -> bytes:
    drawn = resvg_py.svg_to_bytes(
        svg_string=_svg(site, content).decode(), skip_system_fonts=True, width=SIZE, height=SIZE
    )
    return bytes(drawn)
