"""Cross references: the files' values become the one checked series.

Every reference is resolved here, so that code further on never meets an id that is not there.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import cached_property
from typing import Any

from sitegen.model import Block, Caution, Details, Episode, Exercise, Item, Series, Variant
from sitegen.problems import Location, Problem, found
from sitegen.reading.files import FileResult, digest_of
from sitegen.reading.folder import SERIES_FILE, id_of, slug_of
from sitegen.reading.loads import placed
from sitegen.reading.read_cache import Linked
from sitegen.reading.references import (
    demand_advice,
    exercise_advice,
    exercise_names,
    id_advice,
    kit_names,
    meant_id,
    muscle_advice,
    need_names,
)
from sitegen.reading.shared_library import OpenLibrary, with_library
from sitegen.reading.suggestions import meanings, nearest
from sitegen.reading.timeline import check_times
from sitegen.study.body.derived import with_derived_demands
from sitegen.study.body.pose import at_heights
from sitegen.study.body.things import heights_from
from sitegen.study.forms import Form, FormKey, find_cycles, forms_of
from sitegen.vocabulary import MUSCLE_REGIONS

_LIBRARY_KINDS = ("series", "exercises", "routines")
"""Kinds of files that every episode may rest on."""

_COMMON = {"kit": "kit"}
"""Headings of the table of common names, by what an id is of."""
_MOST_SUGGESTIONS = 200
"""Most problems of a series for which near words are looked for."""

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


def _variant_names(variants: Iterable[Variant]) -> Mapping[str, tuple[str, ...]]:
    return {variant.id: (variant.name,) for variant in variants}


class Linker:
    """Turns file results into a series, collecting problems on the way."""

    def __init__(
        self,
        results: Iterable[FileResult],
        files: frozenset[str],
        digests: Mapping[str, str],
        before: Linked | None = None,
        shared: OpenLibrary | None = None,
    ) -> None:
        self.results = list(results)
        self.files = files
        """Every file of the content folder, and of the shared library."""
        self._shared = shared
        self.digests = digests
        self.problems: list[Problem] = []
        self._names = {
            kind: {id_of(r.file) for r in self.results if r.kind == kind}
            for kind in ("exercises", "routines")
        }
        """Ids by kind, unusable files included: a reference to one is no second mistake."""
        self.details: Details | None = None
        self.exercises: Mapping[str, Exercise] = {}
        # With names: a file may be called otherwise and have the bytes it had.
        library = [f"{r.file}\0{r.digest}" for r in self.results if r.kind in _LIBRARY_KINDS]
        self.library = digest_of("\n".join(library).encode())
        self._before = before if before is not None and before.library == self.library else None
        self._by_file: dict[tuple[str, str], Episode] = {}
        self._broken_library = False

    def link(self) -> Series | None:
        """The series; None where the problems leave none."""
        details = next((r.value for r in self.results if r.file == SERIES_FILE), None)
        if details is not None and self._shared is not None:
            details = with_library(details, self._shared)
        self.details = details
        if self._before is not None:
            self.exercises = self._before.exercises
        else:
            self._check_demands_of_series()
            self._link_exercises()
            for result in self._usable("routines"):
                self._check_items(result.value["items"], Location(result.file))
                self._with_kit(result.value["items"], Location(result.file))
        episodes = [self._episode(result) for result in self._usable("episodes")]
        self._check_unique(episodes)
        self._check_unusable()
        self._check_pages()
        if details is None:
            return None
        self._check_own_pictures(details)
        return Series(
            details=details,
            episodes=tuple(sorted((e for e in episodes if e), key=lambda e: (e.number, e.slug))),
            exercises=self.exercises,
            pages=tuple(r.value for r in self._usable("pages")),
            calendar=next((r.value for r in self._usable("calendar")), {}),
            digests=self.digests,
            library=self._shared.library if self._shared else None,
        )

    def _check_pages(self) -> None:
        for page in (r.value for r in self._usable("pages")):
            if page.slug in OWN_PLACES:
                message = f"the site has pages of its own at {page.slug}/"
                advice = f"give the file another name, such as pages/my-{page.slug}.md"
                self._report("address-taken", page.location, message, advice)

    def _check_own_pictures(self, details: Details) -> None:
        logo, photo = details.look.logo, details.trainer.photo
        if logo:
            self._check_file(logo.file, details.location.at("look", "logo", "file"), "missing-media")
        if logo and logo.dark:
            self._check_file(logo.dark, details.location.at("look", "logo", "dark"), "missing-media")
        if photo:
            self._check_file(photo.file, details.location.at("trainer", "photo", "file"), "missing-media")

    def linked(self) -> Linked | None:
        """What may be used again by a later run; None where there are problems."""
        if self.problems or not all(r.usable for r in self.results):
            return None
        return Linked(library=self.library, exercises=self.exercises, episodes=self._by_file)

    @cached_property
    def _heights(self) -> Mapping[str, float]:
        """Of the things that poses use, as far as the series sets them."""
        return heights_from(self.details.heights) if self.details is not None else {}

    @cached_property
    def forms(self) -> Mapping[FormKey, Form]:
        """All forms; none where a reference among the exercises does not hold."""
        return {} if self._broken_library else forms_of(self.exercises)

    def _usable(self, kind: str) -> list[FileResult]:
        return [r for r in self.results if r.kind == kind and r.usable]

    def _report(
        self, check: str, location: Location, message: str, advice: str = "", instead: str = ""
    ) -> None:
        self.problems.append(found("problem", check, location, message, advice, instead))

    # --- exercises -------------------------------------------------------------------------

    def _link_exercises(self) -> None:
        raw = {id_of(r.file): r for r in self._usable("exercises")}
        exercises = [self._exercise(exercise_id, result, raw) for exercise_id, result in raw.items()]
        self.exercises = {e.id: e for e in sorted(exercises, key=lambda e: (e.name.casefold(), e.id))}
        self._derive_demands(raw)
        for cycle in find_cycles(self.exercises):
            self._report_cycle(cycle)
        self._broken_library = bool(self.problems)

    def _derive_demands(self, raw: Mapping[str, FileResult]) -> None:
        """Where an exercise says nothing of its demands, they are what its poses ask for."""
        silent = [
            key for key, result in raw.items() if "demands" not in result.value and "poses" in result.value
        ]
        if not silent:
            return
        forms = forms_of(self.exercises)
        known = dict(self.exercises)
        for exercise_id in silent:
            try:
                known[exercise_id] = with_derived_demands(known[exercise_id], forms.of(exercise_id))
            except KeyError:
                continue  # a reference that does not hold is reported elsewhere
        self.exercises = known

    def _report_cycle(self, cycle: tuple[FormKey, ...]) -> None:
        exercise = self.exercises[cycle[0].exercise]
        # The main form comes first where a variant is said to be the exercise that it belongs to.
        start = cycle[0].variant or cycle[1].variant
        variant = next(v for v in exercise.variants if v.id == start)
        chain = " -> ".join(key.variant or exercise.id for key in cycle)
        message = f"variants are made from each other in a circle: {chain}"
        advice = "let one of them be made from the main form"
        if variant.exercise == exercise.id:
            advice = f"leave 'exercise: {exercise.id}' out: variants are made from the main form anyway"
        self._report(
            "variant-cycle", variant.location.at("of" if variant.of else "exercise"), message, advice
        )

    def _exercise(self, exercise_id: str, result: FileResult, raw: Mapping[str, FileResult]) -> Exercise:
        location = Location(result.file)
        fields = dict(result.value)
        fields["poses"] = at_heights(fields.get("poses"), self._heights)
        variants = tuple(self._variant(dict(v), location, raw) for v in fields.pop("variants", ()))
        variants = tuple(replace(v, poses=at_heights(v.poses, self._heights)) for v in variants)
        exercise = Exercise(id=exercise_id, variants=variants, location=location, **fields)
        self._check_kit(exercise.kit, location.at("kit"))
        self._check_muscles(exercise.muscles, location.at("muscles"))
        self._check_demands(exercise.demands, location.at("demands"))
        self._check_cautions(exercise.cautions, location)
        self._check_pictures(exercise, location)
        ids = [v.id for v in variants]
        for index, variant in enumerate(variants):
            at = variant.location
            if variant.id in ids[:index]:
                self._report(
                    "duplicate-id",
                    at.at("id"),
                    f"the variant {variant.id!r} is there twice",
                    "give each its own id",
                )
            if variant.of is not None and variant.of not in ids:
                self._unknown("variant", variant.of, _variant_names(variants), at.at("of"))
            if variant.exercise is not None and variant.exercise not in self._names["exercises"]:
                self._unknown_exercise(variant.exercise, at.at("exercise"))
            if variant.kit is not None:
                self._check_kit(variant.kit, at.at("kit"))
            if variant.muscles is not None:
                self._check_muscles(variant.muscles, at.at("muscles"))
            if variant.demands is not None:
                self._check_demands(variant.demands, at.at("demands"))
            self._check_cautions(variant.cautions, at)
            self._check_needs(variant.meant_for, at.at("for"))
            self._check_pictures(variant, at)
        return exercise

    def _variant(self, fields: dict[str, Any], location: Location, raw: Mapping[str, FileResult]) -> Variant:
        path = fields.pop("path")
        other = raw.get(fields.get("exercise", ""))
        if "name" not in fields:
            fields["name"] = other.value["name"] if other else fields["exercise"]
        return Variant(location=location.at(*path), **fields)

    def _check_pictures(self, owner: Exercise | Variant, location: Location) -> None:
        for index, picture in enumerate(owner.pictures):
            self._check_file(picture.file, location.at("pictures", index, "file"), "missing-media")

    def _check_kit(self, kit: Iterable[str], location: Location) -> None:
        if self.details is None:
            return
        for index, piece in enumerate(kit):
            if piece not in self.details.kit:
                self._unknown("kit", piece, kit_names(self.details), location.at(index))

    def _check_muscles(self, muscles: Any, location: Location) -> None:
        known = [*MUSCLE_REGIONS, *(self.details.muscles if self.details else ())]
        for role in ("prime", "assist"):
            for index, muscle in enumerate(getattr(muscles, role)):
                if muscle not in known:
                    advice = "correct it" if self._suggested() else muscle_advice(muscle, known)
                    message = f"there is no muscle {muscle!r}"
                    meant = [one for one in meanings("muscles", muscle) if one in known]
                    instead = meant[0] if len(meant) == 1 else ""
                    self._report("unknown-muscle", location.at(role, index), message, advice, instead)

    # --- demands ---------------------------------------------------------------------------

    def _check_demands_of_series(self) -> None:
        if self.details is None:
            return
        for index, caution in enumerate(self.details.cautions):
            self._check_caution(caution, self.details.location_at("cautions", index))
        for need in self.details.needs.values():
            location = self.details.location_at("needs", need.id)
            self._check_demands(need.avoids, location.at("avoids"))
            self._check_demands(need.rather_without, location.at("rather_without"))
            self._check_kit(need.has, location.at("has"))

    def _check_needs(self, needs: Iterable[str], location: Location) -> None:
        if self.details is None:
            return
        for index, need in enumerate(needs):
            if need not in self.details.needs:
                self._unknown("need", need, need_names(self.details), location.at(index))

    def _check_cautions(self, cautions: Iterable[Caution], location: Location) -> None:
        for index, caution in enumerate(cautions):
            self._check_caution(caution, location.at("cautions", index))

    def _check_caution(self, caution: Caution, location: Location) -> None:
        kit = self.details.kit if self.details else ()
        for place, word in enumerate(caution.about):
            if word not in kit:
                self._check_demands([word], location.at("about"), place)

    def _check_demands(self, demands: Iterable[str], location: Location, first: int = 0) -> None:
        if self.details is None:  # what the series declares is not known
            return
        for index, demand in enumerate(demands, start=first):
            if demand not in self._demand_sentences:
                self._unknown_demand(demand, location.at(index))

    @cached_property
    def _demand_sentences(self) -> Mapping[str, str]:
        return self.details.demand_sentences if self.details else {}

    def _unknown_demand(self, word: str, location: Location) -> None:
        advice = demand_advice(word, self._demand_sentences, suggest=not self._suggested())
        self._report("unknown-demand", location, f"there is no demand {word!r}", advice)

    # --- episodes --------------------------------------------------------------------------

    def _episode(self, result: FileResult) -> Episode | None:
        known = self._before.episodes.get((result.file, result.digest)) if self._before else None
        episode = known or self._link_episode(result)
        if episode is None:
            return None
        self._check_files(episode)
        # Neither is looked into again before its pages are made: those of ten thousand open at once take
        # several hundred megabytes.
        result.fold()
        episode.fold()
        self._by_file[result.file, result.digest] = episode
        return episode

    def _link_episode(self, result: FileResult) -> Episode | None:
        location = Location(result.file)
        fields = dict(result.value)
        raw_blocks = fields.pop("blocks")
        blocks = [
            self._block(dict(raw), location.at("blocks", index)) for index, raw in enumerate(raw_blocks)
        ]
        if None in blocks:
            return None
        fields.setdefault("slug", slug_of(result.file))
        episode = Episode(location=location, blocks=tuple(b for b in blocks if b), **fields)
        self._check_cautions(episode.cautions, location)
        self._check_kit(episode.kit, location.at("kit"))
        self.problems.extend(check_times(episode))
        return episode

    def _block(self, fields: dict[str, Any], location: Location) -> Block | None:
        routine_id = fields.get("routine")
        if routine_id is None:
            self._check_items(fields["items"], location)
            return Block(location=location, **fields | {"items": self._with_kit(fields["items"], location)})
        if routine_id not in self._names["routines"]:
            self._unknown_routine(routine_id, location.at("routine"))
            return None
        routine = self._routines.get(routine_id)
        if routine is None:
            return None
        merged = dict(routine) | fields
        start = fields.get("at")
        merged["items"] = tuple(
            item if item.at is None else replace(item, at=None if start is None else item.at + start)
            for item in self._with_kit(merged["items"], None)
        )
        return Block(location=Location(self._routine_files[routine_id]), **merged)

    @cached_property
    def _routines(self) -> Mapping[str, Any]:
        return {id_of(r.file): r.value for r in self._usable("routines")}

    @cached_property
    def _routine_files(self) -> Mapping[str, str]:
        return {id_of(r.file): r.file for r in self._usable("routines")}

    def _check_items(self, items: tuple[Item, ...], location: Location) -> None:
        for index, item in enumerate(items):
            at = location.at("items", index)
            exercise = self.exercises.get(item.exercise)
            if item.exercise not in self._names["exercises"]:
                self._unknown_exercise(item.exercise, at.at("exercise"))
            elif exercise is not None:
                self._check_variants_of_item(item, exercise, at)

    def _with_kit(self, items: tuple[Item, ...], location: Location | None) -> tuple[Item, ...]:
        """The items with the piece of kit of each load settled; problems are told where it has a location."""
        return tuple(
            self._item_with_kit(item, location and location.at("items", index, "load"))
            for index, item in enumerate(items)
        )

    def _item_with_kit(self, item: Item, location: Location | None) -> Item:
        form = self.forms.get(FormKey(item.exercise, item.variant)) if item.load else None
        if item.load is None or form is None or self.details is None:
            return item
        load, complaints = placed(item.load, form, self.details.kit)
        if location is not None:
            for one in complaints:
                at = location.at(one.piece) if one.piece else location
                self._report(one.check, at, one.message, one.advice)
        return replace(item, load=load)

    def _check_variants_of_item(self, item: Item, exercise: Exercise, location: Location) -> None:
        ids, names = [v.id for v in exercise.variants], _variant_names(exercise.variants)
        if item.variant is not None and item.variant not in ids:
            self._unknown("variant", item.variant, names, location.at("variant"))
        for need_id, variant_id in item.versions.items():
            at = location.at("versions", need_id)
            if variant_id not in ids:
                self._unknown("variant", variant_id, names, at)
            elif self.details and need_id not in self.details.needs:
                self._unknown("need", need_id, need_names(self.details), at)
            elif self.details:
                self._check_version(item, need_id, variant_id, at)

    def _check_version(self, item: Item, need_id: str, variant_id: str, location: Location) -> None:
        form = self.forms.get(FormKey(item.exercise, variant_id))
        if self.details is None or form is None:
            return
        asked = sorted(set(form.demands) & set(self.details.needs[need_id].avoids))
        if asked:
            message = f"the variant {variant_id!r} asks for {', '.join(asked)}, which {need_id!r} avoids"
            self._report(
                "version-demands", location, message, "choose a variant without it, or correct its demands"
            )

    def _check_files(self, episode: Episode) -> None:
        location = episode.location
        for index, one in enumerate(episode.video.files if episode.video else ()):
            self._check_file(one.file, location.at("video", "file", index), "missing-media")
        if (
            episode.video
            and episode.video.host
            and self.details
            and episode.video.host not in self.details.hosts
        ):
            names = {key: (host.name,) for key, host in self.details.hosts.items()}
            self._unknown("host", episode.video.host, names, location.at("video", "host"))
        if episode.captions:
            self._check_file(episode.captions, location.at("captions"), "missing-captions")
        if episode.poster:
            self._check_file(episode.poster.file, location.at("poster", "file"), "missing-media")

    def _check_file(self, file: str, location: Location, check: str) -> None:
        if file in self.files:
            return
        near = None if self._suggested() else nearest(file, self.files)
        advice = f"did you mean {near!r}?" if near else "put the file there, or leave the key out"
        self._report(check, location, f"there is no file {file!r} in the content folder", advice)

    def _check_unique(self, episodes: list[Episode | None]) -> None:
        for key in ("number", "slug"):
            seen: dict[Any, Episode] = {}
            for episode in episodes:
                if episode is None:
                    continue
                value = getattr(episode, key)
                if value in seen:
                    message = f"the {key} {value} is already that of {seen[value].location.file}"
                    self._report(
                        f"duplicate-{key}",
                        episode.location.at(key),
                        message,
                        f"give each episode its own {key}",
                    )
                seen.setdefault(value, episode)

    def _check_unusable(self) -> None:
        """Ids of exercises, shared blocks and kit in files that have other problems: told in the same run."""
        for result in self.results:
            for kind, path, word in result.references:
                location = Location(result.file, path)
                if kind == "exercise" and word not in self._names["exercises"]:
                    self._unknown_exercise(word, location)
                elif kind == "routine" and word not in self._names["routines"]:
                    self._unknown_routine(word, location)
                elif kind == "kit" and self.details and word not in self.details.kit:
                    self._unknown("kit", word, kit_names(self.details), location)

    # --- suggestions -----------------------------------------------------------------------

    def _unknown(
        self, what: str, word: str, known: Iterable[str] | Mapping[str, Iterable[str]], location: Location
    ) -> None:
        """Report a reference that leads nowhere; ``known`` are ids, with their names where they have any."""
        names = known if isinstance(known, Mapping) else dict.fromkeys(known, ())
        advice = "correct it" if self._suggested() else id_advice(word, names, _COMMON.get(what))
        instead = meant_id(word, names)
        self._report(f"unknown-{what}", location, f"there is no {what} {word!r}", advice, instead)

    def _unknown_exercise(self, word: str, location: Location) -> None:
        advice = "correct it" if self._suggested() else exercise_advice(word, self.exercises)
        instead = meant_id(word, exercise_names(self.exercises))
        self._report("unknown-exercise", location, f"there is no exercise {word!r}", advice, instead)

    def _unknown_routine(self, word: str, location: Location) -> None:
        names: dict[str, tuple[str, ...]] = dict.fromkeys(self._names["routines"], ())
        names |= {key: (value["name"],) for key, value in self._routines.items()}
        self._unknown("routine", word, names, location)

    def _suggested(self) -> bool:
        """True once so many words were looked for that more would only take time."""
        return len(self.problems) >= _MOST_SUGGESTIONS
