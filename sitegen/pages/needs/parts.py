"""A long series in parts, so that no page grows with it and an edited session rewrites few."""

from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.model import Episode

SESSIONS = 50
"""Most sessions on one page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """Some sessions in a row."""

    number: int
    """From 1."""
    episodes: tuple[Episode, ...]

    @property
    def first(self) -> int:
        """Number of its first session; 0 where there is none."""
        return self.episodes[0].number if self.episodes else 0

    @property
    def last(self) -> int:
        """Number of its last session; 0 where there is none."""
        return self.episodes[-1].number if self.episodes else 0

    @property
    def names(self) -> tuple[tuple[str, int, str], ...]:
        """Slug, number and title of its sessions."""
        return tuple((e.slug, e.number, e.title) for e in self.episodes)

    def address(self, folder: str) -> str:
        """Where a page about this part is. No id has an underscore, so none can stand in its way."""
        return f"{folder}/index.html" if self.number == 1 else f"{folder}/part_{self.number}/index.html"


def parts_of(episodes: Sequence[Episode]) -> tuple[Part, ...]:
    """The series in parts; at least one, though it be empty."""
    starts = range(0, max(1, len(episodes)), SESSIONS)
    chunks = (tuple(episodes[start : start + SESSIONS]) for start in starts)
    return tuple(Part(number=number, episodes=chunk) for number, chunk in enumerate(chunks, start=1))


def spans(parts: Sequence[Part]) -> tuple[tuple[int, int], ...]:
    """Numbers of the first and last session of each part, as links between parts show them."""
    return tuple((part.first, part.last) for part in parts)
