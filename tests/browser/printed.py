"""A printed page as an independent reader (PDFium) sees it: every glyph with its box and its size."""

import re
from dataclasses import dataclass

import numpy as np
import pypdfium2 as pdfium
import pypdfium2.raw as raw
from playwright.sync_api import Page

POINTS_PER_MM = 72 / 25.4
_ROWS = 256


@dataclass(frozen=True, slots=True)
class Glyph:
    """One visible character. Lengths in points, from the page's lower left corner."""

    character: str
    size: float
    left: float
    bottom: float
    right: float
    top: float


@dataclass(frozen=True, slots=True)
class PrintedPage:
    """One page."""

    width: float
    height: float
    text: str
    """Without line ends: words as they follow one another."""
    glyphs: tuple[Glyph, ...]


def opened(page: Page, url: str) -> Page:
    """The page with its fonts in place and its steps chosen."""
    page.goto(url)
    page.evaluate("document.fonts.ready.then(() => new Promise(requestAnimationFrame))")
    return page


def read_pages(pdf: bytes) -> list[PrintedPage]:
    """All pages of a PDF file."""
    with pdfium.PdfDocument(pdf) as document:
        return [_read(page) for page in document]


def _read(page: pdfium.PdfPage) -> PrintedPage:
    text = page.get_textpage()
    matrix = raw.FS_MATRIX()
    glyphs = []
    for index in range(text.count_chars()):
        character = chr(raw.FPDFText_GetUnicode(text.raw, index))
        if character.isspace() or raw.FPDFText_IsGenerated(text.raw, index):
            continue
        raw.FPDFText_GetMatrix(text.raw, index, matrix)
        size = raw.FPDFText_GetFontSize(text.raw, index) * abs(matrix.d)
        glyphs.append(Glyph(character, size, *text.get_charbox(index)))
    return PrintedPage(*page.get_size(), plain(text.get_text_bounded()), tuple(glyphs))


def plain(text: str) -> str:
    """Text without spaces, line ends and hyphens, for the reader drops a hyphen at the end of a line."""
    return re.sub(r"[\s\u00a0\u00ad\u0002\ufffe-]+", "", text)


def smallest_type(page: PrintedPage) -> float:
    """Points."""
    return min(glyph.size for glyph in page.glyphs)


def overlapping(page: PrintedPage) -> list[tuple[str, str]]:
    """Pairs of glyphs of which one covers more than a fifth of the other: text over text.

    Kerning lets neighbours share a sliver; that is less.
    """
    glyphs = sorted(page.glyphs, key=lambda glyph: glyph.bottom)
    left, bottom, right, top = np.array([(g.left, g.bottom, g.right, g.top) for g in glyphs]).T
    areas = np.maximum((right - left) * (top - bottom), 1e-6)
    found = []
    for start in range(0, len(glyphs), _ROWS):
        rows = slice(start, start + _ROWS)
        # Only what begins below the highest of these can lie over one of them.
        rest = slice(start, int(np.searchsorted(bottom, top[rows].max())))
        width = np.minimum.outer(right[rows], right[rest]) - np.maximum.outer(left[rows], left[rest])
        height = np.minimum.outer(top[rows], top[rest]) - np.maximum.outer(bottom[rows], bottom[rest])
        shared = np.maximum(width, 0) * np.maximum(height, 0)
        over = np.triu(shared > np.minimum.outer(areas[rows], areas[rest]) / 5, k=1)
        found += [(glyphs[start + i].character, glyphs[start + j].character) for i, j in np.argwhere(over)]
    return found


def outside(page: PrintedPage, margin_mm: float) -> list[str]:
    """Glyphs that stick out into the margin."""
    margin = margin_mm * POINTS_PER_MM - 0.5
    return [
        g.character
        for g in page.glyphs
        if min(g.left, g.bottom, page.width - g.right, page.height - g.top) < margin
    ]


def picture(pdf: bytes, dpi: int, page: int = 0) -> np.ndarray:
    """A page as pixels, red, green and blue."""
    with pdfium.PdfDocument(pdf) as document:
        return np.asarray(document[page].render(scale=dpi / 72).to_pil().convert("RGB"))
