"""The code on a sheet against ISO/IEC 18004, read by a decoder that did not make it (OpenCV's).

From the standard (values also in ISO/IEC 18004:2015, 6.3.8 and 7.3.2): the quiet zone is four modules
wide on every side; a symbol of version v has 17 + 4v modules a side; finder patterns of 7 modules stand in
three corners.
"""

import io
import re

import cv2
import numpy as np
import pytest

from sitegen.pages.sheets.code import LEAST_MODULE, SIZE, code_svg

ADDRESS = "https://movement.example/galley/episodes/steady-pull/"
FINDER = ["1111111", "1000001", "1011101", "1011101", "1011101", "1000001", "1111111"]


def modules(svg: bytes) -> np.ndarray:
    """The drawing as a grid: 1 for a dark module, quiet zone included."""
    text = svg.decode()
    side = int(re.search(r'viewBox="0 0 (\d+) \1"', text)[1])  # type: ignore[index]
    grid = np.zeros((side, side), dtype=np.uint8)
    for x, y, width in re.findall(r"M(\d+) (\d+)h(\d+)v1", text):
        grid[int(y), int(x) : int(x) + int(width)] = 1
    return grid


def decode(grid: np.ndarray, scale: int = 8) -> str:
    """What OpenCV's decoder reads."""
    picture = np.kron(255 * (1 - grid), np.ones((scale, scale))).astype(np.uint8)
    return str(cv2.QRCodeDetector().detectAndDecode(picture)[0])


@pytest.mark.parametrize(
    "address",
    [ADDRESS, "https://a.example/1", ADDRESS + "x" * 60, "https://a.example/" + "a-session-" * 20],
    ids=["usual", "short", "long", "very long"],
)
def test_an_independent_decoder_reads_the_address(address: str) -> None:
    assert decode(modules(code_svg(address))) == address


@pytest.mark.parametrize("length", [20, 60, 120, 240, 400], ids=str)
def test_quiet_zone_size_and_finders_are_those_of_the_standard(length: int) -> None:
    grid = modules(code_svg("https://a.example/".ljust(length, "x")))
    assert not grid[:4].any()
    assert not grid[-4:].any()
    assert not grid[:, :4].any()
    assert not grid[:, -4:].any()
    symbol = grid[4:-4, 4:-4]
    assert (len(symbol) - 17) % 4 == 0
    for corner in (symbol[:7, :7], symbol[:7, -7:], symbol[-7:, :7]):
        assert ["".join(map(str, row)) for row in corner] == FINDER


@pytest.mark.parametrize("length", [20, 60, 120, 240], ids=str)
def test_modules_are_large_enough_to_be_read_from_paper(length: int) -> None:
    side = len(modules(code_svg("https://a.example/".ljust(length, "x"))))
    assert SIZE / side >= LEAST_MODULE


def test_the_drawing_is_the_same_every_time_and_well_formed() -> None:
    from xml.etree import ElementTree

    assert code_svg(ADDRESS) == code_svg(ADDRESS)
    assert ElementTree.parse(io.BytesIO(code_svg(ADDRESS))).getroot().tag.endswith("svg")
