"""Width and height of a picture, from its first bytes: SVG, PNG, JPEG and WebP."""

import re
import struct

_SVG = re.compile(rb"<svg\b[^>]*>")  # the first one is the picture; others may stand inside
# Of its four numbers the last two are the size.
_VIEW_BOX = re.compile(
    rb"""\bviewBox\s*=\s*["']\s*[-\d.eE]+[\s,]+[-\d.eE]+[\s,]+([\d.eE]+)[\s,]+([\d.eE]+)\s*["']"""
)
# In pixels only: other units say nothing of them.
_LENGTH = re.compile(rb"""\s(width|height)\s*=\s*["']\s*([\d.]+)(?:px)?\s*["']""")
_SVG_HEAD = 20_000
"""Bytes in which the root element of an SVG file begins: drawing programs put licences before it."""
_FRAMES = frozenset({*range(0xC0, 0xD0)} - {0xC4, 0xC8, 0xCC})
"""Markers of JPEG that begin a frame and so say its size (ITU-T T.81, table B.1)."""


def picture_size(data: bytes) -> tuple[int, int] | None:
    """Width and height in pixels, or in the units of an SVG; None where it is none of the four."""
    try:
        size = _found(data)
    except (struct.error, ValueError, IndexError):
        return None
    return size if size and min(size) > 0 else None


def _found(data: bytes) -> tuple[int, int] | None:
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        width, height = struct.unpack(">II", data[16:24])
        return width, height
    if data.startswith(b"\xff\xd8"):
        return _jpeg(data)
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return _webp(data)
    return _svg(data[:_SVG_HEAD])


def _jpeg(data: bytes) -> tuple[int, int] | None:
    at = 2
    # Nine bytes: marker, length, precision, height and width of a frame (ITU-T T.81, B.2.2).
    while at + 9 < len(data) and data[at] == 0xFF:
        marker = data[at + 1]
        if marker in _FRAMES:
            height, width = struct.unpack(">HH", data[at + 5 : at + 9])
            return width, height
        at += 2 + int.from_bytes(data[at + 2 : at + 4], "big")
    return None


def _webp(data: bytes) -> tuple[int, int] | None:
    """RFC 9649, sections 2.5 to 2.7."""
    kind = data[12:16]
    if kind == b"VP8X":
        return 1 + int.from_bytes(data[24:27], "little"), 1 + int.from_bytes(data[27:30], "little")
    if kind == b"VP8L":
        bits = int.from_bytes(data[21:25], "little")
        return 1 + (bits & 0x3FFF), 1 + (bits >> 14 & 0x3FFF)
    if kind == b"VP8 ":
        width, height = struct.unpack("<HH", data[26:30])
        return width & 0x3FFF, height & 0x3FFF
    return None


def _svg(head: bytes) -> tuple[int, int] | None:
    root = _SVG.search(head)
    if root is None:
        return None
    if box := _VIEW_BOX.search(root[0]):
        return round(float(box[1])), round(float(box[2]))
    lengths = {name: float(length) for name, length in _LENGTH.findall(root[0])}
    if lengths.keys() == {b"width", b"height"}:
        return round(lengths[b"width"]), round(lengths[b"height"])
    return None
