"""A printed page as an independent reader (PDFium) sees it: every glyph with its box and its size."""

import re
from dataclasses import dataclass

import numpy as np
import pypdfium2 as pdfium
import pypdfium2.raw as raw

POINTS_PER_MM = 72 / 25.4


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
    boxes = np.array([(g.left, g.bottom, g.right, g.top) for g in page.glyphs])
    areas = np.maximum((boxes[:, 2] - boxes[:, 0]) * (boxes[:, 3] - boxes[:, 1]), 1e-6)
    found = []
    for index in range(len(boxes) - 1):
        rest = boxes[index + 1 :]
        width = np.minimum(rest[:, 2], boxes[index, 2]) - np.maximum(rest[:, 0], boxes[index, 0])
        height = np.minimum(rest[:, 3], boxes[index, 3]) - np.maximum(rest[:, 1], boxes[index, 1])
        shared = np.maximum(width, 0) * np.maximum(height, 0)
        smaller = np.minimum(areas[index + 1 :], areas[index])
        for other in np.flatnonzero(shared > smaller / 5):
            found.append((page.glyphs[index].character, page.glyphs[index + 1 + int(other)].character))
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
