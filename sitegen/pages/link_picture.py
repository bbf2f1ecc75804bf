"""The picture that a messenger shows for a link: number, title, time and figures of a session (Open Graph).

Drawn as SVG by the theme and made a PNG file by resvg, in the theme's own font, so that it is the same on
every computer. One takes longer than all pages of a session, so only builds that print PDF files make them.
"""

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property, partial
from pathlib import Path

import resvg_py

from sitegen.model import Episode
from sitegen.pages.episode.address import episode_address
from sitegen.pages.episode.share import drawn_link_picture, link_picture_of
from sitegen.pages.frieze import home_frieze, session_frieze
from sitegen.pages.own_logo import logo_data
from sitegen.pages.page import Gateway, Page
from sitegen.pages.sheets.metrics import Ruler
from sitegen.pages.site import Site
from sitegen.pages.views import Views

TEMPLATE, FONT, METRICS = "link_picture.svg", "type/barlow-semi-condensed-700.ttf", "metrics/sheet-font.json"
SERIES_PICTURE = "picture.png"
WIDTH, HEIGHT = 1200, 630
"""Pixels: 1.91 to 1, what messengers show uncut (common practice, no source)."""

_LEFT, _RIGHT = 60, 1140
"""Where the type area begins and ends."""
_NUMBER_SIZE, _GAP = 270, 44
"""Size of the type of the session's number, and the room between it and the title."""
_TITLE_SIZES = (120, 100, 84, 70, 58)
"""Sizes of type for the title, tried from the largest (our choice)."""
_MOST_LINES = 2
"""More lines would stand in the figures; what is left of a very long title is cut."""
_FIGURES = 5
"""About as many as fill the width at the height that is left."""
_TOP = 205
"""Base line of the title's first line."""


def series_picture(site: Site, painter: "LinkPainter") -> Iterator[Page]:
    """The picture of the series, where a build makes any."""
    if site.pictures:
        yield Page(SERIES_PICTURE, partial(painter.series))


def link_pictures(site: Site, painter: "LinkPainter", episodes: Iterable[Episode]) -> Iterator[Page]:
    """The pictures of those among some sessions that have no poster of their own, where a build makes any."""
    for episode in episodes if site.pictures else ():
        address = drawn_link_picture(episode.slug)
        if link_picture_of(site, episode) == address:
            yield Page(address, partial(painter.session, episode))


class LinkPainter(Gateway):
    """Makes the pictures of one site."""

    def __init__(self, site: Site, views: Views, content: Path) -> None:
        self._site, self._views, self._content = site, views, content

    @cached_property
    def _ruler(self) -> Ruler:
        return Ruler(self._site.theme.data(METRICS))

    def series(self) -> bytes:
        """The picture for the home page and all pages without one of their own."""
        title = self._site.details.title
        size, lines = fitted(self._ruler, title, _RIGHT - _LEFT, _TITLE_SIZES)
        studio = self._site.details.trainer.studio or self._site.details.trainer.name
        return self._draw(
            SERIES_PICTURE,
            above=self._known(studio),
            number="",
            x=_LEFT,
            size=size,
            lines=lines,
            below="",
            frieze=home_frieze(self._site),
        )

    def session(self, episode: Episode) -> bytes:
        """The picture for a session."""
        card, number = self._views.card(episode), str(episode.number)
        x = _LEFT + round(self._ruler.width(number, bold=True) * _NUMBER_SIZE) + _GAP
        size, lines = fitted(self._ruler, episode.title, _RIGHT - x, _TITLE_SIZES)
        return self._draw(
            episode_address(episode.slug),
            above=self._known(self._site.details.title),
            number=number,
            x=x,
            size=size,
            lines=lines,
            below=self._known(card.total),
            frieze=session_frieze(self._site, self._views, episode, _FIGURES),
        )

    def _known(self, text: str) -> str:
        """The text, or nothing where the font lacks a character: boxes in its place would look broken."""
        return text if self._ruler.knows(text) else ""

    def _draw(self, address: str, **data: object) -> bytes:
        site = self._site
        own = logo_data(site, self._content)
        svg = site.render(TEMPLATE, address, top=_TOP, own=own, **data).decode()
        font = str(site.theme.files.path(FONT))
        return bytes(
            resvg_py.svg_to_bytes(
                svg_string=svg.strip(), skip_system_fonts=True, font_files=[font], width=WIDTH
            )
        )


def fitted(ruler: Ruler, text: str, room: float, sizes: Sequence[int]) -> tuple[int, list[str]]:
    """The largest size in which a text stands on few enough lines, and these; none where the font lacks a
    character of it."""
    if not ruler.knows(text):
        return sizes[0], []
    for size in sizes:
        lines = _lines(ruler, text, room / size)
        if len(lines) <= _MOST_LINES and all(ruler.width(line, bold=True) * size <= room for line in lines):
            return size, lines
    return sizes[-1], _cut(ruler, lines[:_MOST_LINES], room / sizes[-1])


def _lines(ruler: Ruler, text: str, room: float) -> list[str]:
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and ruler.width(longer, bold=True) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def _cut(ruler: Ruler, lines: Sequence[str], room: float) -> list[str]:
    """Lines no longer than there is room; the last one says that there is more."""
    kept = [*lines[:-1], lines[-1] + "…"]
    return [_shortened(ruler, line, room) for line in kept]


def _shortened(ruler: Ruler, line: str, room: float) -> str:
    while ruler.width(line, bold=True) > room and len(line) > 1:
        line = line[:-2].rstrip() + "…"
    return line
