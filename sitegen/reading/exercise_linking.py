"""The files of the library become exercises, with their variants and the demands that follow from poses."""

from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import replace
from typing import Any

from sitegen.model import Exercise, Variant
from sitegen.problems import Location
from sitegen.reading.files import FileResult
from sitegen.reading.folder import id_of
from sitegen.reading.reference_checks import ReferenceChecks
from sitegen.study.body.derived import with_derived_demands
from sitegen.study.body.pose import at_heights
from sitegen.study.body.things import heights_from
from sitegen.study.demand_words import reader_for
from sitegen.study.forms import FormKey, find_cycles, forms_of
from sitegen.study.said_demands import SaidDemands
from sitegen.study.sides import each_of_what
from sitegen.vocabulary import MUSCLE_REGIONS, UNTOLD


def variant_names(variants: Iterable[Variant]) -> Mapping[str, tuple[str, ...]]:
    """The names of variants by id."""
    return {variant.id: (variant.name,) for variant in variants}


class ExerciseLinker:
    """Turns the results of exercise files into exercises."""

    def __init__(self, results: Iterable[FileResult], checks: ReferenceChecks) -> None:
        self._raw = {id_of(result.file): result for result in results}
        self._checks = checks
        heights = checks.details.heights if checks.details is not None else None
        self._heights = heights_from(heights) if heights is not None else {}
        """Of the things that poses use, as far as the series sets them."""

    def link(self) -> Mapping[str, Exercise]:
        """All exercises by id, in order of name."""
        exercises = [self._exercise(exercise_id, result) for exercise_id, result in self._raw.items()]
        linked = {e.id: e for e in sorted(exercises, key=lambda e: (e.name.casefold(), e.id))}
        linked = self._with_said_demands(self._with_demands(linked))
        self._check_each(linked)
        for cycle in find_cycles(linked):
            self._report_cycle(linked[cycle[0].exercise], cycle)
        return linked

    def _with_demands(self, exercises: Mapping[str, Exercise]) -> dict[str, Exercise]:
        """Where an exercise says nothing of its demands, they are what its poses ask for, or not told."""
        known = dict(exercises)
        silent = [key for key, result in self._raw.items() if "demands" not in result.value]
        if not silent:
            return known
        forms = forms_of(exercises)
        for exercise_id in silent:
            try:
                known[exercise_id] = with_derived_demands(known[exercise_id], forms.of(exercise_id))
            except KeyError:  # a reference that does not hold is reported elsewhere
                known[exercise_id] = replace(known[exercise_id], demands=(UNTOLD,))
        return known

    def _with_said_demands(self, exercises: Mapping[str, Exercise]) -> dict[str, Exercise]:
        """Demands that only words, muscles or pattern of an exercise tell are its own until its file settles
        it: what is in doubt is not given to whom it may harm.
        """
        known = dict(exercises)
        if (details := self._checks.details) is None:
            return known
        regions = MUSCLE_REGIONS | dict(details.muscles)
        said = SaidDemands(
            reader=reader_for(details.language),
            leg_muscles={muscle for muscle, region in regions.items() if region == "lower"},
            kit=details.kit,
        )
        forms = forms_of(exercises)
        for exercise in exercises.values():
            # The trainer may have said that it is as declared.
            if "undeclared-demand" not in exercise.silence and said.may_add_to(exercise):
                with suppress(KeyError):  # a reference that does not hold is reported elsewhere
                    known[exercise.id] = said.added_to(exercise, forms.of(exercise.id))
        return known

    def _check_each(self, exercises: Mapping[str, Exercise]) -> None:
        """A bare ``each`` in the dose of a variant."""
        forms = forms_of(exercises)
        for exercise in exercises.values():
            for variant in exercise.variants:
                dose = variant.dose.dose if variant.dose is not None else None
                if dose is None or not dose.bare_each:
                    continue
                with suppress(KeyError):  # a reference that does not hold is reported elsewhere
                    if asked := each_of_what(dose, forms[FormKey(exercise.id, variant.id)], exercise):
                        self._checks.report("each-of-what", variant.location.at("dose"), *asked)

    def _report_cycle(self, exercise: Exercise, cycle: tuple[FormKey, ...]) -> None:
        # The main form comes first where a variant is said to be the exercise that it belongs to.
        start = cycle[0].variant or cycle[1].variant
        variant = next(v for v in exercise.variants if v.id == start)
        chain = " -> ".join(key.variant or exercise.id for key in cycle)
        message = f"variants are made from each other in a circle: {chain}"
        advice = "let one of them be made from the main form"
        if variant.exercise == exercise.id:
            advice = f"leave 'exercise: {exercise.id}' out: variants are made from the main form anyway"
        self._checks.report(
            "variant-cycle", variant.location.at("of" if variant.of else "exercise"), message, advice
        )

    def _exercise(self, exercise_id: str, result: FileResult) -> Exercise:
        location = Location(result.file)
        fields = dict(result.value)
        fields["poses"] = at_heights(fields.get("poses"), self._heights)
        variants = tuple(self._variant(dict(v), location) for v in fields.pop("variants", ()))
        variants = tuple(replace(v, poses=at_heights(v.poses, self._heights)) for v in variants)
        exercise = Exercise(id=exercise_id, variants=variants, location=location, **fields)
        self._checks.check_kit(exercise.kit, location.at("kit"))
        self._checks.check_muscles(exercise.muscles, location.at("muscles"))
        self._checks.check_demands(exercise.demands, location.at("demands"))
        self._checks.check_cautions(exercise.cautions, location)
        self._checks.check_pictures(exercise, location)
        for index, variant in enumerate(variants):
            self._check_variant(variant, variants, index)
        return exercise

    def _check_variant(self, variant: Variant, variants: tuple[Variant, ...], index: int) -> None:
        at, ids = variant.location, [v.id for v in variants]
        if variant.id in ids[:index]:
            message = f"the variant {variant.id!r} is there twice"
            self._checks.report("duplicate-id", at.at("id"), message, "give each its own id")
        if variant.of is not None and variant.of not in ids:
            self._checks.unknown("variant", variant.of, variant_names(variants), at.at("of"))
        if variant.exercise is not None and variant.exercise not in self._checks.ids["exercises"]:
            self._checks.unknown_exercise(variant.exercise, at.at("exercise"))
        if variant.kit is not None:
            self._checks.check_kit(variant.kit, at.at("kit"))
        if variant.muscles is not None:
            self._checks.check_muscles(variant.muscles, at.at("muscles"))
        if variant.demands is not None:
            self._checks.check_demands(variant.demands, at.at("demands"))
        self._checks.check_cautions(variant.cautions, at)
        self._checks.check_needs(variant.meant_for, at.at("for"))
        self._checks.check_pictures(variant, at)

    def _variant(self, fields: dict[str, Any], location: Location) -> Variant:
        path = fields.pop("path")
        other = self._raw.get(fields.get("exercise", ""))
        if "name" not in fields:
            fields["name"] = other.value["name"] if other else fields["exercise"]
        return Variant(location=location.at(*path), **fields)
