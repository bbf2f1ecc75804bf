"""The timings line of a cue in WebVTT and SubRip, read strictly.

WebVTT: W3C, *WebVTT: The Web Video Text Tracks Format*, "WebVTT timestamp" and "WebVTT cue
timings". SubRip (SRT) has no official text; common practice is ``HH:MM:SS,mmm``.
"""

import re

ARROW = "-->"

# Hours may be left out (WebVTT timestamp).
_VTT_STAMP = re.compile(r"(?:(?P<h>\d{2,6}):)?(?P<m>\d\d):(?P<s>\d\d)\.(?P<ms>\d{3})")
_SRT_STAMP = re.compile(r"(?P<h>\d{2,6}):(?P<m>\d\d):(?P<s>\d\d),(?P<ms>\d{3})")  # hours are never left out
_EXAMPLES = {"vtt": "00:01:02.500 --> 00:01:05.000", "srt": "00:01:02,500 --> 00:01:05,000"}


class TimingFault(Exception):
    """A timings line that cannot be read: what is wrong, at which column (from 1), what to write instead."""

    def __init__(self, what: str, column: int, instead: str) -> None:
        super().__init__(f"column {column}: {what}; {instead}")
        self.what = what
        self.column = column
        self.instead = instead


def read_timings(line: str, form: str) -> tuple[int, int]:
    """Start and end in milliseconds. ``form`` is ``vtt`` or ``srt``.

    Raises TimingFault where the line does not follow the form, or ends before it starts.
    """
    instead = f"write {_EXAMPLES[form]}"
    arrow = line.find(ARROW)
    if arrow < 0:
        raise TimingFault(f"the times are not joined by {ARROW}", 1, instead)
    first, second = line[:arrow], line[arrow + len(ARROW) :]
    if form == "vtt" and not (first.endswith((" ", "\t")) and second.startswith((" ", "\t"))):
        raise TimingFault(f"{ARROW} needs a space on both sides", arrow + 1, instead)
    end_word = second.split()[0] if second.split() else ""
    end_column = arrow + len(ARROW) + second.find(end_word) + 1
    start = _milliseconds(first.strip(), form, len(first) - len(first.lstrip()) + 1)
    end = _milliseconds(end_word, form, end_column)
    if end <= start:
        raise TimingFault("the cue ends before it starts", end_column, "write the earlier time first")
    return start, end


def _milliseconds(stamp: str, form: str, column: int) -> int:
    match = (_VTT_STAMP if form == "vtt" else _SRT_STAMP).fullmatch(stamp)
    if not match:
        raise TimingFault(f"{stamp!r} is not a time", column, _advice(stamp, form))
    hours, minutes, seconds = int(match["h"] or 0), int(match["m"]), int(match["s"])
    if minutes > 59 or seconds > 59:
        raise TimingFault(
            f"{stamp!r} has more than 59 minutes or seconds", column, f"write {_EXAMPLES[form]}"
        )
    return ((hours * 60 + minutes) * 60 + seconds) * 1000 + int(match["ms"])


def _advice(stamp: str, form: str) -> str:
    mark, other = (".", ",") if form == "vtt" else (",", ".")
    if other in stamp and mark not in stamp:
        return f"write {mark!r} before the milliseconds: {stamp.replace(other, mark)}"
    return f"write {_EXAMPLES[form]}"


def print_stamp(milliseconds: int) -> str:
    """A WebVTT timestamp, always with hours."""
    seconds, rest = divmod(milliseconds, 1000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02d}:{minutes:02d}:{seconds:02d}.{rest:03d}"
