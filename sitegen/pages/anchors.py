"""Ids for the parts of a page, from their names."""

from functools import lru_cache

from slugify import slugify


@lru_cache(maxsize=8192)
def anchor_of(name: str) -> str:
    """An anchor from a name: lower-case letters and digits joined by hyphens."""
    return slugify(name) or "part"


PAGE_ANCHORS = (
    *("content", "foot-safety", "kit", "needs", "needs-data", "care", "watch", "session", "notes"),
    *("transcript", "video", "hosted", "stop-at-turns", "turn-panel", "turn-panel-title"),
    *("episode-data", "turn-words", "adapted-words"),
)
"""Ids that the episode's page has already, whatever blocks and exercises are called."""


class Anchors:
    """Gives each name on a page an anchor of its own."""

    def __init__(self) -> None:
        self._used = dict.fromkeys(PAGE_ANCHORS, 1)

    def take(self, name: str) -> str:
        """``towel-row``, then ``towel-row-2`` and so on."""
        base = anchor_of(name)
        count = self._used[base] = self._used.get(base, 0) + 1
        return base if count == 1 else f"{base}-{count}"
