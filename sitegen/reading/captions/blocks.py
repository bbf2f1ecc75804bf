"""Cutting the text of a caption file into blocks of lines, and the markup out of cue text."""

import html
import re
from collections.abc import Iterator
from dataclasses import dataclass

from sitegen.reading.captions.times import ARROW

_TAG = re.compile(r"</?[A-Za-z][^<>]*>|<\d[\d:.]*>|</>")  # times of single words too: <00:01.500>
_POSITION = re.compile(r"\{\\[^{}]*\}")  # places that some SRT files give: {\an8}
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")  # all but tab and line feed: no reader shows them


@dataclass(frozen=True, slots=True)
class CaptionBlock:
    """Lines between blank lines."""

    line: int
    """Number of the first line, from 1."""
    lines: tuple[str, ...]

    @property
    def timing(self) -> int | None:
        """Index of the timings line; None where no line has an arrow."""
        return next((index for index, text in enumerate(self.lines) if ARROW in text), None)


def split_lines(text: str) -> list[str]:
    """Lines ended by CRLF, LF or CR (the line terminators of WebVTT, and no others)."""
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")


def blocks(lines: list[str], first: int = 0) -> Iterator[CaptionBlock]:
    """The blocks from index ``first`` on; a line with nothing but spaces is text, as in the WebVTT parser.

    A second timings line ends a block as a blank line does, as in the WebVTT parser. The line
    before it goes with it where it can be its counter.
    """
    held: list[str] = []
    begun = first
    for index in range(first, len(lines)):
        line = lines[index]
        if not line:
            if held:
                yield CaptionBlock(begun + 1, tuple(held))
            held, begun = [], index + 1
        elif ARROW in line and any(ARROW in text for text in held):
            counter = [held.pop()] if held[-1].strip().isdigit() else []
            yield CaptionBlock(begun + 1, tuple(held))
            held, begun = [*counter, line], index - len(counter)
        else:
            held.append(line)
    if held:
        yield CaptionBlock(begun + 1, tuple(held))


def plain_text(lines: tuple[str, ...]) -> str:
    """Cue text without tags, positions and control characters, character references resolved.

    Tags go first, so that an escaped ``&lt;b&gt;`` stays as the text it is. The result is plain
    text: whoever puts it into a page escapes it.
    """
    bare = [html.unescape(_TAG.sub("", _POSITION.sub("", line))) for line in lines]
    tidy = [" ".join(_CONTROL.sub("", line).replace("\xa0", " ").split()) for line in bare]
    return "\n".join(line for line in tidy if line)
