"""What each name that is noted while a page is made (``sitegen.system.noted_reads``) stands for at present.

=====================  ==============================================================================
``list NAME``          which episodes (``episodes``, ``upcoming``, ``sessions``), exercises or pages there
                       are, and in which order; ``list calendar`` is calendar.yaml
``title SLUG``         number, title and release date of an episode
``episode SLUG``       all that lists show of it
``session SLUG``       all that its file and its routines say
``exercise ID``        what lists show of an exercise and of those that its variants lead on to
``words ID``           all that their files say
``page SLUG``          a page in the trainer's own words
``cues FILE``          captions
``media FILE``         the address of a picture or video in the site
``poster FILE``        the picture made from a video
``fact NAME SLUG``     what is worked out for an episode once (``sitegen.pages.facts``)
``every LIST KIND``    the list, and ``KIND SLUG`` of every episode in it (see :meth:`Inputs.shortened`)
=====================  ==============================================================================

What every page depends on is not noted: the program, its libraries, the theme and series.yaml are
in ``Site.key``.
"""

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Mapping
from functools import cached_property

from sitegen.model import Episode, FreePage
from sitegen.pages.page import fingerprint
from sitegen.pages.site import Site
from sitegen.system.noted_reads import unrecorded

_MANY = 100
"""So many names of one kind are looked at whether they are those of all episodes: fewer cost nothing."""
_LISTS = ("episodes", "sessions")


class Inputs:
    """Fingerprints of what the names stand for in one site; worked out when one is asked for."""

    def __init__(self, site: Site) -> None:
        self._site = site
        self._series = site.series
        self._known: dict[str, str] = {}
        self._kinds: Mapping[str, Callable[[str], str]] = {
            "list": self._list,
            "title": self._title,
            "episode": lambda slug: self._episodes[slug].outline,
            "session": self._session,
            "exercise": self._exercise,
            "words": self._words,
            "page": lambda slug: self._file(self._pages[slug].location.file),
            "cues": self._file,
            "media": site.media,
            "poster": site.poster_of,
            "fact": self._fact,
            "every": self._every,
        }

    def key(self, names: Iterable[str]) -> str:
        """Fingerprint of what some names stand for together."""
        known = self._known
        with unrecorded():
            return fingerprint(*(known.get(name) or self._digest(name) for name in sorted(names)))

    def shortened(self, names: Collection[str]) -> set[str]:
        """The names, one instead of those of one kind for every episode that there is.

        A list of the whole series has ten thousand of each kind, which would be looked up one by one.
        """
        left = set(names)
        if len(left) < _MANY:
            return left
        kinds = Counter(name.rpartition(" ")[0] for name in names)
        for kind in [kind for kind, count in kinds.items() if count >= _MANY]:
            for listed in _LISTS:
                of_all = self._of_every(listed, kind)
                if len(of_all) >= _MANY and left.issuperset(of_all):
                    left.difference_update(of_all)
                    left.add(f"every {listed} {kind}")
        return left

    def _of_every(self, listed: str, kind: str) -> list[str]:
        with unrecorded():
            return [f"{kind} {episode.slug}" for episode in getattr(self._series, listed)]

    def _every(self, rest: str) -> str:
        listed, _, kind = rest.partition(" ")
        return fingerprint(self._list(listed), self.key(self._of_every(listed, kind)))

    def _digest(self, name: str) -> str:
        kind, _, rest = name.partition(" ")
        try:
            digest = self._kinds[kind](rest)
        except KeyError:  # it is not there any more, or is of another version of the program
            digest = "nothing"
        self._known[name] = digest
        return digest

    @cached_property
    def _episodes(self) -> Mapping[str, Episode]:
        return {episode.slug: episode for episode in self._series.sessions}

    @cached_property
    def _pages(self) -> Mapping[str, FreePage]:
        return {page.slug: page for page in self._series.pages}

    def _file(self, file: str) -> str:
        return self._series.digests[file]

    def _list(self, name: str) -> str:
        if name == "calendar":
            return self._series.digests.get("calendar.yaml", "none")
        if name == "exercises":
            return fingerprint(*self._series.exercises)
        return fingerprint(*(one.slug for one in getattr(self._series, name)))

    def _title(self, slug: str) -> str:
        episode = self._episodes[slug]
        return fingerprint(episode.number, episode.title, episode.released)

    def _session(self, slug: str) -> str:
        episode = self._episodes[slug]
        files = (episode.location.file, *map(self._series.file_of_routine, episode.routines))
        return fingerprint(*((file, self._file(file)) for file in files))

    def _exercise(self, exercise: str) -> str:
        return fingerprint(*(self._series.exercises[one].outline for one in self._within_reach(exercise)))

    def _words(self, exercise: str) -> str:
        files = (self._series.exercises[one].location.file for one in self._within_reach(exercise))
        return fingerprint(*((file, self._file(file)) for file in files))

    def _within_reach(self, exercise: str) -> list[str]:
        """The exercise and all that its variants, and theirs, are."""
        found = [exercise]
        for one in found:  # grows while it is walked
            found += [link for link in self._series.exercises[one].links if link not in found]
        return found

    def _fact(self, rest: str) -> str:
        name, _, slug = rest.partition(" ")
        return self._site.facts.digest(slug, name)
