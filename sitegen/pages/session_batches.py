"""The pages of single sessions, in batches: fifty sessions in a row are planned and decided together.

The batches are the parts of the pages for needs (``pages.needs.parts``), so that those about a part belong to
the batch of its sessions. What grows with the series beyond that are lists of all sessions, which are pages
by themselves.
"""

from collections.abc import Iterator, Sequence
from functools import partial
from pathlib import Path

from sitegen.model import Episode
from sitegen.pages.episode import Neighbours, episode_pages
from sitegen.pages.link_picture import LinkPainter, link_pictures
from sitegen.pages.needs import SeriesParts, SessionsTogether, need_pages
from sitegen.pages.page import Batch, Gateway, Page
from sitegen.pages.sheets.pages import SheetMaker, sheet_pages
from sitegen.pages.sheets.printing import SheetPrinter
from sitegen.pages.site import Site
from sitegen.pages.views import Views
from sitegen.printing.pdf_printer import PdfPrinter


class SessionPages(Gateway):
    """Plans the pages of the sessions of a site."""

    def __init__(self, site: Site, views: Views, content: Path, printer: PdfPrinter | None) -> None:
        self.site, self.views = site, views
        self.painter = LinkPainter(site, views, content)
        self._parts = SeriesParts(site.series.episodes)
        self._printer = SheetPrinter(site, printer) if printer else None
        self._sheets = SheetMaker(site, views, with_pdf=printer is not None)
        self.identity = f"{self._parts.identity} {self._printer.identity if self._printer else ''}"

    def batches(self) -> Iterator[Batch]:
        """One for every part of the series."""
        parts = self._parts
        lasts = [sessions[-1] if sessions else None for sessions in parts.sessions]
        firsts = [sessions[0] if sessions else None for sessions in parts.sessions]
        around = map(Neighbours, (None, *lasts), (*firsts[1:], None))
        for part, sessions, beside in zip(parts.links, parts.sessions, around, strict=False):
            yield Batch(f"sessions {part.number}", partial(self.plan, part, sessions, beside))

    def plan(self, part: SessionsTogether, sessions: Sequence[Episode], around: Neighbours) -> Iterator[Page]:
        """The pages of some sessions in a row."""
        site = self.site
        yield from episode_pages(site, self.views, sessions, around)
        yield from sheet_pages(site, self._sheets, self._printer, sessions)
        yield from need_pages(site, self._parts, part, sessions)
        yield from link_pictures(site, self.painter, sessions)
