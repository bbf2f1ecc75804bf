"""What every page is made with: the series, its study, the theme, and keys of what changed."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sitegen.model import Appearance, Episode, Exercise, Item, Series
from sitegen.pages.page import fingerprint
from sitegen.pages.phrases import Phrases
from sitegen.pages.theme import Theme
from sitegen.reading.captions.cues import Cue
from sitegen.study.forms import FormKey, Forms, forms_of
from sitegen.study.suitability import Suitability
from sitegen.study.timing import SessionTime, session_time

if TYPE_CHECKING:
    from sitegen.pages.facts import Facts


@dataclass(frozen=True, slots=True)
class NavEntry:
    """A link of the menu."""

    address: str
    label: str


class Site:
    """The series with its theme: looks up, renders and gives keys; holds no page's own logic."""

    def __init__(
        self,
        series: Series,
        cues: Mapping[str, tuple[Cue, ...]],
        theme: Theme,
        code: str,
        posters: Mapping[str, Path] | None = None,
    ) -> None:
        self.series = series
        self.posters = posters or {}
        """Pictures made from videos whose episode gives no poster, by video file."""
        self.details = series.details
        self.cues = cues
        self.theme = theme
        self.phrases = Phrases(theme.strings, series.details.units, series.details.kit)
        self.key = fingerprint(
            code,
            theme.digest,
            series.digests.get("series.yaml"),
            *((p.slug, p.title, p.menu) for p in series.pages),
        )
        """Part of every page's key: the program, the theme, series.yaml and the menu."""
        self._timed: tuple[Episode, SessionTime] | None = None
        self._exercise_keys: dict[str, str] = {}
        self._episode_keys: dict[str, str] = {}
        self._own_keys: dict[str, str] = {}
        self._outline_keys: dict[str, str] = {}
        self._media = _media_addresses(series)
        self.facts: Facts
        """Small answers about every episode; set once they are worked out."""

    # --- looking up ------------------------------------------------------------------------

    @cached_property
    def forms(self) -> Forms:
        """Every form of every exercise."""
        return forms_of(self.series.exercises)

    @cached_property
    def suitability(self) -> Suitability:
        """Answers who can do what."""
        return Suitability(self.details, self.forms)

    def keep_from(self, before: "Site") -> None:
        """Use again what an earlier site worked out from the same exercises and needs."""
        if before.series.exercises is self.series.exercises and before.details is self.details:
            self.__dict__ |= {
                name: before.__dict__[name] for name in ("forms", "suitability") if name in before.__dict__
            }

    @cached_property
    def appearances(self) -> Mapping[str, tuple[Appearance, ...]]:
        """By exercise, every showing in order of episodes and blocks.

        A variant that is another exercise shows both.
        """
        found: dict[str, list[Appearance]] = {exercise: [] for exercise in self.series.exercises}
        for episode in self.series.episodes:
            for block in episode.blocks:
                for item in block.items:
                    shown = Appearance(episode=episode, block=block, item=item)
                    for exercise in self._exercises_of(item):
                        found[exercise].append(shown)
        return {exercise: tuple(shown) for exercise, shown in found.items()}

    def _exercises_of(self, item: Item) -> set[str]:
        if item.variant is None:
            return {item.exercise}
        return {item.exercise, self.forms[FormKey(item.exercise, item.variant)].exercise}

    def exercise(self, exercise_id: str) -> Exercise:
        """The exercise with that id."""
        return self.series.exercises[exercise_id]

    def media(self, file: str) -> str:
        """Address of a content file that is copied into the site."""
        return self._media[file]

    @property
    def media_files(self) -> Mapping[str, str]:
        """Addresses by file of all media."""
        return self._media

    def made_poster(self, episode: Episode) -> str:
        """Address of the poster made from an episode's video; empty where there is none."""
        place = self.posters.get((episode.video.file if episode.video else None) or "")
        return f"media/{place.name}" if place and episode.poster is None else ""

    def form(self, exercise: str, variant: str | None) -> Any:
        """A form of an exercise."""
        return self.forms[FormKey(exercise, variant)]

    def time_of(self, episode: Episode) -> SessionTime:
        """How long an episode takes; the last answer is kept, for several facts of one episode ask."""
        if self._timed is None or self._timed[0] is not episode:
            self._timed = (episode, session_time(self.details, self.forms, episode))
        return self._timed[1]

    # --- keys ------------------------------------------------------------------------------

    def digest(self, files: Iterable[str]) -> str:
        """Fingerprint of several content files."""
        digests = self.series.digests
        return fingerprint(*((file, digests.get(file)) for file in files))

    def exercise_key(self, exercise_id: str) -> str:
        """Fingerprint of an exercise and of those its variants are."""
        known = self._exercise_keys.get(exercise_id)
        if known is None:
            known = self._exercise_keys[exercise_id] = self.digest(self._exercise_files(exercise_id))
        return known

    def outline_key(self, exercise_id: str) -> str:
        """Fingerprint of what lists and titles say of an exercise; a reworded cue leaves it as it is."""
        known = self._outline_keys.get(exercise_id)
        if known is None:
            exercise = self.series.exercises[exercise_id]
            linked = (self.series.exercises[link].outline for link in exercise.links)
            known = self._outline_keys[exercise_id] = fingerprint(exercise.outline, *linked)
        return known

    def _exercise_files(self, exercise_id: str) -> list[str]:
        files: list[str] = []
        waiting = [exercise_id]
        while waiting:
            exercise = self.series.exercises[waiting.pop()]
            if exercise.spot.file not in files:
                files += [exercise.spot.file, *exercise.media]
                waiting += exercise.links
        return files

    def episode_key(self, episode: Episode) -> str:
        """Fingerprint of an episode with its routines, exercises, captions and media."""
        known = self._episode_keys.get(episode.slug)
        if known is None:
            exercises = map(self.exercise_key, episode.exercises)
            known = self._episode_keys[episode.slug] = fingerprint(self._own_key(episode), *exercises)
        return known

    def episode_outline_key(self, episode: Episode) -> str:
        """The same with its exercises' outlines only: for files that show none of their cues."""
        return fingerprint(self._own_key(episode), *map(self.outline_key, episode.exercises))

    def _own_key(self, episode: Episode) -> str:
        """Fingerprint of an episode with all but its exercises."""
        known = self._own_keys.get(episode.slug)
        if known is None:
            files = [episode.spot.file, *(f"routines/{routine}.yaml" for routine in episode.routines)]
            files += [f for f in (episode.captions, episode.video and episode.video.file) if f]
            files += [episode.poster.file] if episode.poster else []
            known = self._own_keys[episode.slug] = fingerprint(
                episode.slug, self.digest(files), *self._media_facts(episode)
            )
        return known

    def _media_facts(self, episode: Episode) -> tuple[object, ...]:
        """What is not in a content file: the length that ffprobe found, the poster that ffmpeg made."""
        return episode.video and episode.video.length, self.made_poster(episode)

    # --- rendering -------------------------------------------------------------------------

    @cached_property
    def nav(self) -> tuple[NavEntry, ...]:
        """The menu: five entries at most, so that it is one line on a wide screen and short on a phone."""
        words = self.theme.strings.nav
        entries = [NavEntry("index.html", words.episodes), NavEntry("exercises/index.html", words.exercises)]
        if self.details.needs:
            entries.append(NavEntry("needs/index.html", words.needs))
        entries += [
            NavEntry("schedule/index.html", words.schedule),
            NavEntry("about/index.html", words.about),
        ]
        return tuple(entries)

    @cached_property
    def _assets(self) -> dict[str, str]:
        return {name: asset.address for name, asset in self.theme.assets.items()}

    def render(self, template: str, address: str, **data: Any) -> bytes:
        """A page of the site from a template of the theme.

        Templates get ``root`` (the way back to the site's root, so that the site works in any
        folder), ``site``, ``nav``, ``assets`` and the page's own data.
        """
        page = self.theme.environment.get_template(template)
        return page.render(self.context(address, **data)).encode()

    def context(self, address: str, **data: Any) -> dict[str, Any]:
        """What a template is given for a page."""
        return {
            "root": "../" * address.count("/"),
            "address": address,
            "canonical": self.public(address),
            "site": self.details,
            "language": self.details.language,
            "nav": self.nav,
            "assets": self._assets,
        } | data

    def public(self, address: str) -> str:
        """The absolute address where a page is published."""
        return self.details.address + address.removesuffix("index.html")


def _media_addresses(series: Series) -> dict[str, str]:
    """Media keep their name and gain a part of their fingerprint: a changed file is a new address."""
    addresses = {}
    for file, digest in series.digests.items():
        folder, _, name = file.rpartition("/")
        if folder.split("/")[0] not in ("exercises", "routines", "episodes", "pages", "captions") and folder:
            stem, _, ending = name.rpartition(".")
            addresses[file] = f"media/{stem}.{digest[:10]}.{ending}"
    return addresses
