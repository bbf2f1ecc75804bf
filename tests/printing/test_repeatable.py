"""What is put out of a PDF file so that two builds write the same bytes."""

import pytest

from sitegen.printing.repeatable import DATE, steadied

HEAD = b"""%PDF-1.4
1 0 obj
<</Title (Sheet)
/Creator (Mozilla/5.0 \\(X11; Linux x86_64\\) HeadlessChrome/156.0.0.0)
/Producer (Skia/PDF m156)
/CreationDate (D:20261125094835+00'00')
/ModDate (D:20261125094835+00'00')>>
endobj
"""


def test_dates_are_fixed_and_the_system_is_not_told() -> None:
    steady = steadied(HEAD)
    assert steady.count(DATE) == 2
    assert b"Linux" not in steady
    assert b"/Creator (sitegen) " in steady
    assert b"/Producer (Skia/PDF m156)" in steady


def test_nothing_moves() -> None:
    """The table at the file's end holds byte offsets."""
    assert len(steadied(HEAD)) == len(HEAD)
    assert steadied(HEAD).index(b"endobj") == HEAD.index(b"endobj")


def test_what_comes_after_the_information_is_left_alone() -> None:
    stream = HEAD.replace(b"1 0 obj", b"2 0 obj")
    assert steadied(HEAD + stream).endswith(stream)


@pytest.mark.parametrize("data", [b"", b"%PDF-1.4 nothing more"], ids=["empty", "cut off"])
def test_what_is_no_whole_file_stays_as_it_is(data: bytes) -> None:
    assert steadied(data) == data
