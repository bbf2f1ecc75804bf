"""Facts cached between builds, on shelves: those of some sessions are decided and opened together.

What all facts of a shelf were made from is kept with it, so that one comparison tells that they are what they
were. What pages about the whole series are planned of stands on the shelf; the facts themselves are folded.
"""

import zlib
from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar, NamedTuple

from sitegen.model import Episode
from sitegen.pages.facts import FactMaker, Facts, ShortFact, merged, opened, packed, told
from sitegen.pages.inputs import Inputs
from sitegen.pages.page import fingerprint
from sitegen.pages.site import Site
from sitegen.stored_records import FoldingRecord
from sitegen.system.cache import load_cached, save_cached
from sitegen.system.noted_reads import recording
from sitegen.system.parallel import map_in_chunks

_SHELVES = 128
"""Over so many sessions are spread by their slugs, 80 of ten thousand on each. More would cost a comparison
each, fewer more work on what has not changed beside what has."""


class EpisodeFacts(NamedTuple):
    """The facts of one episode."""

    values: Mapping[str, bytes]
    """By name, each packed."""
    read: tuple[str, ...]
    """Names of what they were made from."""
    key: str
    """What those stood for then."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf(FoldingRecord):
    """The facts of some episodes."""

    folded: ClassVar[tuple[str, ...]] = ("facts",)

    read: tuple[str, ...]
    """Names of what any of them was made from."""
    key: str
    """What those stood for then."""
    digests: Mapping[str, Mapping[str, str]]
    """Fingerprint of each by slug and name."""
    by_exercise: Mapping[str, Mapping[str, tuple[str, tuple[str, ...]]]]
    """For facts about exercises, by name: what all say together of each (``pages.facts.merged``)."""
    facts: Mapping[str, EpisodeFacts]
    """By slug."""


class FactStore:
    """Facts by episode, with what they were made from. Cached in a folder of the user's caches."""

    def __init__(self, folder: Path | None = None) -> None:
        self._folder = folder
        self._shelves: dict[Hashable, Shelf] = {}
        self._site_key = ""
        self._changed: set[Hashable] = set()

    def load(self, site_key: str) -> None:
        """Take what an earlier build cached for the same program, theme and series.yaml."""
        if site_key == self._site_key:
            return
        self._site_key, self._changed = site_key, set()
        self._shelves = load_cached(self._folder, site_key) if self._folder else {}

    def bring_up_to_date(
        self,
        site: Site,
        inputs: Inputs,
        facts_of: FactMaker,
        short: Mapping[str, ShortFact],
        jobs: int,
    ) -> Facts:
        """The facts of every episode; those of new and changed ones are worked out now."""
        # Those that are not out yet too: the calendar shows them, and their day will come.
        on_shelf: dict[Hashable, list[Episode]] = {}
        for episode in site.series.sessions:
            on_shelf.setdefault(_shelf_of(episode.slug), []).append(episode)
        before = self._shelves
        changed = [
            number
            for number, episodes in on_shelf.items()
            if not _is_current(before.get(number), episodes, inputs)
        ]
        known = {number: dict(before[number].facts) if number in before else {} for number in changed}
        missing = [
            episode
            for number in changed
            for episode in on_shelf[number]
            if (facts := known[number].get(episode.slug)) is None or facts.key != inputs.key(facts.read)
        ]

        def make(episode: Episode) -> tuple[str, EpisodeFacts, Mapping[str, str]]:
            with recording() as read:
                values = dict(facts_of(site, episode))
            values |= {name: one.make(values[one.of]) for name, one in short.items()}
            digests = {name: fingerprint(repr(value)) for name, value in values.items()}
            folded = {name: packed(value) for name, value in values.items()}
            return episode.slug, EpisodeFacts(folded, tuple(sorted(read)), inputs.key(read)), digests

        if not before and jobs > 1:
            # From scratch all forms are wanted, by each of the processes that work out facts and pages.
            site.place_all()
        digests = {number: dict(before[number].digests) if number in before else {} for number in changed}
        for slug, facts, of_episode in map_in_chunks(make, missing, jobs):
            known[_shelf_of(slug)][slug], digests[_shelf_of(slug)][slug] = facts, of_episode
        about_exercises = [name for name, one in short.items() if one.make is told]
        for number in changed:
            slugs = [episode.slug for episode in on_shelf[number]]
            self._shelves[number] = _shelf(slugs, known[number], digests[number], about_exercises, inputs)
        gone = before.keys() - on_shelf.keys()
        self._shelves = {number: self._shelves[number] for number in on_shelf}
        self._changed |= {*changed, *gone}
        return Facts(self._shelves.values(), self._open)

    def _open(self, slug: str, name: str) -> bytes:
        return self._shelves[_shelf_of(slug)].facts[slug].values[name]

    def save(self, jobs: int = 1) -> None:
        """Write what is new to the folder."""
        if self._folder is not None:
            save_cached(self._folder, self._site_key, self._shelves, self._changed, jobs)
        self._changed = set()


def _shelf_of(slug: str) -> int:
    return zlib.crc32(slug.encode()) % _SHELVES


def _is_current(shelf: Shelf | None, episodes: Iterable[Episode], inputs: Inputs) -> bool:
    return (
        shelf is not None
        and shelf.digests.keys() == {episode.slug for episode in episodes}
        and shelf.key == inputs.key(shelf.read)
    )


def _shelf(
    slugs: Iterable[str],
    facts: Mapping[str, EpisodeFacts],
    digests: Mapping[str, Mapping[str, str]],
    about_exercises: Iterable[str],
    inputs: Inputs,
) -> Shelf:
    kept = {slug: facts[slug] for slug in slugs}
    read = sorted({name for one in kept.values() for name in one.read})
    return Shelf(
        read=tuple(read),
        key=inputs.key(read),
        digests={slug: digests[slug] for slug in kept},
        by_exercise={
            name: merged({slug: opened(one.values[name]) for slug, one in kept.items()})
            for name in about_exercises
        },
        facts=kept,
    )
