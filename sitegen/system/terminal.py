"""Words on their way to a terminal: what a terminal would obey instead of showing is written out.

A file name, a title or the name in a lease may come from somebody else. An escape sequence in it could
clear the screen, change a window's title or answer for the user (ECMA-48 lists the control characters).
"""

import io
import re
import shutil

_OBEYED = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")
"""C0 and C1 controls but tab and line feed, and those that turn the direction of writing (Unicode UAX 9)."""


def visible(text: str) -> str:
    """The text with such characters written as ``\\u001b``; a carriage return stays at the start."""
    start = text[: text.startswith("\r")]
    return start + _OBEYED.sub(lambda match: f"\\u{ord(match[0]):04x}", text[len(start) :])


def columns() -> int:
    """How many characters a line of the terminal has; a hundred, where it is not known or not a terminal."""
    return shutil.get_terminal_size((100, 24)).columns


class PlainStream(io.TextIOWrapper):
    """A stream that writes only what can be seen; what its encoding lacks is written out, too."""

    def write(self, text: str) -> int:
        super().write(visible(text))
        return len(text)

    @classmethod
    def over(cls, stream: io.TextIOWrapper) -> "PlainStream":
        """A plain stream that writes where another did, which is closed to use."""
        encoding, lines, through = stream.encoding, stream.line_buffering, stream.write_through
        return cls(stream.detach(), encoding, "backslashreplace", line_buffering=lines, write_through=through)
