"""Small answers about single episodes, worked out once and kept between builds.

Pages about the whole series (the home page, an exercise's appearances, who can do what, the
calendar, the balance) need a little of every episode. A fact is that little, as plain data: it is
worked out when its episode is new or changed, for many episodes in several processes, and
the other episodes stay packed.
"""

from collections.abc import Callable, Hashable, Mapping
from pathlib import Path
from typing import Any

from sitegen.model import Episode
from sitegen.pages.page import fingerprint
from sitegen.pages.site import Site
from sitegen.system.kept import load_kept, save_kept
from sitegen.system.parallel import map_in_chunks

FactMaker = Callable[[Site, Episode], Any]
"""Works out one fact; the result is plain data or records that pickle, and holds no theme words
that are not in the site's key."""


class FactStore:
    """Facts by episode, with what they were made from. Kept in a folder of the user's caches."""

    def __init__(self, folder: Path | None = None) -> None:
        self._folder = folder
        self._kept: dict[str, dict[str, Any]] = {}
        self._site_key = ""
        self._changed: set[Hashable] = set()

    def load(self, site_key: str) -> None:
        """Take what an earlier build kept for the same program, theme and series.yaml."""
        if site_key == self._site_key:
            return
        self._site_key, self._changed = site_key, set()
        kept: dict[Any, Any] = load_kept(self._folder, site_key) if self._folder else {}
        self._kept = kept

    def bring_up_to_date(self, site: Site, makers: Mapping[str, FactMaker], jobs: int) -> "Facts":
        """The facts of every episode; those of new and changed ones are worked out now."""
        # Those that are not out yet too: the calendar shows them, and their day will come.
        sessions = site.series.sessions
        keys = {episode.slug: site.episode_key(episode) for episode in sessions}
        missing = [episode for episode in sessions if keys[episode.slug] not in self._kept]

        def make(episode: Episode) -> tuple[str, dict[str, Any]]:
            return keys[episode.slug], {name: maker(site, episode) for name, maker in makers.items()}

        made = dict(map_in_chunks(make, missing, jobs))
        by_slug = {slug: made.get(key) or self._kept[key] for slug, key in keys.items()}
        kept = {key: by_slug[slug] for slug, key in keys.items()}
        self._changed |= made.keys() | (self._kept.keys() - kept.keys())
        self._kept = kept
        return Facts(by_slug, keys)

    def save(self, jobs: int = 1) -> None:
        """Write what is new to the folder."""
        if self._folder is not None:
            save_kept(self._folder, self._site_key, self._kept, self._changed, jobs)
        self._changed = set()


class Facts:
    """The facts of one series."""

    def __init__(self, by_slug: Mapping[str, Mapping[str, Any]], keys: Mapping[str, str]) -> None:
        self._by_slug = by_slug
        self._keys = keys

    def of(self, episode: Episode, name: str) -> Any:
        """One fact of an episode."""
        return self._by_slug[episode.slug][name]

    def key(self, name: str, *episodes: Episode) -> str:
        """Fingerprint of a fact over some episodes: for keys of pages made from it."""
        return fingerprint(name, *(repr(self.of(episode, name)) for episode in episodes))
