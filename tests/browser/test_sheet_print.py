"""Sheets on paper: one page on A4 and on US Letter, nothing missing, nothing over anything else."""

import io
import re
from collections.abc import Iterable, Iterator
from itertools import chain
from pathlib import Path
from typing import Any

import cv2
import pikepdf
import pytest
from hypothesis import HealthCheck, Phase, given, settings
from playwright.sync_api import Page

from sitegen.building.build import Builder
from sitegen.model import Series
from sitegen.pages.sheets.code import code_svg
from sitegen.pages.sheets.pages import SheetMaker
from sitegen.pages.sheets.printing import PAPERS
from sitegen.pages.sheets.views import SheetView
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.pages.views import Views
from sitegen.printing.document import Document, Resource
from sitegen.printing.installed_browser import find_browser
from sitegen.printing.pdf_printer import PdfPrinter
from sitegen.reading.reader import read_content
from sitegen.resources import themes_folder
from tests.browser.printed import (
    PrintedPage,
    opened,
    outside,
    overlapping,
    picture,
    plain,
    read_pages,
    smallest_type,
)
from tests.demo_copy import copy_demo, leave_out_unused, replace
from tests.draws import draws
from tests.four_weeks import four_weeks
from tests.pages.sheet_sessions import sessions
from tests.shared_builds import made_once
from tests.sheet_views import view_of

MARGIN = 8.0
UNSHRUNK = (Phase.explicit, Phase.reuse, Phase.generate)
"""Printing takes a tenth of a second: looking for a smaller example would take minutes."""
LARGE_EXAMPLES = pytest.mark.filterwarnings("ignore:Generating overly large repr")
"""A whole session takes more room to be told than the library likes; it is told only where a test fails."""
TYPES = {"css": "text/css", "woff2": "font/woff2"}


@pytest.fixture(scope="module")
def site() -> Site:
    """The demo, ready to render."""
    content = read_content(four_weeks())
    assert content.series is not None
    return Site(content.series, content.cues, Theme(themes_folder() / "tidewater", "en"), "code")


@pytest.fixture(scope="module")
def printer(tmp_path_factory: pytest.TempPathFactory) -> Iterator[PdfPrinter]:
    engine = find_browser()
    if engine is None:
        pytest.fail("these tests need Chromium: apt-get install chromium")
    with PdfPrinter(engine, tmp_path_factory.mktemp("printer")) as printer:
        yield printer


