"""Bytes of a content file to text: UTF-8 only, a byte-order mark tolerated, size limited."""

import codecs

from sitegen.problems import Problem, in_file


class BadFile(Exception):
    """A file that cannot be read at all, with the problem that says why."""

    def __init__(self, problem: Problem, stops: tuple[int, ...] = ()) -> None:
        """``stops`` are the lines that a parser names: where it stops, and where what it was in begins."""
        super().__init__(str(problem))
        self.problem, self.stops = problem, stops


def decode(data: bytes, file: str, max_bytes: int) -> str:
    """The text of a file. Raises BadFile with file, line and column."""
    if document := _document(data):
        message = f"this is {document} and no plain text, whatever its name says"
        advice = "save it as plain text with the encoding UTF-8, and give it its name again"
        raise BadFile(in_file("not-text", file, message, advice))
    if len(data) > max_bytes:
        message = f"the file has {len(data) / 1e6:.1f} MB; at most {max_bytes / 1e6:.0f} MB are read"
        raise BadFile(in_file("too-large", file, message, "is it the right file? Otherwise split it"))
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        message = "the file is saved as UTF-16"
        raise BadFile(in_file("encoding", file, message, "save it again with the encoding UTF-8", 1, 1))
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        raise BadFile(_bad_byte(file, error)) from None


_BEGINNINGS = (
    (b"{\\rtf", "an RTF document"),
    (b"%PDF-", "a PDF file"),
    (b"\xd0\xcf\x11\xe0", "a document of a word processor (.doc)"),
    (b"<!DOCTYPE html", "a web page"),
    (b"<html", "a web page"),
)
"""How files begin that a word processor or a browser saves; those it packs are zip files."""
_PACKED = (
    (b"word/", "a Word document"),
    (b"xl/", "a workbook of a spreadsheet"),
    (b"application/vnd.oasis.opendocument", "an OpenDocument file"),
)
"""Names of what such a zip file holds; zip files have them as they are."""


def _document(data: bytes) -> str:
    """What a file is that is no plain text at all; empty where it may be one."""
    if data.startswith(b"PK\x03\x04"):
        return next((what for sign, what in _PACKED if sign in data), "a zip file")
    return next((what for sign, what in _BEGINNINGS if data.startswith(sign)), "")


_OTHER_ENDS = ("\r", "\x85", "\u2028", "\u2029")
"""What ends a line for YAML besides the line feed (YAML 1.1, 5.4) and for nothing else of ours."""


def refuse_other_ends(text: str, file: str) -> None:
    """Raise BadFile for a line end that YAML and editors count differently.

    Places would be lines off, and whatever writes into the file would write somewhere else.
    """
    places = [at for at in map(text.find, _OTHER_ENDS) if at >= 0]
    if places:
        at = min(places)
        message = f"a line ends with U+{ord(text[at]):04X}, which other programs do not take for its end"
        advice = "put an ordinary line break there"
        raise BadFile(in_file("line-end", file, message, advice, *line_and_column(text[:at])))


def line_and_column(before: str) -> tuple[int, int]:
    """Where what stands behind a text is, from 1."""
    return before.count("\n") + 1, len(before) - before.rfind("\n")


def text_lines(data: bytes) -> list[str]:
    """The lines of a file that :func:`decode` accepts, as the YAML parser counts them."""
    return data.decode("utf-8-sig", "replace").replace("\r\n", "\n").split("\n")


def _bad_byte(file: str, error: UnicodeDecodeError) -> Problem:
    # The error's own bytes: those of the file may have a byte-order mark before them.
    place = line_and_column(error.object[: error.start].decode("utf-8", "replace"))
    byte = error.object[error.start]
    guess = bytes([byte]).decode("cp1252", "replace")
    message = f"byte 0x{byte:02X} is not UTF-8 (perhaps {guess!r} from another encoding)"
    return in_file("encoding", file, message, "save the file again with the encoding UTF-8", *place)
