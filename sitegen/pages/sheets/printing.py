"""Sheets as PDF files: the very page of the site, printed by a browser to either paper."""

from collections.abc import Callable

from sitegen.pages.episode import episode_address
from sitegen.pages.page import Gateway, fingerprint
from sitegen.pages.sheets.address import CODE, USUAL, sheet_address
from sitegen.pages.sheets.code import code_svg
from sitegen.pages.site import Site
from sitegen.printing.document import Document, Paper, Resource
from sitegen.printing.pdf_printer import PdfPrinter
from sitegen.system.media_types import ending_of, media_type

PAPERS = {"a4": Paper(210.0, 297.0), "letter": Paper(215.9, 279.4)}
"""ISO 216 A4 and US Letter (8.5 by 11 in), in millimetres."""

_ENDINGS = ("css", "woff2", "svg")
"""Of the files of the theme that are handed out: no scripts, for a sheet has to be right without them."""


class SheetPrinter(Gateway):
    """Prints the sheets of one site."""

    def __init__(self, site: Site, printer: PdfPrinter) -> None:
        self._site, self._printer = site, printer
        self.identity = printer.engine.key

    def make(self, slug: str, paper: str, make_html: Callable[[], bytes], kind: str = USUAL) -> bytes:
        """The PDF file of a session's print of that kind, which ``make_html`` gives."""
        base, html, address = self._site.details.address, make_html(), sheet_address(slug, kind)
        document = Document(fingerprint(slug, html), base, address, self._files(slug, address, html))
        return self._printer.print(document, PAPERS[paper])

    def _files(self, slug: str, sheet: str, html: bytes) -> Callable[[str], Resource | None]:
        """What the browser may load: the sheet itself, its code, and the theme's styles and fonts."""
        site = self._site

        def file(address: str) -> Resource | None:
            if address == sheet:
                return Resource(html, "text/html; charset=utf-8")
            if address == sheet_address(slug, CODE):
                return Resource(code_svg(site.public(episode_address(slug))), media_type("code.svg"))
            asset = next((a for a in site.theme.assets.values() if a.address == address), None)
            return (
                Resource(asset.data, media_type(address))
                if asset and ending_of(address) in _ENDINGS
                else None
            )

        return file