@pytest.fixture(
    scope="module",
    params=[
        pytest.param(4, id="four sessions"),
        pytest.param(12, id="all sessions", marks=pytest.mark.thorough),
    ],
)
def pdf_site(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of the demo's first sessions with their PDF files."""

    def make(folder: Path) -> None:
        content = copy_demo(folder, episodes=request.param)
        leave_out_unused(content)
        built = Builder(content, folder / "build", jobs=1, pdf=True).build()
        assert built.unprinted == ""

    return made_once(tmp_path_factory, f"printed-{request.param}", make) / "build"


def sessions_in(site: Path) -> int:
    return len(list(site.glob("episodes/*/sheet/index.html")))


def pdfs(site: Path) -> list[tuple[str, str, bytes]]:
    """Slug, paper and bytes of every PDF file."""
    files = sorted(path for paper in PAPERS for path in site.glob(f"episodes/*/sheet-{paper}.pdf"))
    return [(path.parent.name, path.stem.removeprefix("sheet-"), path.read_bytes()) for path in files]


def test_the_large_print_is_a_file_too_and_fills_its_pages(pdf_site: Path, demo_series: Series) -> None:
    """Every page but the last is used to half of its height at least: an exercise is never broken.

    The first, which hangs on top, says when to stop.
    """
    signs = [*demo_series.details.call_if, *demo_series.details.stop_if]
    printed_large = sorted(pdf_site.glob("episodes/*/sheet-large.pdf"))
    assert len(printed_large) == sessions_in(pdf_site)
    for path in printed_large[::2]:
        pages = read_pages(path.read_bytes())
        assert len(pages) <= 7, path
        assert missing(pages[0].text, [*signs, "Name", "Date"]) == []
        for printed in pages:
            assert smallest_type(printed) >= 17.98
        for number, printed in enumerate(pages[:-1], start=1):
            # The page's number at the foot is left aside.
            lowest = min(glyph.bottom for glyph in printed.glyphs if glyph.bottom > 15 * 72 / 25.4)
            assert lowest < printed.height / 2, (path, number)


def checked_page(pdf: bytes, paper: str) -> PrintedPage:
    """The one page of a PDF file, found to be legible."""
    pages = read_pages(pdf)
    assert len(pages) == 1
    page = pages[0]
    assert (page.width, page.height) == pytest.approx([side * 72 / 25.4 for side in PAPERS[paper]], abs=1.1)
    assert smallest_type(page) >= 8.98
    assert overlapping(page) == []
    assert outside(page, MARGIN) == []
    return page


def words_of(sheet: SheetView, *, everything: bool) -> Iterator[str]:
    """What has to stand on the page; with ``everything`` also what the tight steps leave out."""
    yield from (sheet.title, sheet.time, sheet.spoken)
    yield from (piece.name for piece in sheet.kit)
    yield from (caution.striptags() for caution in sheet.cautions)
    for block in sheet.blocks:
        yield from (block.name, block.how, block.when)
        for item in block.items:
            yield from (item.name, item.care, item.rotation)
            if block.written or everything:
                yield from item.facts
                yield item.cue.striptags()
            if everything:
                yield from (item.easier, item.harder)
                yield from [item.fault.see.striptags()] if item.fault else []


def amounts_missing(text: str, sheet: SheetView) -> list[str]:
    """Exercises whose dose or load is told neither beside their name nor in columns of their own."""
    items = [item for block in sheet.blocks for item in block.items]
    doses = [item.name for item in items if not told(text, item.dose, "".join(item.amount))]
    return doses + [item.name for item in items if not told(text, item.load, item.held)]


def told(text: str, *ways: str) -> bool:
    return any(plain(way) in text for way in ways)


def missing(page_text: str, words: Iterable[str]) -> list[str]:
    return [text for text in words if plain(text) not in page_text]


# --- the demo ----------------------------------------------------------------------------------


def test_every_demo_session_is_one_page_on_either_paper_with_nothing_missing(
    pdf_site: Path, site: Site, demo_series: Series
) -> None:
    views = Views(site)
    episodes = {episode.slug: episode for episode in demo_series.episodes}
    printed = pdfs(pdf_site)
    assert len(printed) == 2 * sessions_in(pdf_site)
    for slug, paper, data in printed:
        page = checked_page(data, paper)
        sheet = view_of(site, views, episodes[slug], f"movement.example/galley/{episodes[slug].number}")
        assert missing(page.text, words_of(sheet, everything=False)) == [], (slug, paper)
        assert amounts_missing(page.text, sheet) == [], (slug, paper)
        assert missing(page.text, chain(demo_series.details.call_if, demo_series.details.stop_if)) == []


def test_the_files_are_tagged_named_small_and_hold_their_fonts(pdf_site: Path, demo_series: Series) -> None:
    titles = {episode.slug: episode.title for episode in demo_series.episodes}
    for slug, paper, data in pdfs(pdf_site):
        assert len(data) < 150_000, (slug, paper)
        with pikepdf.open(io.BytesIO(data)) as pdf:
            assert titles[slug] in str(pdf.docinfo["/Title"])
            assert pdf.Root.Lang == "en"
            assert pdf.Root.MarkInfo.Marked
            assert pdf.Root.ViewerPreferences.DisplayDocTitle
            assert {"/Document", "/H1", "/H2", "/P", "/L", "/LI", "/Figure"} <= structure(pdf)
            code, *drawings = figure_texts(pdf)
            assert code == f"QR code that opens the page of session {number_of(slug, demo_series)}"
            assert len(drawings) >= 10, slug
            assert all(words.endswith(".") for words in drawings)
            for font in embedded_fonts(pdf):
                assert "/FontFile2" in font.FontDescriptor or "/FontFile3" in font.FontDescriptor


def number_of(slug: str, series: Series) -> int:
    return next(episode.number for episode in series.episodes if episode.slug == slug)


def elements(pdf: pikepdf.Pdf) -> Iterator[pikepdf.Dictionary]:
    """Every element of the tag tree."""
    waiting = [pdf.Root.StructTreeRoot]
    while waiting:
        element = waiting.pop()
        kids = element.get("/K", [])
        for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
            if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
                yield kid
                waiting.append(kid)


def structure(pdf: pikepdf.Pdf) -> set[str]:
    return {str(element.S) for element in elements(pdf)}


def figure_texts(pdf: pikepdf.Pdf) -> list[str]:
    return [str(element.Alt) for element in elements(pdf) if element.S == "/Figure"]


def embedded_fonts(pdf: pikepdf.Pdf) -> Iterator[pikepdf.Dictionary]:
    """The fonts behind every font that the page uses."""
    for font in pdf.pages[0].Resources.Font.values():
        yield from font.get("/DescendantFonts", [font])


def test_the_code_is_read_from_the_printed_page_and_opens_the_session(
    pdf_site: Path, demo_series: Series
) -> None:
    """OpenCV's decoder, from the page at 200 dots to the inch: an ordinary scan or photograph."""
    for slug, _, data in pdfs(pdf_site)[::5]:
        text, *_ = cv2.QRCodeDetector().detectAndDecode(cv2.cvtColor(picture(data, 200), cv2.COLOR_RGB2BGR))
        assert text == f"{demo_series.details.address}episodes/{slug}/"


COLOUR_OPERATORS = {"g", "G", "rg", "RG", "k", "K", "sc", "SC", "scn", "SCN", "sh"}
"""Those of ISO 32000 that set a colour or paint a shading."""


BLACK, WHITE, RUST, RED = "#000000", "#ffffff", "#a34700", "#b4002d"
GREYS = {"#4c545b", "#777777"}


def test_colours_are_black_and_white_rust_for_loads_and_red_for_danger(pdf_site: Path) -> None:
    """Two dark greys beside them, for what is read second, for the far limbs and the kit in drawings."""
    for _, _, data in pdfs(pdf_site)[::6]:
        with pikepdf.open(io.BytesIO(data)) as pdf:
            forms = [x for x in pdf.pages[0].Resources.get("/XObject", {}).values() if x.Subtype == "/Form"]
            for stream in (pdf.pages[0], *forms):
                for operands, operator in pikepdf.parse_content_stream(stream):
                    if str(operator) in COLOUR_OPERATORS:
                        assert hex_of(operands) in {BLACK, WHITE, RUST, RED, *GREYS}, (operands, operator)


def hex_of(operands: Iterable[Any]) -> str:
    """A colour as in a style sheet; one number is a shade of grey."""
    values = [round(float(value) * 255) for value in operands]
    return "#" + "".join(f"{value:02x}" for value in (values * 3 if len(values) == 1 else values))


def test_two_builds_print_the_same_bytes_and_only_changed_sessions_are_printed_again(
    pdf_site: Path, tmp_path: Path
) -> None:
    content = copy_demo(tmp_path, episodes=2)
    leave_out_unused(content)
    out = tmp_path / "build"
    made = Builder(content, out, jobs=1, pdf=True).build().written.made
    assert len([address for address in made if address.endswith(".pdf")]) == 6
    replace(content, "episodes/01-cast-off.yaml", 'dose: "8"', 'dose: "9"')
    made = Builder(content, out, jobs=1, pdf=True).build().written.made
    assert [a for a in made if a.endswith(".pdf")] == [
        "episodes/cast-off/sheet-a4.pdf",
        "episodes/cast-off/sheet-large.pdf",
        "episodes/cast-off/sheet-letter.pdf",
    ]
    same = "episodes/fair-lead/sheet-a4.pdf"
    assert (out / same).read_bytes() == (pdf_site / same).read_bytes()


# --- the browser's own print -------------------------------------------------------------------

FORMATS = {"a4": "A4", "letter": "Letter"}
SOME = pytest.mark.parametrize(
    "some",
    [
        pytest.param(slice(1, None, 5), id="some sessions"),
        pytest.param(slice(None), id="all sessions", marks=pytest.mark.thorough),
    ],
)


def sheets_of(series: Series, some: slice) -> Iterator[str]:
    return (f"episodes/{episode.slug}/sheet/index.html" for episode in series.episodes[some])


def check_on_both_papers(page: Page) -> None:
    for paper, name in FORMATS.items():
        checked_page(page.pdf(format=name), paper)


@SOME
def test_the_page_itself_prints_on_one_page(
    page: Page, demo_url: str, demo_series: Series, some: slice
) -> None:
    """From a telephone."""
    page.set_viewport_size({"width": 390, "height": 800})
    for address in sheets_of(demo_series, some):
        opened(page, demo_url + address)
        check_on_both_papers(page)


@SOME
def test_without_scripts_the_page_itself_prints_on_one_page(
    scriptless: Page, demo_url: str, demo_series: Series, some: slice
) -> None:
    scriptless.set_viewport_size({"width": 390, "height": 800})
    for address in sheets_of(demo_series, some):
        scriptless.goto(demo_url + address, wait_until="networkidle")
        check_on_both_papers(scriptless)


@SOME
def test_four_weeks_are_one_page_across(page: Page, demo_url: str, demo_series: Series, some: slice) -> None:
    for episode in demo_series.episodes[some]:
        opened(page, f"{demo_url}episodes/{episode.slug}/sheet/weeks/index.html")
        for paper in FORMATS.values():
            pages = read_pages(page.pdf(format=paper, landscape=True))
            assert len(pages) == 1, (episode.slug, paper)
            assert pages[0].width > pages[0].height
            assert smallest_type(pages[0]) >= 8.98
            assert overlapping(pages[0]) == []


def test_large_print_is_18_points_at_least_and_keeps_blocks_together(
    page: Page, demo_url: str, demo_series: Series
) -> None:
    for episode in demo_series.episodes[::3]:
        opened(page, f"{demo_url}episodes/{episode.slug}/sheet/large/index.html")
        pages = read_pages(page.pdf(format="Letter"))
        for printed in pages:
            assert smallest_type(printed) >= 17.98
            assert overlapping(printed) == []
            assert plain(episode.title) in printed.text[:200]
        for block in episode.blocks:
            holding = [number for number, one in enumerate(pages) if plain(block.name) in one.text]
            names = [site_name(demo_series, item.exercise, item.variant) for item in block.items]
            on = {number for number, one in enumerate(pages) for name in names if plain(name) in one.text}
            assert set(holding) & on, (episode.slug, block.name)


def site_name(series: Series, exercise: str, variant: str | None) -> str:
    owner = series.exercise(exercise)
    found = owner.variant(variant) if variant else None
    return found.name if found else owner.name


def test_the_list_of_sessions_is_printed(page: Page, demo_url: str, demo_series: Series) -> None:
    opened(page, f"{demo_url}sheets/index.html")
    pages = read_pages(page.pdf(format="Letter"))
    assert len(pages) == 1
    assert missing(pages[0].text, (episode.title for episode in demo_series.episodes)) == []
    assert smallest_type(pages[0]) >= 8.98


def test_text_over_text_and_text_in_the_margin_would_be_noticed(page: Page) -> None:
    page.set_content(
        "<style>@page {margin: 0} p {position: absolute; font: 12pt sans-serif}</style>"
        "<p style='left: 2mm; top: 50mm'>margin</p>"
        "<p style='left: 40mm; top: 50mm'>ab</p><p style='left: 40.5mm; top: 50.5mm'>ij</p>"
    )
    (printed,) = read_pages(page.pdf(format="A4", prefer_css_page_size=True))
    assert ("i", "a") in overlapping(printed)
    assert "m" in outside(printed, MARGIN)
    assert smallest_type(printed) == pytest.approx(12, abs=0.1)


# --- sessions of every kind --------------------------------------------------------------------


class MadeUp:
    """Prints sheets that no content was written for."""

    def __init__(self, site: Site, printer: PdfPrinter) -> None:
        self.site, self.printer = site, printer
        self.fitter = SheetMaker(site, Views(site), with_pdf=False).fitter
        self.count = 0

    def html(self, sheet: SheetView) -> bytes:
        return self.site.render(
            "sheet.html",
            "episodes/made-up/sheet/index.html",
            sheet=sheet,
            layout=self.fitter.layout(sheet),
            steps=self.fitter.for_script,
            sheet_json=None,
            needs_json=None,
            forms=[],
            dated=True,
        )

    def print(self, sheet: SheetView, paper: str) -> bytes:
        html = self.html(sheet)
        assets = {asset.address: asset.data for asset in self.site.theme.assets.values()}

        def files(address: str) -> Resource | None:
            if address.endswith("sheet/index.html"):
                return Resource(html, "text/html; charset=utf-8")
            if address.endswith("code.svg"):
                return Resource(code_svg("https://movement.example/galley/14"), "image/svg+xml")
            ending = address.rpartition(".")[2]
            return Resource(assets[address], TYPES[ending]) if address in assets and ending in TYPES else None

        self.count += 1
        base = self.site.details.address
        document = Document(str(self.count), base, "episodes/made-up/sheet/index.html", files)
        return self.printer.print(document, PAPERS[paper])


@pytest.fixture(scope="module")
def made_up(site: Site, printer: PdfPrinter) -> MadeUp:
    return MadeUp(site, printer)


@LARGE_EXAMPLES
@settings(draws(2, 5), phases=UNSHRUNK)
@given(sheet=sessions())
def test_any_session_of_up_to_10_items_is_one_legible_page(made_up: MadeUp, sheet: SheetView) -> None:
    for paper in PAPERS:
        page = checked_page(made_up.print(sheet, paper), paper)
        assert missing(page.text, words_of(sheet, everything=False)) == []
        assert amounts_missing(page.text, sheet) == []


def has_over_24_items(sheet: SheetView) -> bool:
    return sum(len(block.items) for block in sheet.blocks) > 24


@LARGE_EXAMPLES
@settings(draws(1, 3), phases=UNSHRUNK, suppress_health_check=[HealthCheck.filter_too_much])
@given(sheet=sessions(items_at_most=40, blocks_at_most=10).filter(has_over_24_items))
def test_a_longer_session_breaks_between_blocks_under_its_head(made_up: MadeUp, sheet: SheetView) -> None:
    pages = read_pages(made_up.print(sheet, "letter"))
    wanted = words_of(sheet, everything=len(pages) > 1)
    assert missing("".join(page.text for page in pages), wanted) == []
    for page in pages:
        assert plain(sheet.title) in page.text[:300]
        assert overlapping(page) == []
        assert smallest_type(page) >= 8.98
    if len(pages) > 1:
        assert re.search(rf"1/{len(pages)}", pages[0].text)
