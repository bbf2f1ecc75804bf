"""Clock times inside a video: ``m:ss`` or ``h:mm:ss``."""

import re

from sitegen.notation.errors import NotationError

# Behind hours, minutes have two digits; without, they may have three, for videos are told in minutes.
_CLOCK = re.compile(r"(?:(?P<h>\d{1,2}):(?=\d\d:))?(?P<m>\d{1,3}):(?P<s>\d\d)")
_EXAMPLE = "write minutes:seconds, for example 2:05, or 1:02:05 for hours"


def parse_clock(text: str) -> int:
    """Seconds from the start of the video.

    YAML 1.1 reads an unquoted ``1:30`` as the number 90 and ``0:40`` as text; this reader
    is always given the characters as written, so both mean minutes and seconds.

    Raises NotationError where the text is no clock time.
    """
    written = text.strip()
    if re.fullmatch(r"\d+", written):
        seconds = int(written)
        suggestion = f"if you mean {seconds} seconds, write {format_clock(seconds)}"
        raise NotationError(f"{written!r} is a plain number, not a clock time", suggestion)
    match = _CLOCK.fullmatch(written)
    if not match:
        raise NotationError(f"{written!r} is not a clock time", _meant(written) or _EXAMPLE)
    hours, minutes, seconds = int(match["h"] or 0), int(match["m"]), int(match["s"])
    if seconds > 59 or (match["h"] is not None and minutes > 59):
        raise NotationError(f"{written!r} has more than 59 seconds or minutes", _EXAMPLE)
    return hours * 3600 + minutes * 60 + seconds


_PARTS = re.compile(
    r"(?:(?P<h>\d{1,2}) ?(?:[:.,]|h(?:ours?)?) ?)?(?P<m>\d{1,3}) ?(?:[:.,;']|m(?:in(?:utes?)?)?) ?"
    r"(?P<s>\d{1,2}) ?(?:''|\"|s(?:ec(?:onds?)?)?)?"
)
"""Minutes and seconds with other signs between them."""


_PRIMES = str.maketrans("′’″”", "''\"\"")


def _meant(written: str) -> str | None:
    """What to write for a time with other signs in it; None where it is no such time."""
    plain = written.lower().translate(_PRIMES)
    match = _PARTS.fullmatch(plain)
    if not match or int(match["s"]) > 59 or (match["h"] is not None and int(match["m"]) > 59):
        return None
    # After a full stop one digit is ambiguous: 2.5 may be half past two minutes.
    if len(match["s"]) == 1 and not re.search(r"[a-z:'\"]", plain):
        return None
    time = format_clock(int(match["h"] or 0) * 3600 + int(match["m"]) * 60 + int(match["s"]))
    return f'write "{time}"'


def format_clock(seconds: float) -> str:
    """``m:ss`` under an hour, ``h:mm:ss`` from there; fractions of a second are cut."""
    whole = int(seconds)
    minutes, rest = divmod(whole, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"
