"""Small answers about single episodes, worked out once and cached between builds.

Pages about the whole series (the home page, an exercise's appearances, who can do what, the
calendar, the balance) need a little of every episode. A fact is that little, as plain data: it is
worked out when something it was made from has changed, for many episodes in several processes, and
the other episodes stay unread. A page made from a fact changes only where the fact does.
"""

from collections.abc import Callable, Hashable, Mapping
from pathlib import Path
from typing import Any, NamedTuple

from sitegen.model import Episode
from sitegen.pages.inputs import Inputs
from sitegen.pages.page import fingerprint
from sitegen.pages.site import Site
from sitegen.system.cache import load_cached, save_cached
from sitegen.system.parallel import map_in_chunks
from sitegen.system.reads import note, recording

FactMaker = Callable[[Site, Episode], Any]
"""Works out one fact; the result is plain data, or records that pickle and whose ``repr`` says all."""


class EpisodeFacts(NamedTuple):
    """The facts of one episode."""

    values: Mapping[str, Any]
    """By name."""
    digests: Mapping[str, str]
    """Fingerprint of each."""
    read: tuple[str, ...]
    """Names of what they were made from."""
    key: str
    """What those stood for then."""


class FactStore:
    """Facts by episode, with what they were made from. Cached in a folder of the user's caches."""

    def __init__(self, folder: Path | None = None) -> None:
        self._folder = folder
        self._known: dict[str, EpisodeFacts] = {}
        self._site_key = ""
        self._changed: set[Hashable] = set()

    def load(self, site_key: str) -> None:
        """Take what an earlier build cached for the same program, theme and series.yaml."""
        if site_key == self._site_key:
            return
        self._site_key, self._changed = site_key, set()
        known: dict[Any, Any] = load_cached(self._folder, site_key) if self._folder else {}
        self._known = known

    def bring_up_to_date(
        self, site: Site, inputs: Inputs, makers: Mapping[str, FactMaker], jobs: int
    ) -> "Facts":
        """The facts of every episode; those of new and changed ones are worked out now."""
        # Those that are not out yet too: the calendar shows them, and their day will come.
        sessions = site.series.sessions
        before = self._known
        missing = [
            episode
            for episode in sessions
            if (facts := before.get(episode.slug)) is None or facts.key != inputs.key(facts.read)
        ]

        def make(episode: Episode) -> tuple[str, EpisodeFacts]:
            with recording() as read:
                values = {name: maker(site, episode) for name, maker in makers.items()}
            digests = {name: fingerprint(repr(value)) for name, value in values.items()}
            return episode.slug, EpisodeFacts(values, digests, tuple(sorted(read)), inputs.key(read))

        if not before and jobs > 1:
            # From scratch all forms are wanted, by each of the processes that work out facts and pages.
            site.place_all()
        made = dict(map_in_chunks(make, missing, jobs))
        self._known = {e.slug: made.get(e.slug) or before[e.slug] for e in sessions}
        self._changed |= made.keys() | (before.keys() - self._known.keys())
        return Facts(self._known)

    def save(self, jobs: int = 1) -> None:
        """Write what is new to the folder."""
        if self._folder is not None:
            save_cached(self._folder, self._site_key, self._known, self._changed, jobs)
        self._changed = set()


class Facts:
    """The facts of one series."""

    def __init__(self, by_slug: Mapping[str, EpisodeFacts]) -> None:
        self._by_slug = by_slug

    def of(self, episode: Episode, name: str) -> Any:
        """One fact of an episode."""
        note(f"fact {name} {episode.slug}")
        return self._by_slug[episode.slug].values[name]

    def digest(self, slug: str, name: str) -> str:
        """Fingerprint of a fact. KeyError where there is no such episode or fact."""
        return self._by_slug[slug].digests[name]
