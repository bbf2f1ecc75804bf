"""A build from beginning to end: read, plan, write."""

from collections.abc import Callable, Iterable
from contextlib import ExitStack
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from sitegen.building.build_directory import BuildDirectory
from sitegen.building.library_told import LibraryAsBuilt, as_built
from sitegen.building.made_pictures import made_pictures
from sitegen.building.output_folder import refuse_overlap
from sitegen.building.theme_choice import chosen_theme
from sitegen.building.writer import Progress, SiteChanges, known_site, write_site
from sitegen.model import Series
from sitegen.pages.all_pages import SHORT, all_pages, facts_of
from sitegen.pages.fact_store import FactStore
from sitegen.pages.frieze import COVER
from sitegen.pages.inputs import Inputs
from sitegen.pages.page import Page
from sitegen.pages.sheets.pages import long_sheets
from sitegen.pages.site import Site
from sitegen.printing.browser_pipe import BrowserFailed
from sitegen.printing.installed_browser import find_browser
from sitegen.printing.pdf_printer import PdfPrinter
from sitegen.problems import ContentError
from sitegen.reading.read_cache import ReadCache
from sitegen.reading.reader import Content, read_content
from sitegen.resources import code_fingerprint
from sitegen.system.cache import load_cached, save_cached
from sitegen.system.cache_folders import cache_folder, passing_caches, template_cache
from sitegen.system.parallel import usable_cores

IsCurrent = Callable[[Page], bool]
BeforeWriting = Callable[[Iterable[Page], IsCurrent], list[Page]]
"""Is given the pages as they are planned, and whether one is in place already; gives those to write."""

NO_BROWSER = "no browser of the Chromium family was found"


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildResult:
    """What a build did."""

    series: Series
    written: SiteChanges
    unprinted: str = ""
    """Why PDF files that were wanted were not made; empty where they were."""
    long_sheets: tuple[str, ...] = ()
    """Addresses of the sheets written that take more than one page."""


class Builder:
    """Builds one content folder into one site; keeps what it read between builds."""

    def __init__(
        self,
        content: Path,
        out: Path,
        *,
        jobs: int | None = None,
        today: date | None = None,
        plans: bool = False,
        pdf: bool = False,
        take_over: bool = False,
    ) -> None:
        """Episodes that come out after ``today`` are left out of the site; with None all are in. Plans are
        left out until they are filmed, unless ``plans`` are wanted.

        With ``pdf`` the sheets are printed to PDF files too, where this computer has a browser for it, and
        pictures for links are drawn.
        A build that may ``take_over`` uses an output folder that holds files of somebody else, too.
        """
        self.content = content
        self.today = today
        self.plans = plans
        self.out = out
        self.take_over = take_over
        self.jobs = jobs or usable_cores()
        self.shared: Path | None = None
        """The folder of the library shared with other series, as the content was last read."""
        self.library: LibraryAsBuilt | None = None
        """That library as it was in the last build; None before one, and for a series without."""
        self._code = code_fingerprint()
        self._cache = cache_folder(content)
        self._memory = ReadCache.load(self._cache / "files", self._code)
        self._facts = FactStore(self._cache / "episodes")
        self._asked: dict[Any, Any] = load_cached(self._cache / "asked", self._code)
        """What poses ask (``PosedForms``). What nobody asks for any more goes with the next program."""
        self._asked_before = frozenset(self._asked)
        self._site: Site | None = None
        self._pictures = pdf
        self._engine = find_browser() if pdf else None
        self._unprinted = NO_BROWSER if pdf and self._engine is None else ""

    def build(
        self,
        progress: Progress | None = None,
        *,
        before_writing: BeforeWriting = lambda pages, _: list(pages),
    ) -> BuildResult:
        """Bring the site up to date.

        Raises ContentError where the content has problems, Busy where another build runs and
        OSError where the disk refuses; the site is then as it was.
        """
        refuse_overlap(self.content, self.out)
        with BuildDirectory(self.out) as directory:
            content = self.read()
            if self.shared is not None:
                refuse_overlap(self.shared, self.out)
            try:
                written = self._write(directory, content, progress, before_writing)
            except BrowserFailed as error:  # the site is complete without its PDF files
                self._engine, self._unprinted = None, str(error)
                written = self._write(directory, content, progress, before_writing)
        series = self._series(content)
        self.library = as_built(series.library, self.library, date.today().isoformat())
        return BuildResult(
            series=series,
            written=written,
            unprinted=self._unprinted,
            long_sheets=tuple(long_sheets(self.out, written.made)),
        )

    def _write(
        self,
        directory: BuildDirectory,
        content: Content,
        progress: Progress | None,
        before_writing: BeforeWriting,
    ) -> SiteChanges:
        with ExitStack() as stack:
            printer = None
            if self._engine:
                printer = stack.enter_context(PdfPrinter(self._engine, directory.folder / "printing"))
            site, inputs = self._site_with_facts(content)
            known = known_site(directory, site.key, inputs)
            planned = all_pages(site, self.content, printer, known.take)
            pages = before_writing(planned, known.is_current)
            return write_site(
                directory, known, pages, jobs=self.jobs, progress=progress, take_over=self.take_over
            )

    def read(self) -> Content:
        """Read the content folder, from memory what has not changed."""
        content = read_content(self.content, self._memory, self.jobs)
        self.shared = content.shared
        return content

    def remember(self) -> None:
        """Keep what was read and worked out for the next run: once the site is in place, not before."""
        try:
            self._memory.save(self._cache / "files", self._code, self.jobs)
            self._facts.save(self.jobs)
            asked = self._asked.keys() - self._asked_before
            save_cached(self._cache / "asked", self._code, self._asked, asked, self.jobs)
            self._asked_before |= asked
        except OSError:
            pass  # a cache that is full or cannot be written to costs time in the next run, nothing else

    def plan(self, content: Content, printer: PdfPrinter | None = None) -> list[Page]:
        """Every page of the site of a read folder. Raises ContentError where it has problems."""
        site, _ = self._site_with_facts(content)
        return list(all_pages(site, self.content, printer))

    def _site_with_facts(self, content: Content) -> tuple[Site, Inputs]:
        site = self.site(content)
        inputs = Inputs(site)
        self._facts.load(site.key)
        site.facts = self._facts.bring_up_to_date(site, inputs, facts_of, SHORT, self.jobs)
        site.posters = self._made_pictures(site)
        return site, inputs

    def site(self, content: Content) -> Site:
        """The series with its theme. Raises ContentError where the content has problems."""
        series = self._series(content)
        theme = chosen_theme(self.content, series.details, template_cache())
        site = Site(series, content.cues, theme, self._code, pictures=self._pictures, asked=self._asked)
        if self._site is not None:
            site.keep_from(self._site)
        self._site = site
        return site

    def _made_pictures(self, site: Site) -> dict[str, Path]:
        bare = [one for one in site.series.episodes if one.poster is None and not site.facts.of(one, COVER)]
        cache, instead = self._cache / "posters", passing_caches() / "posters"
        return made_pictures(site.series, self.content, cache, self.jobs, bare=bare, instead=instead)

    def _series(self, content: Content) -> Series:
        return _series_or_raise(content).as_of(self.today, plans=self.plans)


def _series_or_raise(content: Content) -> Series:
    bad = [p for p in content.problems if p.severity == "problem"]
    if bad or content.series is None:
        raise ContentError(bad)
    return content.series
