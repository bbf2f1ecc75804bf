"""A long series in parts, so that no page grows with it and an edited session rewrites few."""

from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.model import Episode
from sitegen.pages.page import Gateway, fingerprint

SESSIONS = 50
"""Most sessions on one page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionsTogether:
    """Some sessions in a row, as pages link to them."""

    number: int
    """From 1."""
    first: int
    """Number of its first session; 0 where there is none."""
    last: int
    """Number of its last session; 0 where there is none."""

    def address(self, folder: str) -> str:
        """Where a page about this part is. No id has an underscore, so none can stand in its way."""
        return f"{folder}/index.html" if self.number == 1 else f"{folder}/part_{self.number}/index.html"


class SeriesParts(Gateway):
    """The series in parts; at least one, though it be empty."""

    def __init__(self, episodes: Sequence[Episode]) -> None:
        starts = range(0, max(1, len(episodes)), SESSIONS)
        self.sessions = [tuple(episodes[start : start + SESSIONS]) for start in starts]
        """Of each part."""
        self.links = [_part(number, some) for number, some in enumerate(self.sessions, start=1)]
        self.identity = fingerprint(*self.links)


def _part(number: int, episodes: Sequence[Episode]) -> SessionsTogether:
    first, last = (episodes[0].number, episodes[-1].number) if episodes else (0, 0)
    return SessionsTogether(number=number, first=first, last=last)
