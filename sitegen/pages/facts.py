"""Small answers about single episodes, worked out once and cached between builds.

Pages about the whole series (the home page, an exercise's appearances, who can do what, the
calendar, the balance) need a little of every episode. A fact is that little, as plain data: it is
worked out when something it was made from has changed, for many episodes in several processes, and
the other episodes stay unread. A page made from a fact changes only where the fact does.

Facts are kept packed, and opened where a page asks for one: those of ten thousand episodes take a
gigabyte when they are open (most of it what episodes become for each need), and a build after one edit asks
for few. Of a large one there is a short one too, of which the pages can be planned without opening it.
"""

import pickle
import zlib
from collections.abc import Callable, Hashable, Mapping, Sequence
from functools import cached_property, lru_cache
from pathlib import Path
from typing import Any, NamedTuple

from sitegen.model import Episode
from sitegen.pages.inputs import Inputs
from sitegen.pages.page import Gateway, fingerprint
from sitegen.pages.site import Site
from sitegen.system.cache import load_cached, save_cached
from sitegen.system.noted_reads import note, recording, unrecorded
from sitegen.system.parallel import map_in_chunks

FactMaker = Callable[[Site, Episode], Any]
"""Works out one fact; the result is plain data, or records that pickle and whose ``repr`` says all."""


class ShortFact(NamedTuple):
    """A fact that follows from a large one."""

    of: str
    """Name of the large one."""
    make: Callable[[Any], Any]
    """Gives it from the other's value."""


ByExercise = tuple[tuple[str, Any], ...]
"""A fact about the exercises of an episode: ids with values; an id may come again."""


def told(by_exercise: ByExercise) -> tuple[tuple[str, str], ...]:
    """No more of such a fact than the fingerprint of each value."""
    return tuple((exercise, fingerprint(repr(value))) for exercise, value in by_exercise)


_QUICK = 1
"""Level of compression: the least, which makes a third to a tenth of facts already."""
_LAST_OPENED = 128
"""So many facts are kept open: more than the sessions that are shown together (``pages.needs.parts``), so
that the pages about them for one need after the other open each once."""


class EpisodeFacts(NamedTuple):
    """The facts of one episode."""

    values: Mapping[str, bytes]
    """By name, each packed."""
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
        self,
        site: Site,
        inputs: Inputs,
        makers: Mapping[str, FactMaker],
        short: Mapping[str, ShortFact],
        jobs: int,
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
            values |= {name: one.make(values[one.of]) for name, one in short.items()}
            digests = {name: fingerprint(repr(value)) for name, value in values.items()}
            return episode.slug, EpisodeFacts(
                {name: _packed(value) for name, value in values.items()},
                digests,
                tuple(sorted(read)),
                inputs.key(read),
            )

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


def _packed(value: Any) -> bytes:
    return zlib.compress(pickle.dumps(value, pickle.HIGHEST_PROTOCOL), _QUICK)


@lru_cache(maxsize=_LAST_OPENED)
def _opened(packed: bytes) -> Any:
    return pickle.loads(zlib.decompress(packed))


class Facts:
    """The facts of one series."""

    def __init__(self, by_slug: Mapping[str, EpisodeFacts]) -> None:
        self._by_slug = by_slug

    def of(self, episode: Episode, name: str) -> Any:
        """One fact of an episode."""
        note(f"fact {name} {episode.slug}")
        return _opened(self._by_slug[episode.slug].values[name])

    def digest(self, slug: str, name: str) -> str:
        """Fingerprint of a fact. KeyError where there is no such episode or fact."""
        return self._by_slug[slug].digests[name]


class FactByExercise(Gateway):
    """What one fact says of each exercise, in the order of the series.

    It is told by the fingerprints of the values (:func:`told`), and so is what is opened of it: opening is
    not noted, or an exercise's page would be made again for whatever else changes in its sessions.
    """

    def __init__(self, site: Site, name: str, short: str) -> None:
        self._site, self._name = site, name
        digests: dict[str, list[str]] = {exercise: [] for exercise in site.series.exercises}
        for episode in site.series.episodes:
            for exercise, digest in site.facts.of(episode, short):
                digests[exercise].append(digest)
        self.of: Mapping[str, FactOfExercise] = {
            exercise: FactOfExercise(self, exercise, fingerprint(name, *found))
            for exercise, found in digests.items()
        }
        self.identity = fingerprint(name, *(f"{key} {one.identity}" for key, one in self.of.items()))

    @cached_property
    def values(self) -> Mapping[str, Sequence[Any]]:
        """By exercise; all are opened when the first is wanted."""
        found: dict[str, list[Any]] = {exercise: [] for exercise in self.of}
        with unrecorded():
            for episode in self._site.series.episodes:
                for exercise, value in self._site.facts.of(episode, self._name):
                    found[exercise].append(value)
        return found


class FactOfExercise(Gateway):
    """What one fact says of one exercise."""

    def __init__(self, whole: FactByExercise, exercise: str, identity: str) -> None:
        self._whole, self._exercise, self.identity = whole, exercise, identity

    @property
    def values(self) -> Sequence[Any]:
        """For each time that an episode shows it."""
        return self._whole.values[self._exercise]
