"""Cross references: the files' values become the one checked series.

Every reference is resolved here, so that code further on never meets an id that is not there.
"""

from collections.abc import Iterable, Mapping
from typing import Any

from sitegen.model import Details, Episode, Exercise, Series
from sitegen.problems import Location
from sitegen.reading.episode_linking import EpisodeLinker
from sitegen.reading.exercise_linking import ExerciseLinker
from sitegen.reading.files import FileResult, digest_of
from sitegen.reading.folder import SERIES_FILE
from sitegen.reading.own_pictures import pictures_of
from sitegen.reading.read_cache import LinkedBefore
from sitegen.reading.reference_advice import kit_names
from sitegen.reading.reference_checks import ReferenceChecks
from sitegen.reading.shared_library import OpenLibrary, with_library

_LIBRARY_KINDS = ("series", "exercises", "routines")
"""Kinds of files that every episode may rest on."""

OWN_PLACES = frozenset(
    {
        "about",
        "assets",
        "balance",
        "before-you-start",
        "episodes",
        "exercises",
        "kept",
        "media",
        "needs",
        "schedule",
        "sheets",
    }
)
"""Folders of the site that hold its own files; a page in the trainer's words cannot be there."""


class Linker:
    """Turns file results into a series, collecting problems on the way."""

    def __init__(
        self,
        results: Iterable[FileResult],
        files: frozenset[str],
        digests: Mapping[str, str],
        before: LinkedBefore | None = None,
        shared: OpenLibrary | None = None,
    ) -> None:
        self.results = list(results)
        self._shared = shared
        self._digests = digests
        details = next((r.value for r in self.results if r.file == SERIES_FILE), None)
        if details is not None and shared is not None:
            details = with_library(details, shared)
        self._details: Details | None = details
        self._checks = ReferenceChecks(self.results, files, details)
        self.problems = self._checks.problems
        # With names: a file may be called otherwise and have the bytes it had.
        library = [f"{r.file}\0{r.digest}" for r in self.results if r.kind in _LIBRARY_KINDS]
        self.library = digest_of("\n".join(library).encode())
        """Fingerprint of all that episodes may rest on."""
        # What was linked against another library may not hold any more.
        self._before = before if before is not None and before.library == self.library else None
        self._exercises: Mapping[str, Exercise] = {}
        self._by_file: dict[tuple[str, str], Episode] = {}

    def link(self) -> Series | None:
        """The series; None where the problems leave none."""
        linker = self._linked_library()
        episodes = [self._episode(result, linker) for result in self._usable("episodes")]
        self._check_unique(episodes)
        self._check_unusable()
        self._check_pages()
        if self._details is None:
            return None
        for file, location in pictures_of(self._details):
            self._checks.check_file(file, location, "missing-media")
        return Series(
            details=self._details,
            episodes=tuple(sorted((e for e in episodes if e), key=lambda e: (e.number, e.slug))),
            exercises=self._exercises,
            pages=tuple(r.value for r in self._usable("pages")),
            calendar=next((r.value for r in self._usable("calendar")), {}),
            digests=self._digests,
            library=self._shared.library if self._shared else None,
        )

    def _linked_library(self) -> EpisodeLinker:
        """Link exercises and shared blocks, unless they are as they were; gives what links episodes to
        them."""
        routines = self._usable("routines")
        if self._before is not None:
            self._exercises = self._checks.exercises = self._before.exercises
            return EpisodeLinker(routines, self._exercises, self._checks, library_holds=True)
        self._check_demands_of_series()
        self._exercises = ExerciseLinker(self._usable("exercises"), self._checks).link()
        self._checks.exercises = self._exercises
        linker = EpisodeLinker(
            routines, self._exercises, self._checks, library_holds=not self._checks.problems
        )
        for result in routines:
            linker.check_routine(result)
        return linker

    def _episode(self, result: FileResult, linker: EpisodeLinker) -> Episode | None:
        known = self._before.episodes.get((result.file, result.digest)) if self._before else None
        episode = known or linker.link(result)
        if episode is None:
            return None
        linker.check_files(episode)
        # Neither is looked into again before its pages are made: those of ten thousand open at once take
        # several hundred megabytes.
        result.fold()
        episode.fold()
        self._by_file[result.file, result.digest] = episode
        return episode

    def linked(self) -> LinkedBefore | None:
        """What may be used again by a later run; None where there are problems."""
        if self.problems or not all(r.usable for r in self.results):
            return None
        return LinkedBefore(library=self.library, exercises=self._exercises, episodes=self._by_file)

    def _usable(self, kind: str) -> list[FileResult]:
        return [r for r in self.results if r.kind == kind and r.usable]

    # --- checks of the whole -----------------------------------------------------------------

    def _check_pages(self) -> None:
        for page in (r.value for r in self._usable("pages")):
            if page.slug in OWN_PLACES:
                message = f"the site has pages of its own at {page.slug}/"
                advice = f"give the file another name, such as pages/my-{page.slug}.md"
                self._checks.report("address-taken", page.location, message, advice)

    def _check_demands_of_series(self) -> None:
        if self._details is None:
            return
        for index, caution in enumerate(self._details.cautions):
            self._checks.check_caution(caution, self._details.location_at("cautions", index))
        for need in self._details.needs.values():
            location = self._details.location_at("needs", need.id)
            self._checks.check_demands(need.avoids, location.at("avoids"))
            self._checks.check_demands(need.rather_without, location.at("rather_without"))
            self._checks.check_kit(need.has, location.at("has"))

    def _check_unique(self, episodes: list[Episode | None]) -> None:
        for key in ("number", "slug"):
            seen: dict[Any, Episode] = {}
            for episode in (one for one in episodes if one is not None):
                value = getattr(episode, key)
                if value in seen:
                    message = f"the {key} {value} is already that of {seen[value].location.file}"
                    advice = f"give each episode its own {key}"
                    self._checks.report(f"duplicate-{key}", episode.location.at(key), message, advice)
                seen.setdefault(value, episode)

    def _check_unusable(self) -> None:
        """Ids of exercises, shared blocks and kit in files that have other problems: told in the same run."""
        for result in self.results:
            for kind, path, word in result.references:
                location = Location(result.file, path)
                if kind == "exercise" and word not in self._checks.ids["exercises"]:
                    self._checks.unknown_exercise(word, location)
                elif kind == "routine" and word not in self._checks.ids["routines"]:
                    self._checks.unknown_routine(word, location)
                elif kind == "kit" and self._details and word not in self._details.kit:
                    self._checks.unknown("kit", word, kit_names(self._details), location)
