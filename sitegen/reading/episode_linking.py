"""The files of sessions and shared blocks become episodes, with the kit of every load settled."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import cached_property
from typing import Any

from sitegen.model import Block, Episode, Exercise, Item
from sitegen.problems import Location
from sitegen.reading.exercise_linking import variant_names
from sitegen.reading.files import FileResult
from sitegen.reading.folder import id_of, slug_of
from sitegen.reading.reference_advice import need_names
from sitegen.reading.reference_checks import ReferenceChecks
from sitegen.reading.timeline import check_times
from sitegen.study.forms import Form, FormKey, forms_of
from sitegen.study.sides import each_of_what
from sitegen.study.suitability import CombinedNeeds


class EpisodeLinker:
    """Turns the results of episode files into episodes."""

    def __init__(
        self,
        routines: Iterable[FileResult],
        exercises: Mapping[str, Exercise],
        checks: ReferenceChecks,
        *,
        library_holds: bool,
    ) -> None:
        self._routines = {id_of(result.file): result for result in routines}
        self._exercises = exercises
        self._checks = checks
        self._library_holds = library_holds

    @cached_property
    def _forms(self) -> Mapping[FormKey, Form]:
        """All forms; none where a reference among the exercises does not hold."""
        return forms_of(self._exercises) if self._library_holds else {}

    def link(self, result: FileResult) -> Episode | None:
        """The episode of a file; None where one of its shared blocks is not to be had."""
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
        self._checks.check_cautions(episode.cautions, location)
        self._checks.check_kit(episode.kit, location.at("kit"))
        self._checks.problems.extend(check_times(episode))
        return episode

    def _block(self, fields: dict[str, Any], location: Location) -> Block | None:
        routine_id = fields.get("routine")
        if routine_id is None:
            self._check_items(fields["items"], location)
            return Block(location=location, **fields | {"items": self._with_kit(fields["items"], location)})
        if routine_id not in self._checks.ids["routines"]:
            self._checks.unknown_routine(routine_id, location.at("routine"))
            return None
        routine = self._routines.get(routine_id)
        if routine is None:
            return None
        merged = dict(routine.value) | fields
        start = fields.get("at")
        merged["items"] = tuple(
            item if item.at is None else replace(item, at=None if start is None else item.at + start)
            for item in self._with_kit(merged["items"], None)
        )
        return Block(location=Location(routine.file), **merged)

    def check_routine(self, routine: FileResult) -> None:
        """What a shared block refers to, told once and not for every session that has it."""
        self._check_items(routine.value["items"], Location(routine.file))
        self._with_kit(routine.value["items"], Location(routine.file))

    def _check_items(self, items: tuple[Item, ...], location: Location) -> None:
        for index, item in enumerate(items):
            at = location.at("items", index)
            exercise = self._exercises.get(item.exercise)
            if item.exercise not in self._checks.ids["exercises"]:
                self._checks.unknown_exercise(item.exercise, at.at("exercise"))
            elif exercise is not None:
                self._check_variants_of_item(item, exercise, at)
                self._check_each(item, exercise, at)

    def _check_each(self, item: Item, exercise: Exercise, location: Location) -> None:
        """A bare ``each``: of each side, or of each exercise of the block?"""
        form = self._forms.get(FormKey(item.exercise, item.variant))
        if form is not None and (asked := each_of_what(item.dose, form, exercise)):
            self._checks.report("each-of-what", location.at("dose"), *asked)

    def _with_kit(self, items: tuple[Item, ...], location: Location | None) -> tuple[Item, ...]:
        """The items with the piece of kit of each load settled; problems are told where it has a location."""
        return tuple(
            self._item_with_kit(item, location and location.at("items", index, "load"))
            for index, item in enumerate(items)
        )

    def _item_with_kit(self, item: Item, location: Location | None) -> Item:
        form = self._forms.get(FormKey(item.exercise, item.variant)) if item.load else None
        if item.load is None or form is None or self._checks.details is None:
            return item
        return replace(item, load=self._checks.placed(item.load, form, location))

    def _check_variants_of_item(self, item: Item, exercise: Exercise, location: Location) -> None:
        ids, names = [v.id for v in exercise.variants], variant_names(exercise.variants)
        if item.variant is not None and item.variant not in ids:
            self._checks.unknown("variant", item.variant, names, location.at("variant"))
        for need_id, variant_id in item.versions.items():
            at = location.at("versions", need_id)
            if variant_id not in ids:
                self._checks.unknown("variant", variant_id, names, at)
            elif self._checks.details and need_id not in self._checks.details.needs:
                self._checks.unknown("need", need_id, need_names(self._checks.details), at)
            elif self._checks.details:
                self._check_version(item, need_id, variant_id, at)

    def _check_version(self, item: Item, need_id: str, variant_id: str, location: Location) -> None:
        form = self._forms.get(FormKey(item.exercise, variant_id))
        if self._checks.details is None or form is None:
            return
        asked = sorted(CombinedNeeds(self._checks.details, [need_id]).avoided.intersection(form.demands))
        if asked:
            message = f"the variant {variant_id!r} asks for {', '.join(asked)}, which {need_id!r} avoids"
            advice = "choose a variant without it, or correct its demands"
            self._checks.report("version-demands", location, message, advice)

    def check_files(self, episode: Episode) -> None:
        """The files of a session, and the host of its video: looked for again each time, for they may go."""
        location = episode.location
        for index, one in enumerate(episode.video.files if episode.video else ()):
            self._checks.check_file(one.file, location.at("video", "file", index), "missing-media")
        host, details = episode.video.host if episode.video else None, self._checks.details
        if host and details and host not in details.hosts:
            names = {key: (one.name,) for key, one in details.hosts.items()}
            self._checks.unknown("host", host, names, location.at("video", "host"))
        if episode.captions:
            self._checks.check_file(episode.captions, location.at("captions"), "missing-captions")
        if episode.poster:
            self._checks.check_file(episode.poster.file, location.at("poster", "file"), "missing-media")
