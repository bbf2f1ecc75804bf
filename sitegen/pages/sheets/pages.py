"""Every file of a session's sheets."""

from collections.abc import Iterable, Iterator
from functools import cached_property, partial
from pathlib import Path
from typing import Any, NamedTuple

from sitegen.model import Episode
from sitegen.pages.episode import episode_address
from sitegen.pages.needs import COVERAGE
from sitegen.pages.other_forms import filmed_line
from sitegen.pages.page import Gateway, Page
from sitegen.pages.sheets.address import (
    CODE,
    LARGE,
    USUAL,
    WEEKS,
    alias_address,
    large_pdf_address,
    paper_of,
    pdf_address,
    sheet_address,
    spoken_address,
)
from sitegen.pages.sheets.code import code_svg
from sitegen.pages.sheets.fit import HEIGHTS, Fitter
from sitegen.pages.sheets.measured import Measurer
from sitegen.pages.sheets.metrics import Ruler
from sitegen.pages.sheets.personal import PersonalData
from sitegen.pages.sheets.printing import SheetPrinter
from sitegen.pages.sheets.steps import read_steps
from sitegen.pages.sheets.views import SheetView, sheet_view
from sitegen.pages.site import NavEntry, Site
from sitegen.pages.views import Views

_LONG = b'<article class="sheet sheet-many'
METRICS, STYLE = "metrics/sheet-font.json", "styles/sheet.css"


def sheet_pages(
    site: Site, maker: "SheetMaker", printer: SheetPrinter | None, episodes: Iterable[Episode]
) -> Iterator[Page]:
    """The sheets of some sessions, their codes, and their PDF files where there is a printer."""
    for episode in episodes:
        slug = episode.slug
        yield Page(sheet_address(slug, USUAL), partial(maker.usual, episode))
        yield Page(sheet_address(slug, LARGE), partial(maker.other, episode, LARGE))
        yield Page(sheet_address(slug, WEEKS), partial(maker.other, episode, WEEKS))
        address = site.public(episode_address(slug))
        yield Page(sheet_address(slug, CODE), partial(code_svg, address))
        alias = alias_address(site, episode)
        if alias is not None:
            yield Page(alias, partial(maker.alias, episode))
        if printer is not None:
            large = partial(maker.other, episode, LARGE)
            for paper in HEIGHTS:
                make = partial(printer.make, slug, paper, partial(maker.usual, episode))
                yield Page(pdf_address(slug, paper), make)
            make = partial(printer.make, slug, paper_of(site.details.units), large, LARGE)
            yield Page(large_pdf_address(slug), make)


def long_sheets(out: Path, made: Iterable[str]) -> Iterator[str]:
    """Which of the files written are usual prints that take more than one page."""
    for address in made:
        if address.endswith("/sheet/index.html") and _LONG in (out / address).read_bytes():
            yield address


class _Session(NamedTuple):
    """What every sheet of one session shows."""

    sheet: SheetView
    data: Any
    """For the script; None where the series has no needs."""
    drawings: str
    """Addresses of the files with the drawings that the script may show, separated by spaces."""


def sheet_fitter(site: Site) -> Fitter:
    """Finds the step of each sheet of a site."""
    theme = site.theme
    ruler = Ruler(theme.data(METRICS))
    measurer = Measurer(ruler, theme.strings)
    return Fitter(measurer, read_steps(theme.data(STYLE).decode()), ruler.space)


class SheetMaker(Gateway):
    """Makes the pages of sheets."""

    def __init__(self, site: Site, views: Views, *, with_pdf: bool) -> None:
        self.site, self._views, self._with_pdf = site, views, with_pdf
        self.identity = "with PDF files" if with_pdf else ""
        self._personal = PersonalData(site, views)

    @cached_property
    def fitter(self) -> Fitter:
        """Finds the step of each sheet."""
        return sheet_fitter(self.site)

    def usual(self, episode: Episode) -> bytes:
        """The usual print."""
        session = self._session(episode)
        layout, steps = self.fitter.layout(session.sheet), self.fitter.for_script
        return self._render(episode, USUAL, "sheet.html", session, layout=layout, steps=steps)

    def other(self, episode: Episode, kind: str) -> bytes:
        """The large print, or four weeks side by side."""
        return self._render(episode, kind, f"sheet_{kind}.html", self._session(episode))

    def alias(self, episode: Episode) -> bytes:
        """A page at the session's number that leads on to the session."""
        address = alias_address(self.site, episode) or ""
        target = self.site.public(episode_address(episode.slug))
        return self.site.render("sheet_alias.html", address, episode=episode, target=target)

    def _render(self, episode: Episode, kind: str, template: str, session: _Session, **data: Any) -> bytes:
        return self.site.render(
            template,
            sheet_address(episode.slug, kind),
            sheet=session.sheet,
            sheet_json=session.data,
            drawings=session.drawings if kind != WEEKS else "",
            needs_json=self._views.adaptation.needs.json,
            forms=self._forms(episode.slug),
            with_pdf=self._with_pdf,
            dated=kind != WEEKS,
            **data,
        )

    def _session(self, episode: Episode) -> _Session:
        others = filmed_line(self.site, episode, self.site.facts.of(episode, COVERAGE))
        spoken = spoken_address(self.site, episode)
        sheet = sheet_view(self.site, self._views, episode, spoken, others=others)
        if not self.site.details.needs:
            return _Session(sheet, None, "")
        return _Session(sheet, self._personal.session(episode), self._personal.drawings(episode))

    def _forms(self, slug: str) -> list[NavEntry]:
        words = self.site.theme.strings.sheet
        forms = [
            NavEntry(sheet_address(slug, USUAL), words.usual),
            NavEntry(sheet_address(slug, LARGE), words.large),
            NavEntry(sheet_address(slug, WEEKS), words.weeks),
        ]
        if self._with_pdf:
            forms += [NavEntry(pdf_address(slug, paper), words[f"pdf_{paper}"]) for paper in HEIGHTS]
            forms.append(NavEntry(large_pdf_address(slug), words.pdf_large))
        return forms
