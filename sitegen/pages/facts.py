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
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Any, NamedTuple, Protocol

from sitegen.model import Episode
from sitegen.pages.page import Gateway, fingerprint
from sitegen.pages.site import Site
from sitegen.system.noted_reads import note, unrecorded

FactMaker = Callable[[Site, Episode], Mapping[str, Any]]
"""Works out all facts of an episode that do not follow from another one, by name.

Each is plain data, or records that pickle and whose ``repr`` says all.
"""


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


def packed(value: Any) -> bytes:
    """A fact as it is kept."""
    return zlib.compress(pickle.dumps(value, pickle.HIGHEST_PROTOCOL), _QUICK)


@lru_cache(maxsize=_LAST_OPENED)
def opened(one: bytes) -> Any:
    """A packed fact."""
    return pickle.loads(zlib.decompress(one))


Merged = Mapping[str, tuple[str, tuple[str, ...]]]
"""For each exercise one fingerprint of what some episodes say of it, and the slugs of those that do."""


def merged(short: Mapping[str, ByExercise]) -> Merged:
    """What episodes say of exercises by a short fact (:func:`told`), all together."""
    said: dict[str, list[str]] = {}
    slugs: dict[str, dict[str, None]] = {}
    for slug, by_exercise in sorted(short.items()):
        for exercise, digest in by_exercise:
            said.setdefault(exercise, []).append(f"{slug} {digest}")
            slugs.setdefault(exercise, {})[slug] = None
    return {exercise: (fingerprint(*one), tuple(slugs[exercise])) for exercise, one in said.items()}


class ManyFacts(Protocol):
    """What is known of the facts of some episodes without opening any."""

    @property
    def digests(self) -> Mapping[str, Mapping[str, str]]:
        """Fingerprint of each by slug and name."""

    @property
    def by_exercise(self) -> Mapping[str, Merged]:
        """For facts about exercises, by name."""


class Facts:
    """The facts of one series."""

    def __init__(self, known: Iterable[ManyFacts], open_one: Callable[[str, str], bytes]) -> None:
        """``open_one`` gives a fact, packed, by the slug of its episode and its name."""
        self._known = list(known)
        self._open = open_one
        self._digests = {slug: digests for one in self._known for slug, digests in one.digests.items()}

    def of(self, episode: Episode, name: str) -> Any:
        """One fact of an episode."""
        note(f"fact {name} {episode.slug}")
        return opened(self._open(episode.slug, name))

    def digest(self, slug: str, name: str) -> str:
        """Fingerprint of a fact. KeyError where there is no such episode or fact."""
        return self._digests[slug][name]

    def by_exercise(self, short: str) -> Iterator[Merged]:
        """What all episodes say of exercises by a short fact, those among them that are not out too."""
        for one in self._known:
            yield one.by_exercise[short]


class FactByExercise(Gateway):
    """What one fact says of each exercise, in the order of the series.

    It is told by the fingerprints of the values (:func:`told`), and so is what is opened of it: opening is
    not noted, or an exercise's page would be made again for whatever else changes in its sessions.
    """

    def __init__(self, site: Site, name: str, short: str) -> None:
        self._site, self._name = site, name
        said: dict[str, list[str]] = {exercise: [] for exercise in site.series.exercises}
        showing: dict[str, set[str]] = {exercise: set() for exercise in said}
        for one in site.facts.by_exercise(short):
            for exercise, (digest, slugs) in one.items():
                said[exercise].append(digest)
                showing[exercise].update(slugs)
        self._places = {episode.slug: place for place, episode in enumerate(site.series.episodes)}
        self._sessions = {exercise: self._in_order(slugs) for exercise, slugs in showing.items()}
        self.of: Mapping[str, FactOfExercise] = {
            # With the sessions: which of them are out, and their order, is no part of what they say.
            exercise: FactOfExercise(self, exercise, fingerprint(name, *sorted(said[exercise]), *sessions))
            for exercise, sessions in self._sessions.items()
        }
        self.identity = fingerprint(name, *(f"{key} {one.identity}" for key, one in self.of.items()))
        self._open: dict[str, ByExercise] = {}

    def _in_order(self, slugs: Iterable[str]) -> list[str]:
        return sorted(filter(self._places.__contains__, slugs), key=self._places.__getitem__)

    def values(self, exercise: str) -> list[Any]:
        """For each time that an episode shows the exercise."""
        return [
            value
            for slug in self._sessions[exercise]
            for shown, value in self._opened(slug)
            if shown == exercise
        ]

    def _opened(self, slug: str) -> ByExercise:
        known = self._open.get(slug)
        if known is None:
            with unrecorded():
                known = self._site.facts.of(self._site.series.episodes[self._places[slug]], self._name)
            self._open[slug] = known
        return known


class FactOfExercise(Gateway):
    """What one fact says of one exercise."""

    def __init__(self, whole: FactByExercise, exercise: str, identity: str) -> None:
        self._whole, self._exercise, self.identity = whole, exercise, identity

    @property
    def values(self) -> Sequence[Any]:
        """For each time that an episode shows it."""
        return self._whole.values(self._exercise)
