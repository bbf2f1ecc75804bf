"""Bytes of a content file to text: UTF-8 only, a byte-order mark tolerated, size limited."""

import codecs

from sitegen.problems import Problem


class BadFile(Exception):
    """A file that cannot be read at all, with the problem that says why."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(str(problem))
        self.problem = problem


def decode(data: bytes, file: str, max_bytes: int) -> str:
    """The text of a file. Raises BadFile with file, line and column."""
    if len(data) > max_bytes:
        message = f"the file has {len(data) / 1e6:.1f} MB; at most {max_bytes / 1e6:.0f} MB are read"
        raise BadFile(
            _problem("too-large", file, None, None, message, "is it the right file? Otherwise split it")
        )
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        message = "the file is saved as UTF-16"
        raise BadFile(_problem("encoding", file, 1, 1, message, "save it again with the encoding UTF-8"))
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        raise BadFile(_bad_byte(data, file, error)) from None


_OTHER_ENDS = ("\r", "\x85", "\u2028", "\u2029")
"""What ends a line for YAML besides the line feed (YAML 1.1, 5.4) and for nothing else of ours."""


def refuse_other_ends(text: str, file: str) -> None:
    """Raise BadFile for a line end that YAML and editors count differently.

    Places would be lines off, and whatever writes into the file would write somewhere else.
    """
    places = [at for at in map(text.find, _OTHER_ENDS) if at >= 0]
    if places:
        at = min(places)
        line, column = text.count("\n", 0, at) + 1, at - text.rfind("\n", 0, at)
        message = f"a line ends with U+{ord(text[at]):04X}, which other programs do not take for its end"
        raise BadFile(_problem("line-end", file, line, column, message, "put an ordinary line break there"))


def text_lines(data: bytes) -> list[str]:
    """The lines of a file that :func:`decode` accepts, as the YAML parser counts them."""
    return data.decode("utf-8-sig", "replace").replace("\r\n", "\n").split("\n")


def _bad_byte(data: bytes, file: str, error: UnicodeDecodeError) -> Problem:
    before = data[: error.start].decode("utf-8", "replace")
    line = before.count("\n") + 1
    column = len(before) - (before.rfind("\n") + 1) + 1
    byte = data[error.start]
    guess = bytes([byte]).decode("cp1252", "replace")
    message = f"byte 0x{byte:02X} is not UTF-8 (perhaps {guess!r} from another encoding)"
    return _problem("encoding", file, line, column, message, "save the file again with the encoding UTF-8")


def _problem(
    check: str, file: str, line: int | None, column: int | None, message: str, advice: str
) -> Problem:
    return Problem(
        severity="problem",
        check=check,
        file=file,
        line=line,
        column=column,
        message=message,
        advice=advice,
    )
