"""What calendar.yaml says: the calendar entries that were published. ``sitegen calendar`` writes it."""

import re

from sitegen.model import Recorded
from sitegen.notation import NotationError
from sitegen.reading.schemas.scalars import Short
from sitegen.reading.schemas.shapes import MapOf
from sitegen.reading.schemas.texts import Ident


def _recorded(text: str) -> Recorded:
    match = re.fullmatch(r"(\d{1,6}) ([0-9a-f]{12})", text.strip())
    if not match:
        raise NotationError(f"{text!r} is no entry of this file", "let sitegen calendar write the file again")
    return Recorded(sequence=int(match[1]), mark=match[2])


CALENDAR = MapOf(Ident(), Short("a count and a mark", _recorded, "0 93b1c0de5f27"))
