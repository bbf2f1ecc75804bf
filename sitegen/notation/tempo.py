"""Tempo: seconds for lowering, pause, lifting and pause, ``3-1-1-0``; ``x`` lifts as fast as is safe."""

import re
from dataclasses import dataclass

from sitegen.notation.errors import NotationError
from sitegen.notation.text import tidy

_TEMPO = re.compile(r"(\d{1,2})-(\d{1,2})-(\d{1,2}|x)-(\d{1,2})")  # an x is for lifting alone
_EXAMPLE = "write four counts, lowering-pause-lifting-pause, for example 3-1-1-0"


@dataclass(frozen=True, slots=True)
class Tempo:
    """Seconds of the four phases of one repetition."""

    lowering: int
    bottom: int
    """Pause after lowering."""
    lifting: int | None
    """None where the lift is as fast as is safe (written ``x``)."""
    top: int
    """Pause after lifting."""

    @classmethod
    def parse(cls, text: str) -> "Tempo":
        """Read a tempo. Raises NotationError where the text is none."""
        match = _TEMPO.fullmatch(tidy(text).replace(" ", ""))
        if not match:
            raise NotationError(f"{text!r} is not a tempo", _EXAMPLE)
        lowering, bottom, lifting, top = match.groups()
        tempo = cls(int(lowering), int(bottom), None if lifting == "x" else int(lifting), int(top))
        if tempo.seconds == 0:
            raise NotationError(f"{text!r} takes no time at all", _EXAMPLE)
        return tempo

    @property
    def seconds(self) -> float:
        """Time of one repetition; a fast lift counts as half a second (our assumption)."""
        lifting = 0.5 if self.lifting is None else self.lifting
        return self.lowering + self.bottom + lifting + self.top

    def __str__(self) -> str:
        lifting = "x" if self.lifting is None else self.lifting
        return f"{self.lowering}-{self.bottom}-{lifting}-{self.top}"
