"""Byte ranges of HTTP (RFC 9110, section 14): one range, as browsers ask for when they seek."""

import re

# One range only: of several the whole file is sent, which a server may always do (RFC 9110, 14.2).
_RANGE = re.compile(r"bytes=(\d*)-(\d*)")


def parse_range(header: str, size: int) -> tuple[int, int] | None:
    """First and last byte asked for, within a file of ``size`` bytes.

    None where the header is to be ignored (malformed, another unit, several ranges).
    Raises ValueError where the range lies outside the file (status 416).
    """
    match = _RANGE.fullmatch(header.strip())
    if not match or match[0] == "bytes=-":
        return None
    first, last = match[1], match[2]
    if not first:
        if int(last) == 0 or size == 0:
            raise ValueError("nothing of the file was asked for")
        return max(0, size - int(last)), size - 1
    start = int(first)
    end = min(int(last), size - 1) if last else size - 1
    if last and int(last) < start:
        return None
    if start >= size:
        raise ValueError("the range starts behind the end of the file")
    return start, end
